/** Fewest samples that a parabola is put through; with fewer a sample stands for itself. */
const LEAST_SAMPLES = 5;

/** How far the smoothing looks to either side at the least, seconds; at low frame rates far enough for five frames. */
export const leastReachSeconds = (framePeriodSeconds: number, wantedSeconds = 0.02): number => Math.max(wantedSeconds, 2.2 * framePeriodSeconds);

/** Each further reach looks twice as far. */
const WIDENINGS = [1, 2, 4, 10] as const;

/** The farthest that the smoothing looks, seconds. */
export const mostReachSeconds = (framePeriodSeconds: number): number => 10 * leastReachSeconds(framePeriodSeconds);

/** A wider reach is taken while its value agrees with those of all narrower ones within so many of their SDs. */
const AGREES_WITHIN_SDS = 2;

/** For one reach: which samples make each value, and the coefficients of their sums with t^0, t^1, t^2. */
interface Fit {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly c0: Float64Array;
  readonly c1: Float64Array;
  readonly c2: Float64Array;
}

/**
 * Writes the smoothed input into the output, both of one length; NaN where the point is not placed. Where asked, only
 * samples from..to-1 are looked at and written; those nearer to either end than the reach are then not to be used.
 */
export type Smoother = (input: Float64Array, output: Float64Array, from?: number, to?: number) => void;

/** Two smoothings of one point through a window. */
export interface Smoothings {
  /** Within the least reach: what is largest, smallest or crossed is looked for on this curve, since on single frames the noise decides. */
  readonly least: Smoother;
  /** As far around each sample as the curve allows: the best guess at the true curve. */
  readonly wide: Smoother;
}

/**
 * Smooths by the parabola of least squares through the placed samples around each one (Savitzky and Golay's idea, for
 * uneven times). The wide smoothing takes for each sample the widest of four reaches whose value agrees with the narrower
 * ones within their noise (intersection of confidence intervals; Katkovnik 1999, from memory).
 * @param axes the coordinates of one point; their samples are smoothed alike @param sd of one coordinate on each sample
 * @param frameCorrelation how alike errors of neighbouring samples are, 0 to 1
 * @param smoothSeconds the least reach where the curve allows more than the usual one
 */
export function smoothingsOf(axes: readonly Float64Array[], seconds: Float64Array, sd: Float64Array, frameCorrelation: number, framePeriodSeconds: number, smoothSeconds?: number): Smoothings {
  const known = axes[0] ?? new Float64Array(0);
  const middle = ((seconds[0] ?? 0) + (seconds[seconds.length - 1] ?? 0)) / 2;
  const times = seconds.map((time) => time - middle);
  const moments = [0, 1, 2, 3, 4].map((power) => runningSums(known, times, (_, t) => t ** power));
  const fits = WIDENINGS.map((widening) => fitOf(known, times, moments, widening * leastReachSeconds(framePeriodSeconds)));
  const least = smoothSeconds === undefined ? fits[0] : fitOf(known, times, moments, leastReachSeconds(framePeriodSeconds, smoothSeconds));
  const chosen = chooseFit(fits, axes, times, sd, (1 + frameCorrelation) / (1 - frameCorrelation));
  const sums = [0, 1, 2].map(() => new Float64Array(known.length + 1));
  const isKnown = Uint8Array.from(known, (value) => (Number.isNaN(value) ? 0 : 1));
  const by = (fit: Fit): Smoother => (input, output, from = 0, to = known.length) => smoothBy(fit, input, times, sums, isKnown, output, from, to);
  return { least: by(least ?? chosen), wide: by(chosen) };
}

/** Running sums over the placed samples: entry i is the sum of those before i. */
function runningSums(known: Float64Array, times: Float64Array, of: (value: number, time: number) => number, into = new Float64Array(known.length + 1)): Float64Array {
  let sum = 0;
  for (let i = 0; i < known.length; i++) {
    if (!Number.isNaN(known[i] ?? NaN)) sum += of(known[i] ?? NaN, times[i] ?? NaN);
    into[i + 1] = sum;
  }
  return into;
}

function fitOf(known: Float64Array, times: Float64Array, moments: readonly Float64Array[], reachSeconds: number): Fit {
  const count = known.length;
  const fit: Fit = { from: new Int32Array(count), to: new Int32Array(count), c0: new Float64Array(count), c1: new Float64Array(count), c2: new Float64Array(count) };
  let [from, to] = [0, 0];
  for (let i = 0; i < count; i++) {
    const now = times[i] ?? NaN;
    while ((times[from] ?? NaN) < now - reachSeconds - 1e-9) from++;
    while (to < count && (times[to] ?? NaN) <= now + reachSeconds + 1e-9) to++;
    const [m0, m1, m2, m3, m4] = moments.map((sums) => (sums[to] ?? NaN) - (sums[from] ?? NaN)) as [number, number, number, number, number];
    // Moments about this sample's own time, in units of the reach.
    const u = reachSeconds;
    const s1 = (m1 - now * m0) / u;
    const s2 = (m2 - 2 * now * m1 + now ** 2 * m0) / u ** 2;
    const s3 = (m3 - 3 * now * m2 + 3 * now ** 2 * m1 - now ** 3 * m0) / u ** 3;
    const s4 = (m4 - 4 * now * m3 + 6 * now ** 2 * m2 - 4 * now ** 3 * m1 + now ** 4 * m0) / u ** 4;
    // First row of the inverse of the normal equations, by Cramer's rule.
    const [a, b, c] = [s2 * s4 - s3 * s3, s2 * s3 - s1 * s4, s1 * s3 - s2 * s2];
    const det = m0 * a + s1 * b + s2 * c;
    const isEnough = m0 >= LEAST_SAMPLES && det > 1e-9;
    fit.from[i] = isEnough ? from : i;
    fit.to[i] = isEnough ? to : i + 1;
    fit.c0[i] = isEnough ? a / det : 1;
    fit.c1[i] = isEnough ? b / det / u : 0;
    fit.c2[i] = isEnough ? c / det / u ** 2 : 0;
  }
  return fit;
}

