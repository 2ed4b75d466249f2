import { settings } from "../settings";
import { OnsetFinder, type Onset } from "./onset";
import { inputOptions, runTool, ToolFailed, type Container } from "./run-tool";
import { VideoRefused } from "./refusal";

/** What a finder of onsets is made for that `listen` tells. */
export const SAMPLES_PER_SECOND = 48_000;
/** A rise to twenty times the energy. Less is a voice or a step. */
const LEAST_RISE = 3;
/** How far the sound may be from the hit: finding it, and a camera some metres away (3 ms a metre), in real seconds. */
export const HEARD_SD_SECONDS = 0.01;

/** The loudest crack, and every sudden sound before it, in the order of time. */
export interface HeardSounds {
  readonly contact: Onset;
  readonly before: readonly Onset[];
}

/**
 * When the loudest crack is heard, in seconds of file time as the frames count them; null without sound or without a
 * crack. A sound that cannot be opened is no reason to refuse a video.
 */
export async function hearContact(path: string, container: Container = "mp4"): Promise<HeardSounds | null> {
  const finder = new OnsetFinder(SAMPLES_PER_SECOND);
  if (!(await listen(path, finder, container))) return null;
  const contact = finder.result(LEAST_RISE);
  return contact && { contact, before: finder.all(LEAST_RISE).filter(({ seconds }) => seconds < contact.seconds) };
}

/**
 * Tells a finder the sound of a file, one channel of 16 bits at `SAMPLES_PER_SECOND`, in file time.
 * @returns false where there is no sound, or none that can be opened
 */
export async function listen(path: string, finder: OnsetFinder, container?: Container): Promise<boolean> {
  let odd: Buffer = Buffer.alloc(0);
  const onOutput = (bytes: Buffer) => {
    const all = odd.length > 0 ? Buffer.concat([odd, bytes]) : bytes;
    const samples = Int16Array.from({ length: all.length >> 1 }, (_, i) => all.readInt16LE(i * 2));
    odd = all.subarray(samples.length * 2);
    finder.push(samples);
  };
  const args = [
    "-nostdin", "-v", "error", "-copyts", ...inputOptions(path, container), "-map", "0:a:0", "-af", "aresample=async=1:first_pts=0",
    "-ac", "1", "-ar", String(SAMPLES_PER_SECOND), "-f", "s16le", "pipe:1",
  ];
  try {
    await runTool(settings().FFMPEG_PATH, args, { timeMs: 120_000, outputBytes: 200_000_000, onOutput });
    return true;
  } catch (error) {
    if (error instanceof VideoRefused || (error instanceof ToolFailed && error.exitCode !== null)) return false;
    throw error;
  }
}
