import { z } from "zod";
import { settings } from "../settings";
import { lookAtContainer } from "./first-look";
import { VIDEO_CODECS, VIDEO_LIMITS, VideoRefused } from "./refusal";
import { inputOptions, runTool, ToolFailed, type Container } from "./run-tool";

/** What a file says of its picture before anything is decoded. */
export interface VideoProbe {
  readonly container: Container;
  readonly codec: string;
  /** Index of the picture's stream in the file. */
  readonly stream: number;
  /** Size of the upright picture with square pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Clockwise turn that sets the stored picture upright, after any mirroring of its columns: 0, 90, 180 or 270. */
  readonly rotationDeg: number;
  readonly durationS: number;
  readonly hasSound: boolean;
  readonly isHdr: boolean;
  /** Each stored picture holds two half pictures of different instants. */
  readonly isInterlaced: boolean;
  /** Frames a second at which it was filmed, where the file says so apart from its frame times. */
  readonly captureFps: number | null;
  /** How many frames the index promises; null when it does not say. */
  readonly promisedFrames: number | null;
  readonly timeBaseNum: number;
  readonly timeBaseDen: number;
}

const stream = z.object({
  index: z.int(),
  codec_type: z.string().optional(),
  codec_name: z.string().optional(),
  width: z.int().optional(),
  height: z.int().optional(),
  sample_aspect_ratio: z.string().optional(),
  color_transfer: z.string().optional(),
  field_order: z.string().optional(),
  time_base: z.string().optional(),
  duration: z.coerce.number().optional(),
  nb_frames: z.coerce.number().optional(),
  disposition: z.object({ attached_pic: z.int().optional(), default: z.int().optional() }).optional(),
  side_data_list: z.array(z.object({ displaymatrix: z.string().optional() })).optional(),
});
const answer = z.object({
  streams: z.array(stream),
  format: z.object({ duration: z.coerce.number().optional(), tags: z.record(z.string(), z.string()).optional() }),
});

/** Reads what a file says of itself. @throws VideoRefused when it is no video that can be kept */
export async function probeVideo(path: string): Promise<VideoProbe> {
  const family = await lookAtContainer(path);
  const args = ["-v", "error", "-print_format", "json", "-show_format", "-show_streams", ...inputOptions(path, family === "webm" ? "webm" : "mp4")];
  const output = await runTool(settings().FFPROBE_PATH, args, { timeMs: 60_000, outputBytes: 4_000_000 }).catch((error: unknown) => {
    if (error instanceof ToolFailed && error.exitCode !== null) throw new VideoRefused(/moov atom not found/.test(error.said) ? "cut" : "not-a-video");
    throw error;
  });
  const { streams, format } = answer.parse(JSON.parse(output.toString("utf8")));
  if (streams.length > VIDEO_LIMITS.streams) throw new VideoRefused("too-many-streams");
  const picture = mainPicture(streams);
  if (!picture) throw new VideoRefused("no-picture");
  if (!VIDEO_CODECS.includes(picture.codec_name ?? "")) throw new VideoRefused("codec");
  const { width = 0, height = 0 } = picture;
  if (width * height > VIDEO_LIMITS.pixels) throw new VideoRefused("too-large-picture");
  const durationS = Math.max(format.duration ?? 0, picture.duration ?? 0);
  if (durationS > VIDEO_LIMITS.seconds) throw new VideoRefused("too-long");
  if (width === 0 || height === 0 || picture.nb_frames === 0) throw new VideoRefused("no-frames");
  const rotationDeg = turnOf(picture.side_data_list?.find((it) => it.displaymatrix !== undefined)?.displaymatrix);
  const [wide, high] = [Math.round(width * ratioOf(picture.sample_aspect_ratio)), height];
  const [timeBaseNum, timeBaseDen] = timeBaseOf(picture.time_base);
  return {
    container: family === "webm" ? "webm" : format.tags?.major_brand?.trim() === "qt" ? "mov" : "mp4",
    codec: picture.codec_name ?? "",
    stream: picture.index,
    widthPx: rotationDeg % 180 === 0 ? wide : high,
    heightPx: rotationDeg % 180 === 0 ? high : wide,
    rotationDeg,
    durationS,
    hasSound: streams.some((it) => it.codec_type === "audio"),
    isHdr: picture.color_transfer === "smpte2084" || picture.color_transfer === "arib-std-b67",
    isInterlaced: ["tt", "bb", "tb", "bt"].includes(picture.field_order ?? ""),
    captureFps: captureFpsOf(format.tags),
    promisedFrames: picture.nb_frames ?? null,
    timeBaseNum,
    timeBaseDen,
  };
}

/** Of several pictures the one that players show first; a cover, which is a still, is none. Among equals the largest. */
function mainPicture(streams: z.infer<typeof answer>["streams"]) {
  const areaOf = ({ width = 0, height = 0 }: z.infer<typeof stream>) => width * height;
  const pictures = streams.filter((it) => it.codec_type === "video" && it.disposition?.attached_pic !== 1);
  const first = pictures.filter((it) => it.disposition?.default === 1);
  return (first.length > 0 ? first : pictures).reduce<z.infer<typeof stream> | null>((best, it) => (best && areaOf(best) >= areaOf(it) ? best : it), null);
}

/** The turn in the matrix that lays the stored picture into the upright one (ISO/IEC 14496-12, 8.3.2), told by where its rows go. */
function turnOf(matrix: string | undefined): number {
  const rows = (matrix ?? "").split("\n").filter((line) => line.includes(":")).map((line) => line.slice(line.indexOf(":") + 1).trim().split(/\s+/).map(Number));
  const [across = 0, down = 1] = rows[1] ?? [];
  return ((Math.round(Math.atan2(-across, down) / (Math.PI / 2)) * 90) % 360 + 360) % 360;
}

/** Width of one stored pixel over its height; 1 when nothing sensible is said. */
function ratioOf(text: string | undefined): number {
  const [across = 1, down = 1] = (text ?? "1:1").split(":").map(Number);
  const ratio = across / down;
  return ratio > 0.25 && ratio < 4 ? ratio : 1;
}

function timeBaseOf(text: string | undefined): readonly [number, number] {
  const [num = 0, den = 0] = (text ?? "").split("/").map(Number);
  if (!(Number.isInteger(num) && Number.isInteger(den) && num > 0 && den > 0)) throw new VideoRefused("times-unusable");
  return [num, den];
}

function captureFpsOf(tags: Readonly<Record<string, string>> | undefined): number | null {
  const fps = Number(tags?.["com.android.capture.fps"]);
  return fps >= 1 && fps <= 2000 ? fps : null;
}
