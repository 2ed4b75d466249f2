import { splineWeights } from "@/lib/measure/between/spline-weights";
import { LARGEST_GAP } from "@/lib/measure/signals/pieces";

/** A frame on which a point is not placed and can be worked out from frames that have it. */
export interface BetweenFrame {
  readonly frame: number;
  /** The placed frames through which the curve goes, two to four in order; the frame lies after `knots[left]` and before the next. */
  readonly knots: readonly number[];
  readonly left: number;
  /** Their weights, which add up to 1. */
  readonly weights: readonly number[];
  /** It was followed from those frames through the pictures: it has a place of its own, and their noise in it by these weights. */
  readonly isFollowed?: true;
}

/** Guards a comparison of times against rounding, in intervals. */
const EPSILON = 1e-6;
/** A frame this near to contact, in intervals, is contact's own and belongs to both sides. Source: conventions `time.valueAtContact`. */
const AT_CONTACT = 0.1;

/** The times of a clip's frames, as far as the frames between placed ones need them. */
export interface FrameClock {
  /** Real seconds of each frame, increasing. */
  readonly seconds: ArrayLike<number>;
  /** The clip's median interval. */
  readonly periodSeconds: number;
  /** Infinity when contact is not known: then nothing is divided there. */
  readonly contactSeconds: number;
}

/** Whether nothing between two frames is too far from them to be worked out: the hole is small, and contact does not lie in it. */
export function isOneCurve(from: number | undefined, to: number | undefined, { seconds, periodSeconds, contactSeconds }: FrameClock): boolean {
  if (from === undefined || to === undefined) return false;
  const [start, end] = [seconds[from] ?? NaN, seconds[to] ?? NaN];
  const slack = AT_CONTACT * periodSeconds;
  const isAcross = start < contactSeconds - slack && end > contactSeconds + slack;
  return !isAcross && end - start <= (LARGEST_GAP + EPSILON) * periodSeconds;
}

/**
 * The frames of a point that lie between placed ones: in holes of at most three intervals, never across contact, from the
 * nearest two placed frames on either side that no larger hole cuts off.
 * Source: conventions `time.unevenTimes` (gaps, contact); the curve: spline-weights.ts.
 * @param placed frames on which the point is placed, in order
 */
export function betweenFrames(placed: readonly number[], clock: FrameClock): readonly BetweenFrame[] {
  const timeOf = (frame: number) => clock.seconds[frame] ?? NaN;
  // A frame at contact is the last of the curve before it and the first of the one after it.
  const isEnd = (frame: number) => Math.abs(timeOf(frame) - clock.contactSeconds) <= AT_CONTACT * clock.periodSeconds;
  const found: BetweenFrame[] = [];
  for (let i = 0; i + 1 < placed.length; i++) {
    const [from, to] = [placed[i] ?? 0, placed[i + 1] ?? 0];
    if (to - from < 2 || !isOneCurve(from, to, clock)) continue;
    const [before, after] = [placed[i - 1], placed[i + 2]];
    const hasBefore = isOneCurve(before, from, clock) && !isEnd(from);
    const hasAfter = isOneCurve(to, after, clock) && !isEnd(to);
    const knots = [...(hasBefore ? [before ?? 0] : []), from, to, ...(hasAfter ? [after ?? 0] : [])];
    const left = hasBefore ? 1 : 0;
    const times = knots.map(timeOf);
    for (let frame = from + 1; frame < to; frame++) found.push({ frame, knots, left, weights: splineWeights(times, left, timeOf(frame)) });
  }
  return found;
}

/** A placed frame changes what is worked out no further away than this many intervals: two holes on either side. */
export const BETWEEN_REACH_INTERVALS = 2 * LARGEST_GAP;
