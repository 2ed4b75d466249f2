import { contactOf, torsoPx, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, firstRun, framesBetween, passingSeconds, slopeAround } from "@/lib/measure/suggest-events/runs";
import { stillPlaces } from "@/lib/measure/suggest-events/stance";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/** Torso lengths a second above which a place moves. */
const MOVING_SPEED = 0.3;

/**
 * First move: the start of the first run after the stance, of 50 ms or more, in which hips, hands or front ankle
 * (filtered at 10 Hz) are faster than 0.30 T/s or three SDs of their speed, the larger. Unknown when the clip starts
 * after it. Source: phases, event first-move.
 */
export function suggestFirstMove(body: MovingBody): Found | null {
  const { tracks, events } = body;
  const contact = contactOf(body);
  const T = torsoPx(body);
  const stance = events.stance?.seconds;
  if (contact === null || T === null || stance === undefined || events.stance?.note === "starts late") return null;
  const frames = framesBetween(tracks, stance, contact);
  const places = stillPlaces(body, frames);
  if (!places) return null;
  const found = places.flatMap(({ speed, speedSd }) => {
    const limit = Math.max(MOVING_SPEED * T, 3 * speedSd);
    const frame = firstRun(frames, (one) => (Number.isFinite(speed[one]) ? (speed[one] ?? NaN) > limit : null), 0.05, tracks.periodSeconds);
    if (frame === null) return [];
    const slope = Math.abs(slopeAround(speed, frame, tracks));
    return [{ frame, seconds: passingSeconds(speed, frame, limit, tracks), doubt: speedSd / slope, early: (limit - MOVING_SPEED * T) / slope }];
  });
  const first = found.reduce<(typeof found)[number] | null>((a, b) => (a === null || b.seconds < a.seconds ? b : a), null);
  if (first === null || first.frame === 0) return null;
  // Where noise raises a limit, the move began about this much earlier: the longest of the three, since any may have begun it.
  const early = Math.max(...found.map((one) => one.early));
  return { seconds: Math.max(stance, first.seconds), sdSeconds: eventSd(tracks.periodSeconds, [first.doubt, early], 0.01, 0.08), note: null };
}
