/** Fewest samples that a parabola is put through; with fewer a sample stands for itself. */
const LEAST_SAMPLES = 5;

/**
 * Parabolas of least squares through the placed samples within one reach around each sample (Savitzky and Golay's idea, for
 * uneven times): which samples make each value, and the coefficients of their sums with d^0, d^1, d^2, where d is a sample's
 * time from the one that is smoothed, in seconds.
 */
export interface ParabolaFit {
  /** Seconds of the samples. */
  readonly times: Float64Array;
  /** 1 where the point is placed. */
  readonly isKnown: Uint8Array;
  readonly reachSeconds: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Also the variance of the value as a share of one sample's. */
  readonly by0: Float64Array;
  readonly by1: Float64Array;
  readonly by2: Float64Array;
}

/** Running sums of t^0 to t^4 over the placed samples: entry i is the sum of those before i. */
function momentsOf(isKnown: Uint8Array, times: Float64Array): readonly Float64Array[] {
  const count = times.length;
  const sums = [0, 1, 2, 3, 4].map(() => new Float64Array(count + 1));
  const [s0, s1, s2, s3, s4] = sums as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  let [m0, m1, m2, m3, m4] = [0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    if (isKnown[i]) {
      const t = times[i] ?? NaN;
      const square = t * t;
      m0 += 1;
      m1 += t;
      m2 += square;
      m3 += square * t;
      m4 += square * square;
    }
    s0[i + 1] = m0;
    s1[i + 1] = m1;
    s2[i + 1] = m2;
    s3[i + 1] = m3;
    s4[i + 1] = m4;
  }
  return sums;
}

/** Fits of samples begin..end-1, each with the samples within the reach from the whole row. The rest of the arrays stays 0. */
export function parabolaFits(isKnown: Uint8Array, seconds: Float64Array, reaches: readonly number[], begin = 0, end = seconds.length): readonly ParabolaFit[] {
  const middle = ((seconds[begin] ?? 0) + (seconds[end - 1] ?? 0)) / 2;
  const about = seconds.map((time) => time - middle);
  const moments = momentsOf(isKnown, about);
  return reaches.map((reach) => fitOf(isKnown, seconds, about, moments, reach, begin, end));
}

function fitOf(isKnown: Uint8Array, times: Float64Array, about: Float64Array, moments: readonly Float64Array[], reachSeconds: number, begin: number, end: number): ParabolaFit {
  const count = times.length;
  const [sum0, sum1, sum2, sum3, sum4] = moments as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const fit: ParabolaFit = {
    times, isKnown, reachSeconds, from: new Int32Array(count), to: new Int32Array(count), by0: new Float64Array(count), by1: new Float64Array(count), by2: new Float64Array(count),
  };
  let [from, to] = [0, 0];
  for (let i = begin; i < end; i++) {
    const now = about[i] ?? NaN;
    while ((about[from] ?? NaN) < now - reachSeconds - 1e-9) from++;
    while (to < count && (about[to] ?? NaN) <= now + reachSeconds + 1e-9) to++;
    const m0 = (sum0[to] ?? NaN) - (sum0[from] ?? NaN);
    const m1 = (sum1[to] ?? NaN) - (sum1[from] ?? NaN);
    const m2 = (sum2[to] ?? NaN) - (sum2[from] ?? NaN);
    const m3 = (sum3[to] ?? NaN) - (sum3[from] ?? NaN);
    const m4 = (sum4[to] ?? NaN) - (sum4[from] ?? NaN);
    // Moments about this sample's own time, in units of the reach.
    const u = reachSeconds;
    const square = now * now;
    const s1 = (m1 - now * m0) / u;
    const s2 = (m2 - 2 * now * m1 + square * m0) / (u * u);
    const s3 = (m3 - 3 * now * m2 + 3 * square * m1 - square * now * m0) / (u * u * u);
    const s4 = (m4 - 4 * now * m3 + 6 * square * m2 - 4 * square * now * m1 + square * square * m0) / (u * u * u * u);
    // First row of the inverse of the normal equations, by Cramer's rule.
    const a = s2 * s4 - s3 * s3;
    const b = s2 * s3 - s1 * s4;
    const c = s1 * s3 - s2 * s2;
    const det = m0 * a + s1 * b + s2 * c;
    const isEnough = m0 >= LEAST_SAMPLES && det > 1e-9;
    fit.from[i] = isEnough ? from : i;
    fit.to[i] = isEnough ? to : i + 1;
    fit.by0[i] = isEnough ? a / det : 1;
    fit.by1[i] = isEnough ? b / det / u : 0;
    fit.by2[i] = isEnough ? c / det / (u * u) : 0;
  }
  return fit;
}

