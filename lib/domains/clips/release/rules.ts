import { clockSecondsOf, nearestFrame, tickAtClockSeconds } from "../rules";
import type { ClipView } from "../view";

/** A ball that a machine throws is under way for so many real seconds: from a slow one over 12 m to a fast one over 17 m. Common practice, no source. */
const FLIGHT_SECONDS = { least: 0.3, most: 1.1 };
/** The sound of a machine reaches a camera beside the hitter later than the ball left it: 12 to 17 m at 343 m/s. */
const SOUND_LATE_SECONDS = 0.042;
/** How far that, and finding the sound, may be off. The dictionary gives 0.010 s for a release that a coach marks by sound. */
const HEARD_RELEASE_SD_SECONDS = 0.015;

/** The frame at which the pitch is heard to leave, and its doubt in real seconds. */
export interface HeardRelease {
  readonly frameIndex: number;
  readonly sdSeconds: number;
}

/**
 * The pitch's release as a machine is heard to throw, for somebody to say yes to; null off a tee, from a hand, which nobody
 * hears, when real time is not known, and when no sound lies where a ball's flight would put it. Of several the last one counts.
 * @param heard frames of the bat's crack and of what was heard before it
 */
export function heardRelease(
  heard: { readonly contact: number; readonly before: readonly number[] },
  task: string,
  clip: Pick<ClipView, "frameTimes" | "realSecondsPerFileSecond" | "timeBasis">,
): HeardRelease | null {
  const zero = clip.frameTimes.ticks[heard.contact];
  if (task !== "machine" || clip.timeBasis === "unknown" || zero === undefined) return null;
  const leftAt = heard.before
    .map((frame) => clockSecondsOf(clip, frame, zero) - SOUND_LATE_SECONDS)
    .findLast((seconds) => -seconds >= FLIGHT_SECONDS.least && -seconds <= FLIGHT_SECONDS.most);
  if (leftAt === undefined) return null;
  const tick = tickAtClockSeconds(clip, leftAt, zero);
  if (tick < (clip.frameTimes.ticks[0] ?? 0)) return null;
  return { frameIndex: nearestFrame(clip.frameTimes, tick), sdSeconds: HEARD_RELEASE_SD_SECONDS };
}
