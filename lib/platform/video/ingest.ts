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

/** Reads a video and makes its copies in a folder. @throws VideoRefused with a sentence when it is no video that can be kept */
export async function ingestVideo(file: string, folder: string): Promise<IngestedVideo> {
  const probe = await probeVideo(file);
  const times = await readFrameTimes(file, probe);
  const steppingPath = path.join(folder, "stepping.mp4");
  await makeSteppingCopy(file, probe, times, steppingPath);
  const heard = probe.hasSound ? await hearFrames(file, times) : null;
  const posterPath = path.join(folder, "poster.jpg");
  await makeStill(steppingPath, times, heard?.contact ?? times.ticks.length >> 1, posterPath, POSTER_WIDTH_PX);
  return { probe, times, heard, steppingPath, posterPath };
}

/** The frames nearest to the crack and to what is heard before it; null without a crack, or when it lies outside the picture's time. */
export async function hearFrames(file: string, times: FrameTimes): Promise<HeardFrames | null> {
  const sounds = await hearContact(file);
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