/** Weight of sample j in the value of sample i; 0 where it has none. */
export function weightIn({ times, isKnown, from, to, by0, by1, by2 }: ParabolaFit, i: number, j: number): number {
  if (!isKnown[j] || j < (from[i] ?? 0) || j >= (to[i] ?? 0)) return 0;
  const d = (times[j] ?? NaN) - (times[i] ?? NaN);
  return (by0[i] ?? NaN) + d * ((by1[i] ?? NaN) + d * (by2[i] ?? NaN));
}

let sums: readonly [Float64Array, Float64Array, Float64Array] = [new Float64Array(0), new Float64Array(0), new Float64Array(0)];

/**
 * Writes the smoothed input into the output for samples begin..end-1; NaN where the point is not placed. Samples outside
 * that stretch are looked at as far as the reach goes.
 */
export function smoothThrough({ times, isKnown, from, to, by0, by1, by2 }: ParabolaFit, input: Float64Array, output: Float64Array, begin = 0, end = input.length): void {
  if (end <= begin) return;
  const first = from[begin] ?? 0;
  const last = to[end - 1] ?? 0;
  if (sums[0].length <= last - first) sums = [new Float64Array(2 * (last - first) + 1), new Float64Array(2 * (last - first) + 1), new Float64Array(2 * (last - first) + 1)];
  const [p0, p1, p2] = sums;
  const origin = times[(first + last) >> 1] ?? NaN;
  let a = 0;
  let b = 0;
  let c = 0;
  p0[0] = p1[0] = p2[0] = 0;
  for (let j = first; j < last; j++) {
    if (isKnown[j]) {
      const value = input[j] ?? NaN;
      const t = (times[j] ?? NaN) - origin;
      const moment = t * value;
      a += value;
      b += moment;
      c += t * moment;
    }
    p0[j - first + 1] = a;
    p1[j - first + 1] = b;
    p2[j - first + 1] = c;
  }
  for (let i = begin; i < end; i++) {
    if (!isKnown[i]) {
      output[i] = NaN;
      continue;
    }
    const f = (from[i] ?? 0) - first;
    const t = (to[i] ?? 0) - first;
    const now = (times[i] ?? NaN) - origin;
    const q0 = (p0[t] ?? NaN) - (p0[f] ?? NaN);
    const q1 = (p1[t] ?? NaN) - (p1[f] ?? NaN);
    const q2 = (p2[t] ?? NaN) - (p2[f] ?? NaN);
    output[i] = (by0[i] ?? NaN) * q0 + (by1[i] ?? NaN) * (q1 - now * q0) + (by2[i] ?? NaN) * (q2 - 2 * now * q1 + now * now * q0);
  }
}

/**
 * Weights with which equally spaced samples give the value on one of them of their parabola of least squares. For a sample
 * in the middle: Savitzky and Golay's.
 * @throws RangeError for fewer than five samples or a place outside
 */
export function parabolaWeights(count: number, place: number): Float64Array {
  if (!(count >= LEAST_SAMPLES && place >= 0 && place < count)) throw new RangeError("a parabola needs five samples or more and a place among them");
  const times = Float64Array.from({ length: count }, (_, i) => (i - place) / count);
  const [fit] = parabolaFits(new Uint8Array(count).fill(1), times, [1], place, place + 1);
  return times.map((_, j) => (fit ? weightIn(fit, place, j) : NaN));
}
