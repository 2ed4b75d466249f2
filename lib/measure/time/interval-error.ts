import { frameQuantisationSd } from "@/lib/measure/event-times";

/** A moment as far as its frame tells it. */
export interface MomentOnFrame {
  /** Middle of the stretch that is nearer to this frame than to any other. */
  readonly seconds: number;
  /** SD of a moment that lies anywhere in that stretch. */
  readonly sdSeconds: number;
  /** Length of that stretch: the frame interval where frames come evenly. */
  readonly periodSeconds: number;
}

/** How far the time between two moments may be off, in real seconds. */
export interface IntervalError {
  readonly sdSeconds: number;
  /** Never more than this by the frames alone: half a frame interval at each end. */
  readonly mostSeconds: number;
}

/** What one needs of a moment to know the error of an interval that it ends. */
export interface IntervalEnd {
  /** SD of the mark itself, seconds; the frames' part is counted in below. */
  readonly sdSeconds: number;
  /** Real seconds between the frames on which it was marked. */
  readonly periodSeconds: number;
}

/**
 * What a moment marked on a frame is worth: it lies nearer to this frame than to its neighbours, evenly spread. With uneven
 * frames (a file that goes from normal to slow) the stretch is not centred on the frame. Null for a frame that is not there,
 * a lone frame, or times that do not increase. Half-width of the stretch: P/2, SD P/sqrt(12), case T6.10.
 * @param seconds real seconds of all frames
 */
export function momentOnFrame(seconds: readonly number[], frame: number): MomentOnFrame | null {
  const here = seconds[frame];
  if (here === undefined) return null;
  const before = seconds[frame - 1];
  const after = seconds[frame + 1];
  const stepBefore = before === undefined ? null : here - before;
  const stepAfter = after === undefined ? null : after - here;
  const left = stepBefore ?? stepAfter;
  const right = stepAfter ?? stepBefore;
  if (left === null || right === null || !(left > 0 && left < Infinity && right > 0 && right < Infinity)) return null;
  const periodSeconds = (left + right) / 2;
  return { seconds: here + (right - left) / 4, sdSeconds: frameQuantisationSd(periodSeconds), periodSeconds };
}

/**
 * Error of the time between two moments marked apart from each other: root of the sum of squares, each end at least
 * P/sqrt(12), so P/sqrt(6) for two exact marks on one clip (triangular between -P and P). Source: conventions `estimate.time`,
 * case T6.10. Null when an end is not known. @throws RangeError for a frame interval that is not above 0
 */
export function intervalError(first: IntervalEnd, second: IntervalEnd): IntervalError | null {
  const ends = [first, second].map(({ sdSeconds, periodSeconds }) => Math.max(sdSeconds, frameQuantisationSd(periodSeconds)));
  const [a = NaN, b = NaN] = ends;
  if (!Number.isFinite(a) || !Number.isFinite(b)) return null;
  return { sdSeconds: Math.hypot(a, b), mostSeconds: (first.periodSeconds + second.periodSeconds) / 2 };
}
