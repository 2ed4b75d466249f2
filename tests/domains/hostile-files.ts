import { readFileSync } from "node:fs";
import { seededRandom } from "@/lib/core/random";
import { filmRoom } from "./video-files";

type Room = ReturnType<typeof filmRoom>;
/** Whole numbers below a limit, the same for the same seed. */
const randomsOf = (seed: number) => {
  const random = seededRandom(seed);
  return { below: (limit: number) => Math.floor(random.uniform() * limit) };
};
type Random = ReturnType<typeof randomsOf>;

/** A file that somebody might send to do harm, or that broke on its way. */
export interface HostileFile {
  readonly kind: string;
  make(): string;
}

interface Base {
  readonly name: string;
  readonly bytes: Buffer;
}

function basesIn(room: Room): readonly Base[] {
  const read = (name: string, path: string) => ({ name, bytes: readFileSync(path) });
  const source = room.lavfi("testsrc=size=96x64:rate=30");
  return [
    read("last.mp4", room.make("base-last.mp4", ...source, "-frames:v", "12", ...room.h264)),
    read("first.mp4", room.make("base-first.mp4", ...source, ...room.lavfi("sine=duration=0.4"), "-t", "0.4", ...room.h264, "-c:a", "aac", "-movflags", "+faststart")),
    read("fragments.mp4", room.make("base-fragments.mp4", ...source, "-frames:v", "12", ...room.h264, "-g", "4", "-movflags", "frag_keyframe+empty_moov")),
    read("hevc.mov", room.make("base-hevc.mov", ...source, "-frames:v", "12", "-c:v", "libx265", "-preset", "ultrafast", "-x265-params", "log-level=none", "-tag:v", "hvc1")),
    read("vp9.webm", room.make("base-vp9.webm", ...source, "-frames:v", "12", "-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8")),
  ];
}

/** Where a box's own bytes begin; -1 without one. */
const boxAt = (bytes: Buffer, type: string) => bytes.indexOf(type, 0, "latin1");
const box = (type: string, body: Buffer = Buffer.alloc(0)) => {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + body.length);
  head.write(type, 4, "latin1");
  return Buffer.concat([head, body]);
};

function flipped(bytes: Buffer, random: Random, count: number, from = 0, to = bytes.length): Buffer {
  const out = Buffer.from(bytes);
  for (let i = 0; i < count; i++) {
    const at = from + random.below(Math.max(1, to - from));
    out[at] = (out[at] ?? 0) ^ (1 << random.below(8));
  }
  return out;
}

/** The same bytes with one number of a box written over; without such a box they stay as they are. */
function patched(bytes: Buffer, type: string, offset: number, value: number, width: 2 | 4 = 4): Buffer {
  const at = boxAt(bytes, type);
  if (at < 0 || at + 4 + offset + width > bytes.length) return bytes;
  const out = Buffer.from(bytes);
  out.writeUIntBE(value, at + 4 + offset, width);
  return out;
}

const LISTS: readonly (readonly [string, string])[] = [
  ["list.m3u8", "#EXTM3U\n#EXT-X-VERSION:3\n#EXTINF:1,\nfile:///etc/passwd\n#EXT-X-ENDLIST\n"],
  ["list.mp4", "#EXTM3U\n#EXTINF:1,\nhttp://127.0.0.1:9/inner.ts\n"],
  ["concat.mp4", "ffconcat version 1.0\nfile '/etc/passwd'\nfile '../../other.mp4'\n"],
  ["concat-protocol.mp4", "concat:/etc/passwd|/etc/hosts\n"],
  ["manifest.mp4", '<?xml version="1.0"?><MPD><Period><BaseURL>file:///etc/passwd</BaseURL></Period></MPD>'],
  ["session.mov", "v=0\no=- 0 0 IN IP4 127.0.0.1\nc=IN IP4 127.0.0.1\nm=video 5004 RTP/AVP 96\n"],
  ["data.mp4", "data:video/mp4;base64,AAAA\n"],
  ["sub.mp4", "1\n00:00:00,000 --> 00:00:01,000\n<script>alert(1)</script>\n"],
];
const STRANGERS: readonly (readonly [string, string])[] = [
  ["jpeg", "ffd8ffe000104a4649460001"], ["png", "89504e470d0a1a0a0000000d49484452"], ["gif", "474946383961010001000000"], ["zip", "504b0304140000000800"], ["pdf", "255044462d312e370a25e2e3"],
  ["elf", "7f454c46020101000000"], ["gzip", "1f8b0800000000000003"], ["heic", "000000186674797068656963000000006d69663168656963"], ["avi", "524946460000000041564920"], ["mp3", "4944330300000000"],
  ["ogg", "4f67675300020000"], ["flv", "464c5601050000000900"], ["mpegts", "474000100000b00d0001"], ["sqlite", "53514c69746520666f726d6174203300"],
];
const NAMES = ["..%2f..%2fetc.mp4", "-i.mp4", "%03d.mp4", "a;touch hurt.mp4", "$(touch hurt).mp4", "`touch hurt`.mp4", "<script>alert(1)<.mp4", "concat:x|y.mp4", "pipe:0.mp4", "line\nbreak.mp4", "'\"quotes.mp4", "\u202e4pm.mp4"];

