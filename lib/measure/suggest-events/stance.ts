import { mixesOf } from "@/lib/measure/points";
import { contactOf, movingPlace, torsoPx, type MovingBody, type MovingPlace } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, framesBetween, isCovered, slopeAround } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/** Torso lengths a second below which a place stands still, and for how long before the stance. */
const STILL_SPEED = 0.15;
const STILL_SECONDS = 0.25;
/** At most this much doubt. */
const MOST_SD = 0.1;

/** Middle of the hips, hands and front ankle filtered at 10 Hz up to contact; null where one is not placed on the frames looked at. */
export function stillPlaces(body: MovingBody, frames: readonly number[]): readonly MovingPlace[] | null {
  const covered = (place: MovingPlace | null) => place !== null && isCovered(place.speed, frames, body.tracks);
  const hips = movingPlace(body, { hip_f: 0.5, hip_b: 0.5 }, 10, "before");
  const ankle = movingPlace(body, { an_f: 1 }, 10, "before");
  const hands = mixesOf("hands").map((mix) => movingPlace(body, mix, 10, "before")).find(covered) ?? null;
  return hips && ankle && hands && covered(hips) && covered(ankle) ? [hips, hands, ankle] : null;
}

/**
 * Stance: the last frame before which hips, hands and front ankle all stayed below 0.15 T/s for 0.25 s, among those at
 * which the front ankle has gone less than half of its way toward the pitcher by contact (way under 0.1 T, or a rear
 * view: among those 0.30 s or more before contact). Otherwise the first frame, `starts late`; but where the noise alone
 * may pass the limit (three SDs of a place's speed above it) nobody can say that the hitter never stood still, and
 * nothing is offered. Source: phases, event stance.
 */
export function suggestStance(body: MovingBody): Found | null {
  const { tracks, clip } = body;
  const contact = contactOf(body);
  const T = torsoPx(body, true);
  if (contact === null || T === null) return null;
  const frames = framesBetween(tracks, -Infinity, contact);
  const places = stillPlaces(body, frames);
  const ankle = places?.[2];
  if (!places || !ankle) return null;
  const allowed = frames.filter((frame) => isEarly(frame));
  const still = lastStill(STILL_SPEED * T);
  if (still !== null) return at(still, STILL_SPEED * T);
  if (places.some(({ speedSd }) => 3 * speedSd > STILL_SPEED * T)) return null;
  const first = frames[0];
  return first === undefined ? null : { seconds: tracks.seconds[first] ?? NaN, sdSeconds: MOST_SD, note: "starts late" };

  function isEarly(frame: number): boolean {
    const known = frames.filter((one) => Number.isFinite(ankle?.h[one]));
    const [start, end] = [ankle?.h[known[0] ?? -1] ?? NaN, ankle?.h[known.at(-1) ?? -1] ?? NaN];
    const way = end - start;
    if (clip.view === "side" && Math.abs(way) >= 0.1 * (T ?? NaN)) return ((ankle?.h[frame] ?? NaN) - start) / way < 0.5;
    return (tracks.seconds[frame] ?? NaN) <= (contact ?? NaN) - 0.3 + 1e-6 * tracks.periodSeconds;
  }

  function lastStill(limit: number): number | null {
    const slack = 1e-6 * tracks.periodSeconds;
    let stillSince: number | null = null;
    let found: number | null = null;
    const early = new Set(allowed);
    for (const frame of frames) {
      const speeds = places?.map(({ speed }) => speed[frame] ?? NaN) ?? [];
      if (!speeds.every(Number.isFinite)) continue;
      const time = tracks.seconds[frame] ?? NaN;
      if (speeds.some((speed) => speed >= limit)) stillSince = null;
      else stillSince ??= time;
      if (stillSince !== null && time - stillSince >= STILL_SECONDS - slack && early.has(frame)) found = frame;
    }
    return found;
  }

  function at(frame: number, level: number): Found {
    const doubts = (places ?? []).map(({ speed, speedSd }) => {
      // The slope is that of the place that moves on first: where its speed next passes the limit.
      const next = frames.find((one) => one > frame && (speed[one] ?? NaN) >= level);
      return next === undefined ? { next: Infinity, doubt: Infinity } : { next, doubt: Math.abs(speedSd / slopeAround(speed, next, tracks)) };
    });
    const soonest = doubts.reduce((a, b) => (b.next < a.next ? b : a), { next: Infinity, doubt: Infinity });
    return { seconds: tracks.seconds[frame] ?? NaN, sdSeconds: eventSd(tracks.periodSeconds, [0.03, soonest.doubt], 0.03, MOST_SD), note: null };
  }
}
