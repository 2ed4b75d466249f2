import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import path from "node:path";
import type { Readable } from "node:stream";
import { fileSecondsOf, frameAtTick, type FrameTimes } from "@/lib/core/frame-times";
import { hearContact } from "./hear-contact";
import { makeFirstStill, makeSteppingCopy, makeStill } from "./make-pictures";
import { probeVideo, type VideoProbe } from "./probe";
import { readFrameTimes } from "./read-frame-times";
import { VideoRefused } from "./refusal";
import { ToolFailed, type Container } from "./run-tool";

/** A file that has proved to be a video, and what was made of it. */
export interface IngestedVideo {
  readonly probe: VideoProbe;
  readonly times: FrameTimes;
  readonly heard: HeardFrames | null;
  readonly steppingPath: string;
  readonly posterPath: string;
}

/** Frames at which something sudden is heard. */
export interface HeardFrames {
  /** The bat's crack. */
  readonly contact: number;
  /** What was heard before it, in the order of time. */
  readonly before: readonly number[];
}

const POSTER_WIDTH_PX = 640;

/** Reads a video before anything of it is copied: what it says, its times, what is heard. @throws VideoRefused */
export async function readVideo(file: string): Promise<Pick<IngestedVideo, "probe" | "times" | "heard">> {
  const probe = await probeVideo(file);
  const times = await readFrameTimes(file, probe);
  const spanS = fileSecondsOf(times, times.ticks.length - 1) - fileSecondsOf(times, 0);
  // A film written while it was taken may not say how long it is.
  return { probe: { ...probe, durationS: Math.max(probe.durationS, spanS) }, times, heard: probe.hasSound ? await hearFrames(file, times, probe.container) : null };
}

/**
 * Reads a video and makes its copies in a folder. The one picture that stands for it comes first, long before the stepping copy.
 * @param onPoster told the poster's path as soon as it is there
 * @throws VideoRefused with a sentence when it is no video that can be kept
 */
export async function ingestVideo(file: string, folder: string, onPoster: (path: string) => Promise<void> = async () => undefined): Promise<IngestedVideo> {
  const read = await readVideo(file);
  const { probe, times, heard } = read;
  const frameOfPoster = heard?.contact ?? times.ticks.length >> 1;
  const steppingPath = path.join(folder, "stepping.mp4");
  const posterPath = path.join(folder, "poster.jpg");
  const isEarly = await makeFirstStill(file, probe, times, frameOfPoster, posterPath, POSTER_WIDTH_PX).then(
    () => existsSync(posterPath),
    (error: unknown) => {
      if (error instanceof VideoRefused || (error instanceof ToolFailed && error.exitCode !== null && !error.isDiskFull)) return false;
      throw error;
    },
  );
  if (isEarly) await onPoster(posterPath);
  await makeSteppingCopy(file, probe, times, steppingPath);
  if (!isEarly) await makeStill(steppingPath, times, frameOfPoster, posterPath, POSTER_WIDTH_PX);
  return { ...read, steppingPath, posterPath };
}

/** The frames nearest to the crack and to what is heard before it; null without a crack, or when it lies outside the picture's time. */
export async function hearFrames(file: string, times: FrameTimes, container: Container): Promise<HeardFrames | null> {
  const sounds = await hearContact(file, container);
  const contact = sounds && frameOf(sounds.contact.seconds, times);
  if (!sounds || contact === null) return null;
  return { contact, before: sounds.before.flatMap(({ seconds }) => frameOf(seconds, times) ?? []) };
}

/** The frame nearest to an instant of file time; null when it lies outside the picture's time. */
function frameOf(seconds: number, times: FrameTimes): number | null {
  const tick = (seconds * times.timeBaseDen) / times.timeBaseNum;
  const at = frameAtTick(times, tick);
  const [here = tick, next] = [times.ticks[at], times.ticks[at + 1]];
  if (tick < here) return null;
  if (next === undefined) return tick - here > here - (times.ticks[at - 1] ?? here) ? null : at;
  return next - tick < tick - here ? at + 1 : at;
}

/** SHA-256 of bytes, hex. */
export async function hashOf(bytes: Readable): Promise<string> {
  const hash = createHash("sha256");
  for await (const piece of bytes) hash.update(piece as Buffer);
  return hash.digest("hex");
}
