import type { PointNoise } from "@/lib/measure/body-lengths";
import { hasHoles } from "@/lib/measure/between/filled-tracks";
import { keptByTrack } from "@/lib/measure/kept-by-track";
import { median } from "@/lib/measure/order-statistics";
import { parabolaWeights } from "@/lib/measure/smoothing/parabola-fit";
import { leastReachSeconds } from "@/lib/measure/smoothing/reach";
import type { PointId } from "@/lib/measure/points";
import type { ClipTracks } from "@/lib/measure/tracks";

/** Points that move slowly enough for what is left beside their smoothed track to be noise. */
const SLOW_POINTS: readonly PointId[] = ["sh_f", "sh_b", "hip_f", "hip_b", "kn_f", "kn_b", "an_f", "an_b", "heel_f", "heel_b", "toe_f", "toe_b", "helmet"];
/** Pairs of neighbouring frames below which a point says nothing. */
const LEAST_PAIRS = 40;
/** It is told in steps of this size: finer is chance, and one dragged point does not move every reading. */
const STEP = 0.1;
/** What is left beside a smoothed track is noise when it is at least this share of the noise that is assumed. */
const LEAST_SHARE = 0.3;
/** No noise is taken to be more alike from frame to frame than this. */
const MOST = 0.9;

/**
 * How alike the errors of a point on neighbouring frames are in a clip: the correlation of a first-order autoregression,
 * 0 to 0.9, from what is left of its slow points beside their smoothed tracks. A point that is dragged along from frame
 * to frame, or followed by a program, errs alike. Points placed far better than the noise model says do not speak: what is
 * left of them is motion. Where points are placed on every second or third frame only, it is told from those. 0 where too few
 * neighbouring frames are placed to tell.
 */
export function frameCorrelation(tracks: ClipTracks, noise: PointNoise): number {
  const slow = SLOW_POINTS.flatMap((point) => tracks.byPoint[point] ?? []).filter((track) => track.frames.length >= LEAST_PAIRS);
  const apart = framesApart(tracks);
  const step = apart * tracks.periodSeconds;
  const reach = Math.floor(leastReachSeconds(step) / step + 1e-6);
  const weights = parabolaWeights(2 * reach + 1, reach);
  const found: number[] = [];
  for (const track of slow) {
    const point = track.point;
    for (const { product, square, pairs } of keptProducts(track, `${reach} ${apart}`, () => (["h", "v"] as const).map((axis) => residualProducts(everyNth(track[axis], apart, track.frames), weights, reach)))) {
      if (pairs >= LEAST_PAIRS && square > pairs * (LEAST_SHARE * noise(point, false)) ** 2) found.push(product / square);
    }
  }
  // The middle one, so that one point that is placed oddly, or one that is being dragged, does not speak for all.
  return found.length > 0 ? Math.min(MOST, Math.round(correlationFor(median(found), reach) ** (1 / apart) / STEP) * STEP) : 0;
}

/** How many frames apart the slow points of a clip are mostly placed: 1, or as far as a hole may be. */
export function framesApart({ byPoint }: Pick<ClipTracks, "byPoint">): number {
  const tracks = SLOW_POINTS.flatMap((point) => byPoint[point] ?? []);
  if (!tracks.some(hasHoles)) return 1;
  const counts = [0, 0, 0, 0];
  for (const { frames } of tracks) {
    for (let i = 1; i < frames.length; i++) {
      const step = (frames[i] ?? 0) - (frames[i - 1] ?? 0);
      counts[step] = (counts[step] ?? 0) + 1;
    }
  }
  return [1, 2, 3].reduce((best, step) => ((counts[step] ?? 0) > (counts[best] ?? 0) ? step : best), 1);
}

/** The values on every n-th frame, beginning so that most of the placed ones are among them. */
function everyNth(values: Float64Array, apart: number, placed: readonly number[]): Float64Array {
  if (apart === 1) return values;
  const counts = new Array<number>(apart).fill(0);
  for (const frame of placed) counts[frame % apart] = (counts[frame % apart] ?? 0) + 1;
  const offset = counts.indexOf(Math.max(...counts));
  return values.filter((_, frame) => frame % apart === offset);
}

interface Products {
  readonly product: number;
  readonly square: number;
  readonly pairs: number;
}

const keptProducts = keptByTrack<readonly Products[]>();

/** Products of neighbouring residuals, on frames with all their neighbours placed. */
function residualProducts(values: Float64Array, weights: Float64Array, reach: number): Products {
  let product = 0;
  let square = 0;
  let pairs = 0;
  let before = NaN;
  for (let i = reach; i < values.length - reach; i++) {
    let smooth = 0;
    for (let k = -reach; k <= reach; k++) smooth += (weights[k + reach] ?? 0) * (values[i + k] ?? NaN);
    const now = (values[i] ?? NaN) - smooth;
    if (!Number.isNaN(before) && !Number.isNaN(now) && (before !== 0 || now !== 0)) {
      product += before * now;
      square += (before * before + now * now) / 2;
      pairs += 1;
    }
    before = now;
  }
  return { product, square, pairs };
}

/** The correlation that leaves such a one beside a parabola through `reach` frames to either side. */
export function correlationFor(residualCorrelation: number, reach: number): number {
  let [low, high] = [0, MOST];
  if (residualCorrelation <= residualCorrelationOf(0, reach)) return 0;
  if (residualCorrelation >= residualCorrelationOf(MOST, reach)) return MOST;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (residualCorrelationOf(middle, reach) < residualCorrelation) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Correlation of neighbouring residuals when the errors have this one. */
export function residualCorrelationOf(correlation: number, reach: number): number {
  const count = 2 * reach + 1;
  const weights = parabolaWeights(count, reach);
  const left = weights.map((weight, i) => (i === reach ? 1 - weight : -weight));
  const covariance = (lag: number) => {
    let sum = 0;
    for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) sum += (left[i] ?? 0) * (left[j] ?? 0) * correlation ** Math.abs(i - j + lag);
    return sum;
  };
  return covariance(1) / covariance(0);
}
