import { median, percentile } from "@/lib/measure/order-statistics";

/** Fewer lengths than this say too little about how they are spread. */
const FEWEST = 10;
/** More points than this are thinned to their quantiles first. */
const MOST = 128;
/** Noise is added with these multiples of its own variance, and what that does is followed back to none. */
const ADDED = [0.3, 1.2, 3] as const;
/** How much wider than the noise the lengths themselves may be spread near the percentile, in variances of the noise. */
const WIDTHS = [1, 1.5, 2, 3, 5, 10, 40] as const;
/** A constant length's 95th percentile lies 1.645 SD of its noise too high; nothing lies higher. */
const MOST_SDS = 1.7;

/** Median of the square of a standard normal number. */
const MEDIAN_OF_SQUARE = 0.4549;

/**
 * How much of the noise that is assumed is really seen from frame to frame, as a share of variance, 0 to 1: the spread
 * of each value about the line between its neighbours, by its median, so that quick moves and single jumps do not count.
 * Lengths placed better than the model says are corrected less.
 * 1 when fewer than three neighbours in a row say anything.
 * @param values one for each time, in order @param variances those that are assumed @param seconds their times
 * @param longestSeconds neighbours further apart than this are not compared
 */
export function noiseSeen(values: ArrayLike<number>, variances: ArrayLike<number>, seconds: ArrayLike<number>, longestSeconds: number): number {
  const shares = new Float64Array(values.length);
  let count = 0;
  for (let i = 1; i + 1 < values.length; i++) {
    const [t0, t, t1] = [seconds[i - 1] ?? NaN, seconds[i] ?? NaN, seconds[i + 1] ?? NaN];
    if (!(t1 - t0 <= longestSeconds)) continue;
    const after = (t - t0) / (t1 - t0);
    const before = 1 - after;
    const seen = before * (values[i - 1] ?? NaN) - (values[i] ?? NaN) + after * (values[i + 1] ?? NaN);
    const assumed = before * before * (variances[i - 1] ?? NaN) + (variances[i] ?? NaN) + after * after * (variances[i + 1] ?? NaN);
    if (assumed > 0) shares[count++] = (seen * seen) / assumed;
  }
  return count > 0 ? Math.min(1, median(shares.subarray(0, count)) / MEDIAN_OF_SQUARE) : 1;
}

/** By how much noise lengthens a vector on average: s^2 / 2L to first order, `sd` that of one axis. Pixels. */
export function lengthenedBy(length: number, sd: number): number {
  return length > 0 ? (sd * sd) / (2 * length) : 0;
}

/**
 * The 95th percentile of noisy lengths, freed of what the noise adds to it: a high percentile picks high noise. Noise is
 * added in known amounts and its effect followed back to none, by a root of the variance, which is exact for lengths that
 * are normally spread or all alike (simulation and extrapolation, Cook & Stefanski 1994). The percentile as it stands for
 * fewer than ten lengths. @param sd SD of one length, pixels
 */
export function percentileFreedOfNoise(lengths: ArrayLike<number>, sd: number): number {
  const asItStands = percentile(lengths, 0.95);
  if (lengths.length < FEWEST || !(sd > 1e-9 * asItStands)) return asItStands;
  const sorted = Float64Array.from(lengths).sort();
  const points = lengths.length > MOST ? thinned(sorted) : sorted;
  const share = (0.95 * (lengths.length - 1) + 0.5) / lengths.length;
  const [low, middle, high] = ADDED.map((variance) => quantileOfBlurred(points, sd * Math.sqrt(variance), share)) as [number, number, number];
  let best = { miss: Infinity, added: 0 };
  for (const width of WIDTHS) {
    const root = (variance: number) => Math.sqrt(width + variance);
    const slope = (high - low) / (root(ADDED[2]) - root(ADDED[0]));
    const miss = Math.abs(low + slope * (root(ADDED[1]) - root(ADDED[0])) - middle);
    if (miss < best.miss) best = { miss, added: slope * (root(0) - root(-1)) };
  }
  return asItStands - Math.max(0, Math.min(MOST_SDS * sd, best.added));
}

function thinned(sorted: Float64Array): Float64Array {
  return Float64Array.from({ length: MOST }, (_, i) => {
    const rank = ((i + 0.5) / MOST) * (sorted.length - 1);
    const below = Math.floor(rank);
    const lower = sorted[below] ?? NaN;
    return lower + (rank - below) * ((sorted[below + 1] ?? lower) - lower);
  });
}

/**
 * Quantile of sorted points each blurred by a normal spread, to a ten-thousandth of it: regula falsi on the share below, the
 * side that stays halved each time (Illinois; Dowell & Jarratt 1971, from memory).
 */
function quantileOfBlurred(points: Float64Array, sd: number, share: number): number {
  const aim = share * points.length;
  const over = (place: number): number => {
    let below = 0;
    for (let i = 0; i < points.length; i++) below += quickNormalBelow((place - (points[i] ?? NaN)) / sd);
    return below - aim;
  };
  let low = (points[0] ?? NaN) - 5 * sd;
  let high = (points[points.length - 1] ?? NaN) + 5 * sd;
  let [overLow, overHigh] = [over(low), over(high)];
  let place = low;
  for (let step = 0, side = 0; step < 60 && high - low > 1e-4 * sd; step++) {
    const before = place;
    place = high - (overHigh * (high - low)) / (overHigh - overLow);
    const now = over(place);
    if (now === 0 || Math.abs(place - before) < 1e-5 * sd) break;
    if (now > 0) {
      [high, overHigh] = [place, now];
      if (side === 1) overLow /= 2;
      side = 1;
    } else {
      [low, overLow] = [place, now];
      if (side === -1) overHigh /= 2;
      side = -1;
    }
  }
  return place;
}

/** Normal distribution function, absolute error below 1e-7 (Abramowitz & Stegun 7.1.26): fast rather than exact. */
function quickNormalBelow(z: number): number {
  if (z < -5.5) return 0;
  if (z > 5.5) return 1;
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x);
  return z < 0 ? tail / 2 : 1 - tail / 2;
}
