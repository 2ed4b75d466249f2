import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

/** A folder of small files made by ffmpeg, each once, for one test file. */
export function filmRoom() {
  const folder = mkdtempSync(path.join(tmpdir(), "cagebook-film-"));
  const at = (name: string) => path.join(folder, name);
  const make = (name: string, ...args: string[]) => {
    execFileSync("ffmpeg", ["-v", "error", "-y", ...args, at(name)]);
    return at(name);
  };
  const lavfi = (source: string) => ["-f", "lavfi", "-i", source];
  const h264 = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p"];
  return {
    folder,
    at,
    make,
    lavfi,
    h264,
    write: (name: string, bytes: string | Uint8Array) => {
      writeFileSync(at(name), bytes);
      return at(name);
    },
    /** Moving picture of so many frames; the number differs with the seed, so two seeds are two unlike files. */
    plain: (name: string, { fps = 60, frames = 30, size = "320x240", seed = 0 } = {}) =>
      make(name, ...lavfi(`testsrc=size=${size}:rate=${fps}:decimals=3,hue=h=${seed * 40}`), "-frames:v", String(frames), ...h264),
    /** A quiet room with one crack, the picture beside it. */
    crack: (name: string, { fps = 120, seconds = 1.5, at: when = 1 } = {}) =>
      make(
        name,
        ...lavfi(`testsrc=size=320x240:rate=${fps}`),
        ...lavfi(`aevalsrc='0.002*(random(0)-0.5)+if(gte(t,${when}),0.8*exp(-(t-${when})/0.01)*(2*random(1)-1),0)':s=48000`),
        "-t", String(seconds), ...h264, "-c:a", "aac", "-b:a", "128k",
      ),
    /** 178 frames whose distances vary: every third of 267 even ones is taken out. Each shows its index as ten bits, white for 1. */
    uneven: (name: string) =>
      make(
        name, ...lavfi("color=size=320x64:rate=120"), "-frames:v", "178",
        "-vf", "select='mod(n,3)',geq=lum='if(mod(floor(N/pow(2,floor(X/32))),2),235,16)':cb=128:cr=128",
        "-fps_mode", "passthrough", "-enc_time_base", "1/120", ...h264,
      ),
    /** The index that such a frame shows. */
    readIndex: (file: string) =>
      execFileSync("ffmpeg", ["-v", "error", "-i", file, "-vf", "scale=10:1:flags=area,format=gray", "-frames:v", "1", "-f", "rawvideo", "-"]).reduce(
        (sum, grey, bit) => sum + (grey > 128 ? 2 ** bit : 0),
        0,
      ),
    /** A file of which only the head with its index is there: a picture track without a frame. */
    frameless: (name: string) => {
      const whole = readFileSync(make(`whole-${name}`, ...lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", ...h264, "-movflags", "empty_moov+frag_keyframe"));
      writeFileSync(at(name), whole.subarray(0, whole.indexOf("moof") - 4));
      return at(name);
    },
    /** As a phone held upright writes it: the picture lies, and the file says that it is to be turned a quarter clockwise. */
    turned: (name: string, file: string, heightPx: number) => {
      const bytes = readFileSync(file);
      const matrix = bytes.indexOf("tkhd") + 44;
      [0, 0x10000, 0, -0x10000, 0, 0, heightPx << 16, 0, 0x40000000].forEach((value, i) => bytes.writeInt32BE(value, matrix + i * 4));
      writeFileSync(at(name), bytes);
      return at(name);
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
