import { SLOW_SHARE, tipBeforeContact } from "@/lib/measure/suggest-events/launch";
import { contactOf, movingPlace, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, firstRun, framesBetween, isCovered, passingSeconds, slopeAround } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

const MOST_SD = 0.08;

/**
 * Finish: the start of the first run of 50 ms or more after contact in which the tip, filtered at 20 Hz from contact on,
 * is slower than 15 % of its peak before contact. Otherwise the last frame, `cut off`. Source: phases, event finish.
 */
export function suggestFinish(body: MovingBody): Found | null {
  const { tracks } = body;
  const contact = contactOf(body);
  const before = tipBeforeContact(body);
  const tip = movingPlace(body, { tip: 1 }, 20, "after");
  if (contact === null || !before || !tip) return null;
  const limit = SLOW_SHARE * before.peak;
  const frames = framesBetween(tracks, contact, Infinity);
  const frame = firstRun(frames, (one) => (Number.isFinite(tip.speed[one]) ? (tip.speed[one] ?? NaN) < limit : null), 0.05, tracks.periodSeconds);
  if (!isCovered(tip.speed, frames.filter((one) => frame === null || one <= frame), tracks)) return null;
  if (frame === null) return { seconds: tracks.seconds.at(-1) ?? NaN, sdSeconds: MOST_SD, note: "cut off" };
  const doubt = tip.speedSd / Math.abs(slopeAround(tip.speed, frame, tracks));
  return { seconds: passingSeconds(tip.speed, frame, limit, tracks), sdSeconds: eventSd(tracks.periodSeconds, [doubt], 0.01, MOST_SD), note: null };
}