function smoothBy(
  { from, to, c0, c1, c2 }: Fit, input: Float64Array, times: Float64Array, sums: readonly Float64Array[], isKnown: Uint8Array, output: Float64Array, begin: number, end: number,
): void {
  const [p0, p1, p2] = sums as [Float64Array, Float64Array, Float64Array];
  let [a, b, c] = [0, 0, 0];
  p0[begin] = p1[begin] = p2[begin] = 0;
  for (let i = begin; i < end; i++) {
    if (isKnown[i]) {
      const value = input[i] ?? NaN;
      const t = times[i] ?? NaN;
      a += value;
      b += t * value;
      c += t * t * value;
    }
    p0[i + 1] = a;
    p1[i + 1] = b;
    p2[i + 1] = c;
  }
  for (let i = begin; i < end; i++) {
    if (!isKnown[i]) {
      output[i] = NaN;
      continue;
    }
    const f = Math.max(begin, from[i] ?? 0);
    const t = Math.min(end, to[i] ?? 0);
    const now = times[i] ?? NaN;
    const x0 = (p0[t] ?? NaN) - (p0[f] ?? NaN);
    const first = (p1[t] ?? NaN) - (p1[f] ?? NaN);
    const x1 = first - now * x0;
    const x2 = (p2[t] ?? NaN) - (p2[f] ?? NaN) - 2 * now * first + now * now * x0;
    output[i] = (c0[i] ?? NaN) * x0 + (c1[i] ?? NaN) * x1 + (c2[i] ?? NaN) * x2;
  }
}

/** For each sample the widest fit that agrees with all narrower ones on every axis. */
function chooseFit(fits: readonly Fit[], axes: readonly Float64Array[], times: Float64Array, sd: Float64Array, inflation: number): Fit {
  const count = times.length;
  const sums = [0, 1, 2].map(() => new Float64Array(count + 1));
  const chosen = new Uint8Array(count).fill(fits.length - 1);
  for (const values of axes) {
    const isKnown = Uint8Array.from(values, (value) => (Number.isNaN(value) ? 0 : 1));
    const low = new Float64Array(count).fill(-Infinity);
    const high = new Float64Array(count).fill(Infinity);
    const isOpen = new Uint8Array(count).fill(1);
    const smooth = new Float64Array(count);
    fits.forEach((fit, reach) => {
      smoothBy(fit, values, times, sums, isKnown, smooth, 0, count);
      for (let i = 0; i < count; i++) {
        if (!isOpen[i]) continue;
        const c0 = fit.c0[i] ?? NaN;
        const within = AGREES_WITHIN_SDS * (sd[i] ?? NaN) * Math.sqrt(Math.min(1, c0 * inflation));
        low[i] = Math.max(low[i] ?? NaN, (smooth[i] ?? NaN) - within);
        high[i] = Math.min(high[i] ?? NaN, (smooth[i] ?? NaN) + within);
        if (!((low[i] ?? NaN) > (high[i] ?? NaN))) continue;
        isOpen[i] = 0;
        chosen[i] = Math.min(chosen[i] ?? 0, Math.max(0, reach - 1));
      }
    });
  }
  const pick = <A extends Int32Array | Float64Array>(of: (fit: Fit) => A, into: A): A => {
    for (let i = 0; i < count; i++) into[i] = of(fits[chosen[i] ?? 0] ?? (fits[0] as Fit))[i] ?? NaN;
    return into;
  };
  return {
    from: pick(({ from }) => from, new Int32Array(count)), to: pick(({ to }) => to, new Int32Array(count)),
    c0: pick(({ c0 }) => c0, new Float64Array(count)), c1: pick(({ c1 }) => c1, new Float64Array(count)), c2: pick(({ c2 }) => c2, new Float64Array(count)),
  };
}

/**
 * Weights with which equally spaced samples give the value on one of them of their parabola of least squares. For a sample
 * in the middle: Savitzky and Golay's.
 * @throws RangeError for fewer than five samples or a place outside
 */
export function parabolaWeights(count: number, place: number): Float64Array {
  if (!(count >= LEAST_SAMPLES && place >= 0 && place < count)) throw new RangeError("a parabola needs five samples or more and a place among them");
  const times = Float64Array.from({ length: count }, (_, i) => (i - place) / count);
  const known = new Float64Array(count);
  const fit = fitOf(known, times, [0, 1, 2, 3, 4].map((power) => runningSums(known, times, (_, t) => t ** power)), 1);
  return times.map((t) => (fit.c0[place] ?? NaN) + (fit.c1[place] ?? NaN) * t + (fit.c2[place] ?? NaN) * t * t);
}
