import { rm } from "node:fs/promises";
import { fileSecondsOf, type FrameTimes } from "@/lib/core/frame-times";
import { settings } from "../settings";
import type { Stretch } from "./incoming";
import { firstTimeOf } from "./make-pictures";
import { probeVideo } from "./probe";
import { readFrameTimes } from "./read-frame-times";
import { inputOptions, runTool } from "./run-tool";

const QUIET = ["-nostdin", "-v", "error", "-y", "-threads", "2"] as const;
const SCALES = ["-video_track_timescale", "90000", "-movie_timescale", "90000", "-movflags", "+faststart", "-f", "mp4"] as const;

/**
 * The stepping copy of a stretch of a film, without its sound: exactly the frames of the stretch. Where the stretch begins at a key frame of
 * the film's copy its pictures are taken over as they are; else they are encoded once more.
 * @param times frame times of the whole film; the copy keeps their distances
 * @throws Error when the copy that was made has other frames than the stretch
 */
export async function makeStretch(steppingPath: string, times: FrameTimes, stretch: Stretch, target: string): Promise<void> {
  const { firstFrame, lastFrame } = stretch;
  const count = lastFrame - firstFrame + 1;
  const keys = await keyFramesOf(steppingPath);
  const source = ["-map", "0:v:0", "-an", "-map_metadata", "-1"];
  if (keys[firstFrame]) {
    const next = times.ticks[firstFrame + 1] === undefined ? 0 : fileSecondsOf(times, firstFrame + 1) - fileSecondsOf(times, firstFrame);
    const seek = (await firstTimeOf(steppingPath)) + fileSecondsOf(times, firstFrame) - fileSecondsOf(times, 0) + next / 4;
    const args = [
      ...QUIET, "-seek_timestamp", "1", "-ss", seek.toFixed(6), ...inputOptions(steppingPath), ...source, "-c", "copy", "-frames:v", String(count), "-avoid_negative_ts", "make_zero", ...SCALES, `file:${target}`,
    ];
    await runTool(settings().FFMPEG_PATH, args, { timeMs: 5 * 60_000, outputBytes: 1_000_000 });
  } else {
    const args = [
      ...QUIET, ...inputOptions(steppingPath), ...source, "-vf", `select=between(n\\,${firstFrame}\\,${lastFrame}),setpts=PTS-STARTPTS`, "-fps_mode", "passthrough", "-enc_time_base", "-1", "-frames:v", String(count),
      "-pix_fmt", "yuv420p", "-c:v", "libx264", "-threads", "2", "-preset", "veryfast", "-crf", "20", "-g", "8", "-bf", "0", "-sc_threshold", "0", ...SCALES, `file:${target}`,
    ];
    await runTool(settings().FFMPEG_PATH, args, { timeMs: 15 * 60_000, outputBytes: 1_000_000 });
  }
  const made = await readFrameTimes(target, await probeVideo(target));
  if (made.ticks.length === count) return;
  await rm(target, { force: true });
  throw new Error(`a stretch of ${count} frames became ${made.ticks.length}`);
}

/** Which frames of a copy are key frames, in the order of presentation. */
async function keyFramesOf(path: string): Promise<readonly boolean[]> {
  const args = ["-v", "error", "-select_streams", "v:0", "-show_entries", "packet=pts,flags", "-of", "csv=p=0", ...inputOptions(path)];
  const output = await runTool(settings().FFPROBE_PATH, args, { timeMs: 120_000, outputBytes: 64_000_000 });
  const packets = output.toString("latin1").split("\n").filter(Boolean).map((line) => line.split(","));
  return packets.sort(([a], [b]) => Number(a) - Number(b)).map(([, flags = ""]) => flags.includes("K"));
}
