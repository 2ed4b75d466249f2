import { contactOf, movingPlace, restingHeight, torsoPx, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { downWithHysteresis, eventSd, firstRun, framesBetween, isCovered, landingSd, passingSeconds, slopeAround } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/**
 * Heel plant: from toe touch on, the start of the first run of 25 ms or more with the heel's height, filtered at 10 Hz,
 * within 0.03 T or 3 SDs of its resting height, leaving only above 1.5 times that. Toe-only lander: when the knee's
 * speed toward the pitcher first falls to 0 (SD 0.02 s). Source: phases, event plant.
 */
export function suggestPlant(body: MovingBody): Found | null {
  const { tracks, events } = body;
  const contact = contactOf(body);
  const T = torsoPx(body);
  const rest = restingHeight(body, "heel_f");
  const heel = movingPlace(body, { heel_f: 1 }, 10, "before");
  const toe = events.toe?.seconds;
  if (contact === null || T === null || rest === null || !heel || toe === undefined) return null;
  const frames = framesBetween(tracks, toe, contact);
  if (!isCovered(heel.v, frames, tracks)) return null;
  const above = heel.v.map((height) => height - rest);
  const limit = Math.max(0.03 * T, 3 * heel.sd);
  const states = downWithHysteresis(frames, (frame) => above[frame] ?? NaN, limit);
  const frame = firstRun(frames, (one) => states.get(one) ?? null, 0.025, tracks.periodSeconds);
  if (frame === null) return stoppedKnee(body, frames);
  const fall = Math.abs(slopeAround(heel.v, frame, tracks));
  return { seconds: Math.max(toe, passingSeconds(above, frame, limit, tracks)), sdSeconds: eventSd(tracks.periodSeconds, [heel.sd / fall, landingSd(limit, fall)], 0.005, 0.05), note: null };
}

function stoppedKnee(body: MovingBody, frames: readonly number[]): Found | null {
  const knee = movingPlace(body, { kn_f: 1 }, 10, "before");
  if (!knee || !isCovered(knee.speedH, frames, body.tracks)) return null;
  const frame = frames.slice(1).find((one) => (knee.speedH[one] ?? NaN) <= 0);
  return frame === undefined ? null : { seconds: passingSeconds(knee.speedH, frame, 0, body.tracks), sdSeconds: 0.02, note: null };
}
