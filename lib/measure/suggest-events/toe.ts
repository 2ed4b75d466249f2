import { contactOf, movingPlace, restingHeight, torsoPx, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { downWithHysteresis, eventSd, firstRun, framesBetween, isCovered, landingSd, passingSeconds, slopeAround } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/**
 * Toe touch: after the toe was up (more than 0.05 T or 5 SDs above its resting height), the start of the first run of
 * 25 ms or more within 0.03 T or 3 SDs of it, leaving only above 1.5 times that; heights filtered at 10 Hz up to
 * contact. Never up: when the front ankle's speed toward the pitcher, having passed 0.30 T/s, falls below it (SD
 * 0.03 s). No step: first move, `no stride`. Source: phases, event toe.
 */
export function suggestToe(body: MovingBody): Found | null {
  const { tracks, events } = body;
  const contact = contactOf(body);
  const T = torsoPx(body);
  const rest = restingHeight(body, "toe_f");
  const toe = movingPlace(body, { toe_f: 1 }, 10, "before");
  if (contact === null || T === null || rest === null || !toe) return null;
  const frames = framesBetween(tracks, events.stance?.seconds ?? -Infinity, contact);
  if (!isCovered(toe.v, frames, tracks)) return null;
  const above = toe.v.map((height) => height - rest);
  const limit = Math.max(0.03 * T, 3 * toe.sd);
  const up = frames.find((frame) => (above[frame] ?? NaN) > Math.max(0.05 * T, 5 * toe.sd));
  if (up === undefined) return slidingToe(body, T, contact);
  const states = downWithHysteresis(frames, (frame) => above[frame] ?? NaN, limit);
  const frame = firstRun(frames.filter((one) => one > up), (one) => states.get(one) ?? null, 0.025, tracks.periodSeconds);
  if (frame === null) return null;
  const fall = Math.abs(slopeAround(toe.v, frame, tracks));
  return { seconds: passingSeconds(above, frame, limit, tracks), sdSeconds: eventSd(tracks.periodSeconds, [toe.sd / fall, landingSd(limit, fall)], 0.005, 0.05), note: null };
}

function slidingToe(body: MovingBody, T: number, contact: number): Found | null {
  const { tracks, events } = body;
  const firstMove = events["first-move"];
  const ankle = movingPlace(body, { an_f: 1 }, 10, "before");
  if (!firstMove || !ankle) return null;
  const frames = framesBetween(tracks, firstMove.seconds, contact);
  if (!isCovered(ankle.speedH, frames, tracks)) return null;
  const speed = ankle.speedH;
  const fast = frames.find((frame) => (speed[frame] ?? NaN) > 0.3 * T);
  if (fast === undefined) return { seconds: firstMove.seconds, sdSeconds: firstMove.sdSeconds, note: "no stride" };
  const slow = frames.find((frame) => frame > fast && (speed[frame] ?? NaN) < 0.3 * T);
  return slow === undefined ? null : { seconds: passingSeconds(speed, slow, 0.3 * T, tracks), sdSeconds: 0.03, note: null };
}
