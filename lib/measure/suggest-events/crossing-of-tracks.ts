import { lineThrough } from "@/lib/measure/signals/residual-analysis";
import type { BallPlace } from "@/lib/measure/suggest-events/suggestion";

/** Only this much of the ball's way before and after is taken as straight: it falls, and it comes nearer (judgement). */
const STRAIGHT_SECONDS = 0.09;
/** A track needs this many places for its line and the line's own doubt. */
const LEAST_PLACES = 3;
/** Two lines must fit this many times better than one, so that a straight way is not taken for a hit. */
const LEAST_GAIN = 20;
/** A hit changes the ball's way by this share of its faster track or more; falling in a toss changes it by about a tenth. */
const LEAST_TURN = 0.5;

interface Line {
  readonly at: (seconds: number) => readonly [number, number];
  readonly slope: readonly [number, number];
  readonly squares: number;
  /** Variance of its place at a time, in units of one coordinate's variance. */
  readonly leverage: (seconds: number) => number;
}

function lineOf(places: readonly BallPlace[]): Line {
  const times = places.map(({ seconds }) => seconds);
  const [x, y] = [lineThrough(times, places.map((one) => one.x)), lineThrough(times, places.map((one) => one.y))];
  const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
  const spread = times.reduce((sum, time) => sum + (time - mean) ** 2, 0);
  const at = (t: number) => [x.intercept + x.slope * t, y.intercept + y.slope * t] as const;
  const squares = places.reduce((sum, one) => sum + (one.x - at(one.seconds)[0]) ** 2 + (one.y - at(one.seconds)[1]) ** 2, 0);
  return { at, slope: [x.slope, y.slope], squares, leverage: (t) => 1 / times.length + (t - mean) ** 2 / spread };
}

/**
 * When a ball's two straight tracks cross, a time between frames, with its SD from the two line fits (at least P/10):
 * the time at which they come nearest to each other. Null when there are too few places, no turn, or the tracks meet
 * outside the frames between them.
 * @param placeSd least SD of a coordinate in pixels
 */
export function crossingOfTracks(ball: readonly BallPlace[], periodSeconds: number, placeSd: number): { readonly seconds: number; readonly sdSeconds: number } | null {
  const places = ball.filter(({ seconds, x, y }) => [seconds, x, y].every(Number.isFinite)).sort((a, b) => a.seconds - b.seconds);
  if (places.some(({ seconds }, i) => i > 0 && !(seconds > (places[i - 1]?.seconds ?? NaN)))) return null;
  let best: { readonly seconds: number; readonly sdSeconds: number; readonly gain: number } | null = null;
  for (let split = LEAST_PLACES; split <= places.length - LEAST_PLACES; split++) {
    const [last, next] = [places[split - 1]?.seconds ?? NaN, places[split]?.seconds ?? NaN];
    const before = places.slice(0, split).filter(({ seconds }) => seconds >= last - STRAIGHT_SECONDS);
    const after = places.slice(split).filter(({ seconds }) => seconds <= next + STRAIGHT_SECONDS);
    if (before.length < LEAST_PLACES || after.length < LEAST_PLACES) continue;
    const [a, b, one] = [lineOf(before), lineOf(after), lineOf([...before, ...after])];
    const freedom = 2 * (before.length + after.length) - 8;
    const variance = Math.max(placeSd ** 2, (a.squares + b.squares) / Math.max(1, freedom));
    const gain = (one.squares - a.squares - b.squares) / variance;
    const turn = [b.slope[0] - a.slope[0], b.slope[1] - a.slope[1]] as const;
    const turnSquared = turn[0] ** 2 + turn[1] ** 2;
    const [pa, pb] = [a.at(last), b.at(last)];
    const seconds = last - ((pb[0] - pa[0]) * turn[0] + (pb[1] - pa[1]) * turn[1]) / turnSquared;
    const slack = periodSeconds / 2;
    const fastest = Math.max(Math.hypot(...a.slope), Math.hypot(...b.slope));
    if (!(Math.sqrt(turnSquared) >= LEAST_TURN * fastest)) continue;
    if (!(gain >= LEAST_GAIN && seconds >= last - slack && seconds <= next + slack)) continue;
    const sdSeconds = Math.max(periodSeconds / 10, Math.sqrt((variance * (a.leverage(seconds) + b.leverage(seconds))) / turnSquared));
    if (best === null || gain > best.gain) best = { seconds, sdSeconds, gain };
  }
  return best && { seconds: best.seconds, sdSeconds: best.sdSeconds };
}
