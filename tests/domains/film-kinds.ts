import { readFileSync } from "node:fs";
import { filmRoom } from "./video-files";

type Room = ReturnType<typeof filmRoom>;

/** When the frames of a made film are shown: whole ticks of a time base, known before the film is made. */
export interface Timing {
  readonly num: number;
  readonly den: number;
  /** The tick of frame n, and the same in ffmpeg's words. */
  readonly tickOf: (n: number) => number;
  readonly words: string;
}

/** A made film of a kind that phones and programs write, and what is true of it. */
export interface FilmKind {
  readonly name: string;
  readonly frames: number;
  readonly timing: Timing;
  /** Upright size with square pixels. */
  readonly size: readonly [number, number];
  readonly said: { readonly codec: string; readonly container: string; readonly rotationDeg?: number; readonly hasSound?: boolean; readonly captureFps?: number | null; readonly isHdr?: boolean; readonly isInterlaced?: boolean };
  /** The index that the first shown frame carries in its picture. */
  readonly firstIndex?: number;
  make(room: Room): string;
}

const even = (num: number, den: number, step: number): Timing => ({ num, den, tickOf: (n) => n * step, words: `N*${step}` });
const AT_30 = even(1, 15360, 512);
const AT_240 = even(1, 15360, 64);

/** 30 a second, then 240, then 30: what a phone keeps of a slow stretch with its real times. */
const SLOW_MIDDLE: Timing = {
  num: 1, den: 15360,
  tickOf: (n) => (n < 10 ? n * 512 : n < 50 ? 5120 + (n - 10) * 64 : 7680 + (n - 50) * 512),
  words: "if(lt(N,10),N*512,if(lt(N,50),5120+(N-10)*64,7680+(N-50)*512))",
};
/** Frames 7 and 19 of 30 a second were never written. */
const DROPPED: Timing = { num: 1, den: 15360, tickOf: (n) => (n + Number(n >= 7) + Number(n >= 18)) * 512, words: "(N+gte(N,7)+gte(N,18))*512" };
/** Milliseconds that jump about, as a program writes that films a screen. */
const JUMPY: Timing = { num: 1, den: 16000, tickOf: (n) => (n * 33 + ((n * n * 7) % 11)) * 16, words: "(N*33+mod(N*N*7,11))*16" };

const bitsOf = (white: number) =>
  `geq=lum='16+${white - 16}*if(lt(floor(4*Y/H),2),mod(floor(N/pow(2,4*floor(4*Y/H)+floor(4*X/W))),2),if(eq(floor(4*Y/H),2),lt(4*X,W),gte(2*X,W)))':cb=128:cr=128`;

/**
 * Words for ffmpeg that draw a film whose upright picture says which frame it is and which way is up: sixteen fields, the first two rows
 * the index in bits, the third white at the left, the fourth white in its right half.
 */
function drawn(frames: number, { num, den, words }: Timing, size: string, { white = 235, after = "" } = {}): string[] {
  return [
    "-f", "lavfi", "-i", `color=size=${size}:rate=30`, "-frames:v", String(frames), "-vf", `settb=${num}/${den},setpts='${words}',${bitsOf(white)}${after ? `,${after}` : ""}`,
    "-fps_mode", "passthrough", "-enc_time_base", `${num}/${den}`,
  ];
}

const H264 = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p"];
const HEVC = ["-c:v", "libx265", "-preset", "ultrafast", "-x265-params", "log-level=none", "-tag:v", "hvc1"];
const scaled = (timing: Timing) => ["-video_track_timescale", String(timing.den)];
const mp4 = (room: Room, name: string, frames: number, timing: Timing, size: string, ...more: string[]) => room.make(name, ...drawn(frames, timing, size), ...H264, ...scaled(timing), ...more);
const hdr = (curve: string) => ["-pix_fmt", "yuv420p10le", "-color_primaries", "bt2020", "-color_trc", curve, "-colorspace", "bt2020nc"];

const tone = ["-f", "lavfi", "-i", "sine=duration=1:sample_rate=48000"];
const withTone = (room: Room, name: string, film: string, ...more: string[]) => room.make(name, "-i", film, ...tone, "-map", "0:v", "-map", "1:a", "-c:v", "copy", "-c:a", "aac", "-video_track_timescale", "15360", ...more);

/** Writes how the stored picture is to be laid into the upright one (ISO/IEC 14496-12, 8.3.2: the track's matrix). */
function laid(room: Room, name: string, file: string, [a, b, c, d]: readonly [number, number, number, number]): string {
  const bytes = Buffer.from(readFileSync(file));
  const matrix = bytes.indexOf("tkhd") + 44;
  const one = 0x10000;
  [a * one, b * one, 0, c * one, d * one, 0, 0, 0, 0x40000000].forEach((value, i) => bytes.writeInt32BE(value, matrix + i * 4));
  return room.write(name, bytes);
}