/**
 * More than three hundred files of many kinds of harm, always the same for the same seed; each is written only when it is asked for.
 * @param room where they are written
 */
export function hostileFiles(room: Room, seed: number): readonly HostileFile[] {
  const bases = basesIn(room);
  const random = randomsOf(seed);
  const files: HostileFile[] = [];
  const add = (kind: string, extension: string, bytes: () => Buffer | string) => {
    const name = `hostile-${files.length}.${extension}`;
    files.push({ kind, make: () => room.write(name, bytes()) });
  };
  const extensionOf = ({ name }: Base) => name.slice(name.lastIndexOf(".") + 1);
  const eachBase = (times: number, kind: string, change: (base: Base, random: Random) => Buffer) => {
    for (const base of bases) for (let i = 0; i < times; i++) add(kind, extensionOf(base), () => change(base, randomsOf(seed + files.length * 7919 + i * 31 + base.bytes.length)));
  };
  const seeds = (count: number) => Array.from({ length: count }, () => randomsOf(random.below(2 ** 30)));

  eachBase(12, "cut short at a seeded place", ({ bytes }, dice) => bytes.subarray(0, dice.below(bytes.length)));
  eachBase(14, "bits flipped anywhere", ({ bytes }, dice) => flipped(bytes, dice, 1 + dice.below(40)));
  eachBase(4, "one stretch overwritten by chance", ({ bytes }, dice) => {
    const out = Buffer.from(bytes);
    const at = dice.below(bytes.length);
    for (let i = at; i < Math.min(bytes.length, at + 200); i++) out[i] = dice.below(256);
    return out;
  });
  eachBase(2, "a stretch doubled", ({ bytes }, dice) => {
    const at = dice.below(bytes.length);
    return Buffer.concat([bytes.subarray(0, at), bytes.subarray(Math.max(0, at - 500), at), bytes.subarray(at)]);
  });
  for (const base of bases.slice(0, 4)) {
    const from = boxAt(base.bytes, "moov");
    for (const dice of seeds(12)) add("bits flipped in the index", extensionOf(base), () => flipped(base.bytes, dice, 1 + dice.below(6), from, Math.min(base.bytes.length, from + 1400)));
  }

  for (const [kind, hex] of STRANGERS) add(`${kind} under the name of a film`, "mp4", () => Buffer.concat([Buffer.from(hex, "hex"), Buffer.from(Array.from({ length: 600 }, (_, i) => (i * 7919 + kind.length) % 256))]));
  for (const [name, text] of LISTS) add("a list that names other files", name.slice(name.lastIndexOf(".") + 1), () => text);
  const whole = bases[0]?.bytes ?? Buffer.alloc(0);
  const script = Buffer.from("<html><script>fetch('http://127.0.0.1:9')</script></html>");
  add("two kinds at once: a page, then a film", "mp4", () => Buffer.concat([script, whole]));
  add("two kinds at once: a page inside a film", "mp4", () => Buffer.concat([box("free", script), whole]));
  add("two kinds at once: a film, then an archive", "mp4", () => Buffer.concat([whole, Buffer.from("504b0506000000000000000000000000000000000000", "hex")]));
  add("two kinds at once: a picture, then a film", "mp4", () => Buffer.concat([Buffer.from("474946383961", "hex"), whole]));
  add("two kinds at once: two films", "mp4", () => Buffer.concat([whole, bases[1]?.bytes ?? whole]));
  for (const name of NAMES) files.push({ kind: "a name with path parts or a script", make: () => room.write(name.replaceAll("/", "_"), whole) });

  for (const base of bases.slice(0, 4)) {
    for (const side of [0, 1, 16385, 65535]) {
      const entry = base.name.startsWith("hevc") ? "hvc1" : "avc1";
      const at = boxAt(base.bytes, "stsd") + 16;
      add("a size that cannot be", extensionOf(base), () => patched(patched(base.bytes, entry, 24, side, 2), entry, 26, side, 2).subarray(0, Math.max(at, base.bytes.length)));
    }
    for (const value of [0, 1, 0x7fffffff, 0xffffffff]) {
      add("times that cannot be", extensionOf(base), () => patched(base.bytes, "stts", 12, value));
      add("a count that cannot be", extensionOf(base), () => patched(base.bytes, "stsz", 8, value));
      add("places outside the file", extensionOf(base), () => patched(base.bytes, "stco", 8, value));
      add("an edit list that cannot be", extensionOf(base), () => patched(base.bytes, "elst", 12, value));
      add("a clock that cannot be", extensionOf(base), () => patched(base.bytes, "mdhd", 12, value));
      add("a matrix that cannot be", extensionOf(base), () => patched(base.bytes, "tkhd", 40, value));
    }
    add("a codec that nobody knows", extensionOf(base), () => Buffer.from(base.bytes.toString("latin1").replace(/avc1(?=\0)|hvc1(?=\0)/g, "zzzz"), "latin1"));
    add("its bytes said to lie in another file", extensionOf(base), () => {
      const at = boxAt(base.bytes, "url ");
      return at < 0 ? base.bytes : Buffer.concat([base.bytes.subarray(0, at + 7), Buffer.from([0]), base.bytes.subarray(at + 8)]);
    });
  }
  add("a codec that is not opened here", "mov", () => readFileSync(room.make("prores.mov", ...room.lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", "-c:v", "prores_ks")));
  add("a larger relative of WebM", "webm", () => readFileSync(room.make("any.mkv", ...room.lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", ...room.h264)));
  add("a picture that is really too large", "mp4", () => readFileSync(room.make("large.mp4", ...room.lavfi("color=size=4200x4200:rate=1"), "-frames:v", "1", ...room.h264)));
  add("sound only", "mp4", () => readFileSync(room.make("sound.mp4", ...room.lavfi("sine=duration=1"), "-c:a", "aac")));
  add("an index without a frame", "mp4", () => readFileSync(room.frameless("none.mp4")));
  add("four hours", "mp4", () => readFileSync(room.make("long.mp4", ...room.lavfi("color=size=16x16:rate=1/60"), "-t", "14400", ...room.h264)));
  add("more tracks than a film has", "mp4", () => readFileSync(room.make("tracks.mp4", ...room.lavfi("sine=duration=0.1"), ...room.lavfi("testsrc=size=64x64:rate=30:duration=0.1"), "-map", "1:v", ...Array.from({ length: 18 }, () => ["-map", "0:a"]).flat(), "-c:v", "libx264", "-c:a", "aac")));
  add("nothing but empty boxes", "mp4", () => Buffer.concat([box("ftyp", Buffer.from("isom\x00\x00\x02\x00")), ...Array.from({ length: 100_100 }, () => box("free"))]));
  add("boxes in boxes, ten thousand deep", "mp4", () => {
    let inner = Buffer.alloc(0);
    for (let depth = 0; depth < 300; depth++) inner = box("moov", inner) as Buffer<ArrayBuffer>;
    return Buffer.concat([box("ftyp", Buffer.from("isom\x00\x00\x02\x00")), box("moov", Buffer.concat(Array.from({ length: 33 }, () => inner)))]);
  });
  for (const length of [0, 1, 7, 8, 15, 64]) add("next to nothing", "mp4", () => Buffer.alloc(length, 1));
  for (const dice of seeds(6)) add("bytes by chance after a good beginning", "mp4", () => Buffer.concat([box("ftyp", Buffer.from("isom\x00\x00\x02\x00")), Buffer.from(Array.from({ length: 4000 }, () => dice.below(256)))]));
  const tiny = () => room.make("tiny.mp4", ...room.lavfi("color=size=16x16:rate=240"), "-frames:v", "100", ...room.h264);
  const packets = (name: string, scale: string) => readFileSync(room.make(name, "-itsscale", scale, "-stream_loop", "999", "-i", tiny(), "-c", "copy", "-video_track_timescale", "90000"));
  add("100,000 tiny packets in twenty seconds", "mp4", () => packets("packets-20s.mp4", "0.048"));
  add("100,000 tiny packets in an hour", "mp4", () => packets("packets-hour.mp4", "8.64"));
  return files;
}
