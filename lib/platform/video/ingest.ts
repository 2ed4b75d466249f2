import { createHash } from "node:crypto";
import path from "node:path";
import type { Readable } from "node:stream";
import { frameAtTick, type FrameTimes } from "@/lib/core/frame-times";
import { hearContact } from "./hear-contact";
import { makeSteppingCopy, makeStill } from "./make-pictures";
import { probeVideo, type VideoProbe } from "./probe";
import { readFrameTimes } from "./read-frame-times";

/** A file that has proved to be a video, and what was made of it. */
export interface IngestedVideo {
  readonly probe: VideoProbe;
  readonly times: FrameTimes;
  /** Frame at which the bat's crack is heard, if any. */
  readonly heardFrame: number | null;
  readonly steppingPath: string;
  readonly posterPath: string;
}

const POSTER_WIDTH_PX = 640;

/** Reads a video and makes its copies in a folder. @throws VideoRefused with a sentence when it is no video that can be kept */
export async function ingestVideo(file: string, folder: string): Promise<IngestedVideo> {
  const probe = await probeVideo(file);
  const times = await readFrameTimes(file, probe);
  const steppingPath = path.join(folder, "stepping.mp4");
  await makeSteppingCopy(file, probe, times, steppingPath);
  const heardFrame = probe.hasSound ? await hearFrame(file, times) : null;
  const posterPath = path.join(folder, "poster.jpg");
  await makeStill(steppingPath, times, heardFrame ?? times.ticks.length >> 1, posterPath, POSTER_WIDTH_PX);
  return { probe, times, heardFrame, steppingPath, posterPath };
}

/** The frame nearest to the crack; null without a crack, or when it lies outside the picture's time. */
export async function hearFrame(file: string, times: FrameTimes): Promise<number | null> {
  const onset = await hearContact(file);
  if (!onset) return null;
  const tick = (onset.seconds * times.timeBaseDen) / times.timeBaseNum;
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
