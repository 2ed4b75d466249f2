import { rm } from "node:fs/promises";
import type { Writable } from "node:stream";
import { fileSecondsOf, type FrameTimes } from "@/lib/core/frame-times";
import { settings } from "../settings";
import { probeVideo, type VideoProbe } from "./probe";
import { readFrameTimes } from "./read-frame-times";
import { VIDEO_LIMITS, VideoRefused } from "./refusal";
import { inputOptions, runTool, ToolFailed } from "./run-tool";

const LONGER_SIDE_PX = 1280;
const QUIET = ["-nostdin", "-v", "error", "-y", "-threads", "2"] as const;
const TO_ORDINARY_LIGHT = "zscale=t=linear:npl=100,format=gbrpf32le,zscale=p=bt709,tonemap=hable,zscale=t=bt709:m=bt709:r=tv,";

/** Half pictures of two instants in one comb; the other half is worked out, one picture for each stored one. */
const ONE_OF_TWO_HALVES = "yadif=mode=send_frame:deint=interlaced,";
const [LEAST_TICKS, MOST_TICKS] = [90_000, 2_000_000];

/** Size of the stepping copy: even, its longer side at most 1280, never larger than the picture. */
export function steppingSize(widthPx: number, heightPx: number): { width: number; height: number } {
  const scale = Math.min(1, LONGER_SIDE_PX / Math.max(widthPx, heightPx));
  const even = (px: number) => Math.max(2, Math.round((px * scale) / 2) * 2);
  return { width: even(widthPx), height: even(heightPx) };
}

/** What makes the picture upright and square of its pixels at a size; `isHdr` brings high dynamic range down to an ordinary screen. */
function pictureFilter(probe: VideoProbe, { width, height }: { width: number; height: number }, isHdr = probe.isHdr): string {
  return `${isHdr ? TO_ORDINARY_LIGHT : ""}${probe.isInterlaced ? ONE_OF_TWO_HALVES : ""}scale=${width}:${height},setsar=1`;
}

/** A clock in which every tick of the file's own time base is a whole number of ticks, at 90 000 a second or more; else 90 000. */
export function copyTicksPerSecond({ timeBaseDen }: Pick<FrameTimes, "timeBaseDen">): number {
  const ticks = timeBaseDen * Math.max(1, Math.ceil(LEAST_TICKS / timeBaseDen));
  return ticks <= MOST_TICKS ? ticks : LEAST_TICKS;
}

/**
 * Makes the copy that is stepped through: upright, a key frame at every eighth, every frame kept with its time, and
 * nothing that the phone wrote beside the picture (place, maker, names). The count is looked at afterwards.
 * @returns what the copy says of itself
 * @throws VideoRefused "frames-lost" when a frame could not be opened
 */
export async function makeSteppingCopy(path: string, probe: VideoProbe, times: FrameTimes, target: string): Promise<{ readonly probe: VideoProbe; readonly times: FrameTimes }> {
  const size = steppingSize(probe.widthPx, probe.heightPx);
  const plain = pictureFilter(probe, size, false);
  const attempts = [
    ...(probe.isHdr ? [{ filter: pictureFilter(probe, size), hasSound: probe.hasSound }] : []),
    { filter: plain, hasSound: probe.hasSound },
    ...(probe.hasSound ? [{ filter: plain, hasSound: false }] : []),
  ];
  await firstThatWorks(attempts, ({ filter, hasSound }) => runTool(settings().FFMPEG_PATH, steppingArgs(path, probe, times, target, filter, hasSound), { timeMs: 30 * 60_000, outputBytes: 1_000_000 }));
  const copyProbe = await probeVideo(target);
  const copy = await readFrameTimes(target, copyProbe);
  if (copy.ticks.length !== times.ticks.length) {
    await rm(target, { force: true });
    throw new VideoRefused("frames-lost");
  }
  return { probe: copyProbe, times: copy };
}

async function firstThatWorks<T>(attempts: readonly T[], work: (attempt: T) => Promise<unknown>): Promise<void> {
  for (const [i, attempt] of attempts.entries()) {
    try {
      await work(attempt);
      return;
    } catch (error) {
      // A tool that is not there, or a full disk, is our own trouble; one that gives up on the file tells of the file.
      if (!(error instanceof ToolFailed) || error.exitCode === null || error.isDiskFull) throw error;
      if (i === attempts.length - 1) throw new VideoRefused("frames-lost");
    }
  }
}

/** The words that make a stepping copy: what a person would type, and what the bench compares with. */
export function steppingArgs(path: string, probe: VideoProbe, times: FrameTimes, target: string, filter = pictureFilter(probe, steppingSize(probe.widthPx, probe.heightPx)), hasSound = probe.hasSound): readonly string[] {
  const ticks = String(copyTicksPerSecond(times));
  return [
    ...QUIET, "-max_pixels", String(VIDEO_LIMITS.pixels), ...inputOptions(path, probe.container), "-map", `0:${probe.stream}`, ...(hasSound ? ["-map", "0:a:0?"] : []), "-map_metadata", "-1",
    "-map_chapters", "-1", "-vf", filter, "-fps_mode", "passthrough", "-enc_time_base", "-1", "-video_track_timescale", ticks, "-movie_timescale", ticks,
    "-pix_fmt", "yuv420p", "-c:v", "libx264", "-threads", "2", "-preset", "veryfast", "-crf", "23", "-g", "8", "-bf", "0", "-sc_threshold", "0",
    "-ac", "2", "-movflags", "+faststart", "-f", "mp4", `file:${target}`,
  ];
}