/** Writes which stretch of the track is shown (8.6.6: the edit list), both in ticks. */
function edited(room: Room, name: string, file: string, from: number, length: number, ticksPerSecond: number): string {
  const bytes = Buffer.from(readFileSync(file));
  const movieScale = bytes.readUInt32BE(bytes.indexOf("mvhd") + 16);
  const entry = bytes.indexOf("elst") + 12;
  bytes.writeUInt32BE(Math.round((length / ticksPerSecond) * movieScale), entry);
  bytes.writeInt32BE(from, entry + 4);
  return room.write(name, bytes);
}

const H264_MP4 = { codec: "h264", container: "mp4" } as const;
const H264_MOV = { codec: "h264", container: "mov" } as const;
const WIDE = "160x128";
const SIZE = [160, 128] as const;
const turned = (after: string, name: string, matrix: readonly [number, number, number, number]) => (room: Room) =>
  laid(room, `${name}.mp4`, room.make(`lying-${name}.mp4`, ...drawn(20, AT_30, "128x160", { after }), ...H264, ...scaled(AT_30)), matrix);

/** Every kind of file that is known to arrive, each small, each with its truth. */
export const FILM_KINDS: readonly FilmKind[] = [
  { name: "30 a second, index last", frames: 30, timing: AT_30, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "plain.mp4", 30, AT_30, WIDE) },
  { name: "index first", frames: 30, timing: AT_30, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "faststart.mp4", 30, AT_30, WIDE, "-movflags", "+faststart") },
  { name: "variable rate: normal, slow, normal", frames: 60, timing: SLOW_MIDDLE, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "slow-middle.mp4", 60, SLOW_MIDDLE, WIDE) },
  { name: "true 240 a second", frames: 96, timing: AT_240, size: SIZE, said: { ...H264_MP4, captureFps: null }, make: (room) => mp4(room, "true240.mp4", 96, AT_240, WIDE) },
  {
    name: "slow motion exported at 30, with a tag of its capture rate", frames: 40, timing: AT_30, size: SIZE, said: { ...H264_MP4, captureFps: 240 },
    make: (room) => mp4(room, "tagged.mp4", 40, AT_30, WIDE, "-movflags", "use_metadata_tags", "-metadata", "com.android.capture.fps=240.000000"),
  },
  { name: "slow motion exported at 30, without a tag", frames: 40, timing: AT_30, size: SIZE, said: { ...H264_MOV, captureFps: null }, make: (room) => mp4(room, "export.mov", 40, AT_30, WIDE) },
  { name: "turned a quarter clockwise", frames: 20, timing: AT_30, size: [128, 160], said: { ...H264_MP4, rotationDeg: 90 }, make: turned("transpose=cclock", "turn90", [0, 1, -1, 0]) },
  { name: "turned a quarter the other way", frames: 20, timing: AT_30, size: [128, 160], said: { ...H264_MP4, rotationDeg: 270 }, make: turned("transpose=clock", "turn270", [0, -1, 1, 0]) },
  {
    name: "upside down", frames: 20, timing: AT_30, size: SIZE, said: { ...H264_MP4, rotationDeg: 180 },
    make: (room) => laid(room, "turn180.mp4", room.make("lying180.mp4", ...drawn(20, AT_30, WIDE, { after: "hflip,vflip" }), ...H264, ...scaled(AT_30)), [-1, 0, 0, -1]),
  },
  {
    name: "a selfie that is mirrored by its matrix", frames: 20, timing: AT_30, size: SIZE, said: H264_MP4,
    make: (room) => laid(room, "selfie.mp4", room.make("selfie-stored.mp4", ...drawn(20, AT_30, WIDE, { after: "hflip" }), ...H264, ...scaled(AT_30)), [-1, 0, 0, 1]),
  },
  { name: "an upright selfie, turned and mirrored by its matrix", frames: 20, timing: AT_30, size: [128, 160], said: { ...H264_MP4, rotationDeg: 270 }, make: turned("transpose=cclock_flip", "selfie-up", [0, 1, 1, 0]) },
  { name: "portrait as stored", frames: 20, timing: AT_30, size: [128, 160], said: H264_MP4, make: (room) => mp4(room, "portrait.mp4", 20, AT_30, "128x160") },
  { name: "HEVC", frames: 30, timing: AT_30, size: SIZE, said: { codec: "hevc", container: "mov" }, make: (room) => room.make("hevc.mov", ...drawn(30, AT_30, WIDE), ...HEVC, "-pix_fmt", "yuv420p", ...scaled(AT_30)) },
  {
    name: "HEVC of 10 bits, hybrid log-gamma", frames: 20, timing: AT_30, size: SIZE, said: { codec: "hevc", container: "mov", isHdr: true },
    make: (room) => room.make("hlg.mov", ...drawn(20, AT_30, WIDE, { white: 16 + 219 * 0.75 }), ...HEVC, ...hdr("arib-std-b67"), ...scaled(AT_30)),
  },
  {
    name: "HEVC of 10 bits, perceptual quantiser", frames: 20, timing: AT_30, size: SIZE, said: { codec: "hevc", container: "mp4", isHdr: true },
    make: (room) => room.make("pq.mp4", ...drawn(20, AT_30, WIDE, { white: 16 + 219 * 0.58 }), ...HEVC, ...hdr("smpte2084"), ...scaled(AT_30)),
  },
  { name: "with sound", frames: 30, timing: AT_30, size: SIZE, said: { ...H264_MP4, hasSound: true }, make: (room) => withTone(room, "sound.mp4", mp4(room, "mute.mp4", 30, AT_30, WIDE)) },
  {
    name: "several sound tracks", frames: 30, timing: AT_30, size: SIZE, said: { ...H264_MOV, hasSound: true },
    make: (room) => withTone(room, "two-sounds.mov", mp4(room, "mute2.mp4", 30, AT_30, WIDE), "-map", "1:a", "-c:a:1", "pcm_s16le"),
  },
  {
    name: "an edit list that takes the beginning away, in the middle of a group of pictures", frames: 23, timing: AT_30, size: SIZE, said: H264_MP4, firstIndex: 17,
    make: (room) => edited(room, "trim-start.mp4", mp4(room, "untrimmed.mp4", 40, AT_30, WIDE, "-g", "12", "-movflags", "+faststart"), 17 * 512, 23 * 512, 15360),
  },
  {
    name: "an edit list that takes both ends away", frames: 15, timing: AT_30, size: SIZE, said: H264_MP4, firstIndex: 9,
    make: (room) => edited(room, "trim-both.mp4", mp4(room, "untrimmed2.mp4", 60, AT_30, WIDE, "-g", "6"), 9 * 512, 15 * 512, 15360),
  },
  {
    name: "a picture that begins after its sound", frames: 30, timing: { ...AT_30, tickOf: (n) => 5376 + n * 512 }, size: SIZE, said: { ...H264_MP4, hasSound: true },
    make: (room) => room.make("late.mp4", "-itsoffset", "0.35", "-i", mp4(room, "on-time.mp4", 30, AT_30, WIDE), ...tone, "-map", "0:v", "-map", "1:a", "-c:v", "copy", "-c:a", "aac", "-video_track_timescale", "15360", "-movie_timescale", "15360"),
  },
  { name: "frames stored out of order", frames: 40, timing: AT_30, size: SIZE, said: H264_MOV, make: (room) => mp4(room, "b-frames.mov", 40, AT_30, WIDE, "-preset", "medium", "-bf", "3") },
  {
    name: "times that begin below nothing", frames: 30, timing: { ...AT_30, tickOf: (n) => -7680 + n * 512 }, size: SIZE, said: H264_MP4,
    make: (room) => mp4(room, "negative.mp4", 30, AT_30, WIDE, "-bf", "0", "-avoid_negative_ts", "disabled", "-output_ts_offset", "-0.5", "-movflags", "frag_keyframe+empty_moov+frag_discont"),
  },
  { name: "dropped frames", frames: 28, timing: DROPPED, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "dropped.mp4", 28, DROPPED, WIDE) },
  { name: "4K", frames: 4, timing: AT_30, size: [3840, 2160], said: H264_MP4, make: (room) => room.make("four-k.mp4", ...drawn(4, AT_30, "160x90", { after: "scale=3840:2160:flags=neighbor" }), ...H264, ...scaled(AT_30)) },
  { name: "59.94 a second", frames: 60, timing: even(1, 60000, 1001), size: SIZE, said: H264_MP4, make: (room) => mp4(room, "ntsc60.mp4", 60, even(1, 60000, 1001), WIDE) },
  { name: "29.97 a second on a clock of 600", frames: 30, timing: even(1, 600, 20), size: SIZE, said: H264_MOV, make: (room) => mp4(room, "clock600.mov", 30, even(1, 600, 20), WIDE) },
  { name: "a clock of a million", frames: 30, timing: even(1, 1_000_000, 33_333), size: SIZE, said: H264_MP4, make: (room) => mp4(room, "micro.mp4", 30, even(1, 1_000_000, 33_333), WIDE) },
  { name: "a screen filmed by a program, times that jump about", frames: 45, timing: JUMPY, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "screen.mp4", 45, JUMPY, WIDE, "-profile:v", "baseline", "-crf", "30") },
  {
    name: "VP9 in WebM", frames: 30, timing: even(1, 1000, 33), size: SIZE, said: { codec: "vp9", container: "webm" },
    make: (room) => room.make("vp9.webm", ...drawn(30, even(1, 1000, 33), WIDE), "-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8"),
  },
  {
    name: "VP8 in WebM as a browser records it, without its length", frames: 30, timing: even(1, 1000, 33), size: SIZE, said: { codec: "vp8", container: "webm" },
    make: (room) => room.make("vp8.webm", ...drawn(30, even(1, 1000, 33), WIDE), "-c:v", "libvpx", "-deadline", "realtime", "-cpu-used", "8", "-live", "1"),
  },
  {
    name: "AV1", frames: 20, timing: AT_30, size: SIZE, said: { codec: "av1", container: "mp4" },
    make: (room) => room.make("av1.mp4", ...drawn(20, AT_30, WIDE), "-c:v", "libaom-av1", "-cpu-used", "8", "-usage", "realtime", ...scaled(AT_30)),
  },
  { name: "in fragments", frames: 30, timing: AT_30, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "fragments.mp4", 30, AT_30, WIDE, "-g", "10", "-movflags", "frag_keyframe+empty_moov") },
  {
    name: "odd width and height", frames: 20, timing: even(1, 1000, 33), size: [161, 127], said: { codec: "vp9", container: "webm" },
    make: (room) => room.make("odd.webm", ...drawn(20, even(1, 1000, 33), WIDE, { after: "scale=161:127:flags=neighbor,setsar=1" }), "-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8"),
  },
  {
    name: "interlaced", frames: 25, timing: even(1, 12800, 512), size: SIZE, said: { ...H264_MOV, isInterlaced: true },
    make: (room) => room.make("interlaced.mov", ...drawn(25, even(1, 12800, 512), WIDE, { after: "setfield=tff" }), ...H264, "-preset", "veryfast", "-flags", "+ildct+ilme", "-x264opts", "tff=1", ...scaled(even(1, 12800, 512))),
  },
  {
    name: "pixels that are not square", frames: 20, timing: AT_30, size: [213, 128], said: H264_MP4,
    make: (room) => room.make("anamorphic.mp4", ...drawn(20, AT_30, WIDE, { after: "setsar=4/3" }), ...H264, ...scaled(AT_30)),
  },
  { name: "one group of pictures for the whole film", frames: 90, timing: AT_30, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "long-group.mp4", 90, AT_30, WIDE, "-preset", "veryfast", "-g", "250", "-sc_threshold", "0") },
  {
    name: "two pictures, a small one first", frames: 30, timing: AT_30, size: SIZE, said: H264_MOV,
    make: (room) =>
      room.make("two-pictures.mov", "-f", "lavfi", "-i", "color=red:size=64x48:rate=10:duration=1", "-i", mp4(room, "second.mp4", 30, AT_30, WIDE), "-map", "0:v", "-map", "1:v", "-c:v:0", "libx264", "-c:v:1", "copy", "-disposition:v:0", "0", "-disposition:v:1", "default", "-video_track_timescale", "15360"),
  },
  {
    name: "a cover beside the picture", frames: 30, timing: AT_30, size: SIZE, said: H264_MP4,
    make: (room) =>
      room.make("cover.mp4", "-i", room.make("cover.jpg", "-f", "lavfi", "-i", "color=blue:size=320x320", "-frames:v", "1"), "-i", mp4(room, "covered.mp4", 30, AT_30, WIDE), "-map", "0:v", "-map", "1:v", "-c", "copy", "-disposition:v:0", "attached_pic", "-video_track_timescale", "15360"),
  },
  { name: "a time code beside the picture", frames: 30, timing: AT_30, size: SIZE, said: H264_MOV, make: (room) => mp4(room, "timecode.mov", 30, AT_30, WIDE, "-timecode", "10:00:00:00") },
  { name: "an old camera's MPEG-4", frames: 30, timing: AT_30, size: SIZE, said: { codec: "mpeg4", container: "mp4" }, make: (room) => room.make("mpeg4.mp4", ...drawn(30, AT_30, WIDE), "-c:v", "mpeg4", "-q:v", "3", ...scaled(AT_30)) },
  { name: "a single frame", frames: 1, timing: AT_30, size: SIZE, said: H264_MP4, make: (room) => mp4(room, "single.mp4", 1, AT_30, WIDE) },
];
