import type { FrameTimes } from "@/lib/core/frame-times";

/** The real seconds of a clip's frames, or why they cannot be had. */
export type RealSeconds =
  | { readonly seconds: readonly number[]; readonly reason: null }
  | { readonly seconds: null; readonly reason: string };

/**
 * Real seconds that pass for one second of file time: playback rate over capture rate. 240 frames a second kept to play at 30
 * give 1/8. Source: the library's conventions, `sync`.
 * @throws RangeError for rates that are not above 0
 */
export function realSecondsPerFileSecond(captureFps: number, playbackFps: number): number {
  if (!(captureFps > 0 && captureFps < Infinity && playbackFps > 0 && playbackFps < Infinity)) throw new RangeError("a rate must be above 0 frames a second");
  return playbackFps / captureFps;
}

/**
 * Real seconds of every frame from one tick on (contact, say). Each comes from the frame's own presentation tick, never from
 * its number and a nominal rate, so that uneven frames keep their true times; ticks are taken apart as whole numbers, so
 * that nothing is lost far into a long file.
 * @param scale real seconds that pass for one second of file time
 * @param zeroTick tick that becomes 0 s; may lie between frames
 * @returns null with its reason where ticks are missing or do not increase
 * @throws RangeError for a scale that is not above 0
 */
export function realSecondsFrom(times: FrameTimes, scale: number, zeroTick: number): RealSeconds {
  if (!(scale > 0 && scale < Infinity)) throw new RangeError("real seconds per second of the file must be above 0");
  const { timeBaseNum, timeBaseDen, ticks } = times;
  if (ticks.length === 0) return { seconds: null, reason: "the file has no frames" };
  if (!(timeBaseNum > 0 && timeBaseDen > 0)) return { seconds: null, reason: "the file does not say how long a tick is" };
  if (!Number.isFinite(zeroTick)) return { seconds: null, reason: "the moment to count from is not known" };
  const isIncreasing = ticks.every((tick, i) => Number.isSafeInteger(tick) && (i === 0 || tick > (ticks[i - 1] ?? Infinity)));
  if (!isIncreasing) return { seconds: null, reason: "the times of the frames do not increase" };
  return { seconds: ticks.map((tick) => (((tick - zeroTick) * timeBaseNum) / timeBaseDen) * scale), reason: null };
}