/**
 * One frame of a file as it came, upright, as a JPEG: there long before the stepping copy is. Only the group of pictures around it is opened.
 * @throws ToolFailed where the file cannot be opened at that place
 */
export async function makeFirstStill(path: string, probe: VideoProbe, times: FrameTimes, frameIndex: number, target: string, widthPx: number): Promise<void> {
  const { width, height } = steppingSize(probe.widthPx, probe.heightPx);
  const wide = Math.min(widthPx, width);
  const filter = pictureFilter(probe, { width: wide, height: Math.max(2, Math.round((height * wide) / width / 2) * 2) });
  const at = fileSecondsOf(times, frameIndex);
  const before = frameIndex > 0 ? at - fileSecondsOf(times, frameIndex - 1) : 0;
  const seek = frameIndex > 0 ? ["-seek_timestamp", "1", "-ss", (at - before / 2).toFixed(6)] : [];
  const args = [
    ...QUIET, "-max_pixels", String(VIDEO_LIMITS.pixels), ...seek, ...inputOptions(path, probe.container), "-map", `0:${probe.stream}`, "-frames:v", "1", "-vf", filter,
    "-q:v", "3", "-f", "image2", "-update", "1", `file:${target}`,
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 60_000, outputBytes: 1_000_000 });
}

/**
 * One frame of a stepping copy as a JPEG, by its index.
 * @param times frame times of the original; the copy keeps their distances
 */
export async function makeStill(steppingPath: string, times: FrameTimes, frameIndex: number, target: string, widthPx?: number): Promise<void> {
  const secondsFromFirst = fileSecondsOf(times, frameIndex) - fileSecondsOf(times, 0);
  const before = frameIndex > 0 ? fileSecondsOf(times, frameIndex) - fileSecondsOf(times, frameIndex - 1) : 0;
  const seek = (await firstTimeOf(steppingPath)) + secondsFromFirst - before / 2;
  const args = [
    ...QUIET, "-seek_timestamp", "1", "-ss", seek.toFixed(6), ...inputOptions(steppingPath), "-map", "0:v:0", "-frames:v", "1",
    ...(widthPx ? ["-vf", `scale='min(${widthPx},iw)':-2`] : []), "-q:v", "3", "-f", "image2", "-update", "1", `file:${target}`,
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 60_000, outputBytes: 1_000_000 });
}

/** A part of the picture, each number as a part of its width or height. */
export interface PictureArea {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const CUT_WIDTH_PX = 444;

/**
 * Some frames of a stepping copy, each cut by the same area, as JPEGs at most 444 pixels wide. One pass: frames are counted, not looked up by time.
 * @param frames their indexes, increasing
 * @returns the paths, in the order of the frames
 */
export async function makeCuts(steppingPath: string, frames: readonly number[], area: PictureArea, folder: string): Promise<readonly string[]> {
  const chosen = frames.map((frame) => `eq(n\\,${frame})`).join("+");
  const part = (value: number) => value.toFixed(6);
  const crop = `crop=iw*${part(area.width)}:ih*${part(area.height)}:iw*${part(area.left)}:ih*${part(area.top)}`;
  const args = [
    ...QUIET, ...inputOptions(steppingPath), "-map", "0:v:0", "-vf", `select=${chosen},${crop},scale=w='min(${CUT_WIDTH_PX},iw)':h=-2`,
    "-fps_mode", "passthrough", "-frames:v", String(frames.length), "-q:v", "3", "-f", "image2", `file:${folder}/cut-%03d.jpg`,
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 5 * 60_000, outputBytes: 1_000_000 });
  return frames.map((_, i) => `${folder}/cut-${String(i + 1).padStart(3, "0")}.jpg`);
}

const FRAME_MS = 2000;

/**
 * Some frames of a stepping copy as bare bytes, three a pixel, one picture after the other in one pass: the taker sets the pace, and nothing gathers.
 * @param frames their indexes, increasing
 * @param size of the pictures, that of the copy
 */
export async function giveFrames(steppingPath: string, frames: readonly number[], size: { readonly width: number; readonly height: number }, into: Writable): Promise<void> {
  const chosen = frames.map((frame) => `eq(n\\,${frame})`).join("+");
  const args = [
    "-nostdin", "-v", "error", "-threads", "1", ...inputOptions(steppingPath), "-map", "0:v:0", "-vf", `select=${chosen},scale=${size.width}:${size.height}`,
    "-fps_mode", "passthrough", "-frames:v", String(frames.length), "-pix_fmt", "rgb24", "-f", "rawvideo", "pipe:1",
  ];
  const bytes = frames.length * size.width * size.height * 3;
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 120_000 + FRAME_MS * frames.length, outputBytes: bytes, into });
}

/** When the copy's first frame is shown, in seconds of its own time. */
export async function firstTimeOf(path: string): Promise<number> {
  const args = ["-v", "error", "-select_streams", "v:0", "-show_entries", "stream=start_time", "-of", "csv=p=0", ...inputOptions(path)];
  const output = await runTool(settings().FFPROBE_PATH, args, { timeMs: 60_000, outputBytes: 10_000 });
  const seconds = Number(output.toString("latin1").trim());
  return Number.isFinite(seconds) ? seconds : 0;
}
