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

/** For one reach: which samples make each value, and the coefficients of their sums with t^0, t^1, t^2 in it. */
interface Fit {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly by0: Float64Array;
  readonly by1: Float64Array;
  readonly by2: Float64Array;
  /** Variance of the value as a share of one sample's. */
  readonly variance: Float64Array;
}

/**
 * Writes the smoothed input into the output, both of one length; NaN where the point is not placed. Where asked, only
 * samples from..to-1 are looked at and written; those nearer to either end than the reach are then not to be used.
 */
export type Smoother = (input: Float64Array, output: Float64Array, from?: number, to?: number) => void;

/** A smoothing in its parts, for who draws noise through it often. */
export interface SmoothingParts {
  readonly fit: Fit;
  readonly times: Float64Array;
  readonly isKnown: Uint8Array;
  readonly sums: readonly Float64Array[];
}

/**
 * Writes base + smoothed noise into the output for samples begin..end-1: noise of the given SDs from standard normal
 * numbers at offsets[place] on, each alike to the one before by `alike`. One pass for the sums, one for the values.
 */
export function addSmoothedNoise(
  { fit: { from, to, by0, by1, by2 }, times, isKnown, sums }: SmoothingParts, offsets: Float64Array, place: number, sd: Float64Array, alike: number, base: Float64Array,
  output: Float64Array, begin: number, end: number,
): void {
  const [p0, p1, p2] = sums as [Float64Array, Float64Array, Float64Array];
  const fresh = Math.sqrt(1 - alike * alike);
  let [a, b, c] = [0, 0, 0];
  p0[begin] = p1[begin] = p2[begin] = 0;
  let error = offsets[place] ?? 0;
  for (let i = begin; i < end; i++) {
    if (i > begin) error = alike * error + fresh * (offsets[place + i - begin] ?? 0);
    if (isKnown[i]) {
      const value = (sd[i] ?? 0) * error;
      const t = times[i] ?? NaN;
      const first = t * value;
      a += value;
      b += first;
      c += t * first;
    }
    p0[i + 1] = a;
    p1[i + 1] = b;
    p2[i + 1] = c;
  }
  for (let i = begin; i < end; i++) {
    const f = Math.max(begin, from[i] ?? 0);
    const t = Math.min(end, to[i] ?? 0);
    output[i] = (base[i] ?? NaN) +
      (by0[i] ?? NaN) * ((p0[t] ?? NaN) - (p0[f] ?? NaN)) + (by1[i] ?? NaN) * ((p1[t] ?? NaN) - (p1[f] ?? NaN)) + (by2[i] ?? NaN) * ((p2[t] ?? NaN) - (p2[f] ?? NaN));
  }
}

/** Two smoothings of one point through a window. */
export interface Smoothings {
  /** Within the least reach: what is largest, smallest or crossed is looked for on this curve, since on single frames the noise decides. */
  readonly least: Smoother;
  readonly leastParts: SmoothingParts;
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
  const moments = momentsOf(known, times);
  const fits = WIDENINGS.map((widening) => fitOf(known, times, moments, widening * leastReachSeconds(framePeriodSeconds)));
  const least = smoothSeconds === undefined ? fits[0] : fitOf(known, times, moments, leastReachSeconds(framePeriodSeconds, smoothSeconds));
  const chosen = chooseFit(fits, axes, times, sd, (1 + frameCorrelation) / (1 - frameCorrelation));
  const sums = [0, 1, 2].map(() => new Float64Array(known.length + 1));
  const isKnown = Uint8Array.from(known, (value) => (Number.isNaN(value) ? 0 : 1));
  const by = (fit: Fit): Smoother => (input, output, from = 0, to = known.length) => smoothBy(fit, input, times, sums, isKnown, output, from, to);
  return { least: by(least ?? chosen), leastParts: { fit: least ?? chosen, times, isKnown, sums }, wide: by(chosen) };
}

/** Running sums of t^0 to t^4 over the placed samples: entry i is the sum of those before i. */
function momentsOf(known: Float64Array, times: Float64Array): readonly Float64Array[] {
  const sums = [0, 1, 2, 3, 4].map(() => new Float64Array(known.length + 1));
  const running = [0, 0, 0, 0, 0];
  for (let i = 0; i < known.length; i++) {
    let power = Number.isNaN(known[i] ?? NaN) ? 0 : 1;
    for (let k = 0; k < 5; k++) {
      running[k] = (running[k] ?? 0) + power;
      power *= times[i] ?? NaN;
      const sum = sums[k];
      if (sum) sum[i + 1] = running[k] ?? NaN;
    }
  }
  return sums;
}

function fitOf(known: Float64Array, times: Float64Array, moments: readonly Float64Array[], reachSeconds: number): Fit {
  const count = known.length;
  const [sum0, sum1, sum2, sum3, sum4] = moments as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const fit: Fit = { from: new Int32Array(count), to: new Int32Array(count), by0: new Float64Array(count), by1: new Float64Array(count), by2: new Float64Array(count), variance: new Float64Array(count) };
  let [from, to] = [0, 0];
  for (let i = 0; i < count; i++) {
    const now = times[i] ?? NaN;
    while ((times[from] ?? NaN) < now - reachSeconds - 1e-9) from++;
    while (to < count && (times[to] ?? NaN) <= now + reachSeconds + 1e-9) to++;
    const m0 = (sum0[to] ?? NaN) - (sum0[from] ?? NaN);
    const m1 = (sum1[to] ?? NaN) - (sum1[from] ?? NaN);
    const m2 = (sum2[to] ?? NaN) - (sum2[from] ?? NaN);
    const m3 = (sum3[to] ?? NaN) - (sum3[from] ?? NaN);
    const m4 = (sum4[to] ?? NaN) - (sum4[from] ?? NaN);
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
    const [c0, c1, c2] = isEnough ? [a / det, b / det / u, c / det / u ** 2] : [1, 0, 0];
    fit.by0[i] = c0 - c1 * now + c2 * now * now;
    fit.by1[i] = c1 - 2 * c2 * now;
    fit.by2[i] = c2;
    fit.variance[i] = c0;
  }
  return fit;
}

function smoothBy(
  { from, to, by0, by1, by2 }: Fit, input: Float64Array, times: Float64Array, sums: readonly Float64Array[], isKnown: Uint8Array, output: Float64Array, begin: number, end: number,
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
    output[i] = (by0[i] ?? NaN) * ((p0[t] ?? NaN) - (p0[f] ?? NaN)) + (by1[i] ?? NaN) * ((p1[t] ?? NaN) - (p1[f] ?? NaN)) + (by2[i] ?? NaN) * ((p2[t] ?? NaN) - (p2[f] ?? NaN));
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
        const within = AGREES_WITHIN_SDS * (sd[i] ?? NaN) * Math.sqrt(Math.min(1, (fit.variance[i] ?? NaN) * inflation));
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
    by0: pick(({ by0 }) => by0, new Float64Array(count)), by1: pick(({ by1 }) => by1, new Float64Array(count)), by2: pick(({ by2 }) => by2, new Float64Array(count)),
    variance: pick(({ variance }) => variance, new Float64Array(count)),
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
  const fit = fitOf(known, times, momentsOf(known, times), 1);
  return times.map((t) => (fit.by0[place] ?? NaN) + (fit.by1[place] ?? NaN) * t + (fit.by2[place] ?? NaN) * t * t);
}
