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

/** Sums of d^0 to d^4 over the placed samples around one, d in units of the reach. */
interface Moments {
  s0: number;
  s1: number;
  s2: number;
  s3: number;
  s4: number;
}

/** Running sums of t^1 to t^4 over all samples, placed or not: entry i is the sum of those before i. */
function runningSums(times: Float64Array): readonly [Float64Array, Float64Array, Float64Array, Float64Array] {
  const [s1, s2, s3, s4] = [1, 2, 3, 4].map(() => new Float64Array(times.length + 1)) as [Float64Array, Float64Array, Float64Array, Float64Array];
  let m1 = 0;
  let m2 = 0;
  let m3 = 0;
  let m4 = 0;
  for (let i = 0; i < times.length; i++) {
    const t = times[i] ?? NaN;
    const square = t * t;
    s1[i + 1] = m1 += t;
    s2[i + 1] = m2 += square;
    s3[i + 1] = m3 += square * t;
    s4[i + 1] = m4 += square * square;
  }
  return [s1, s2, s3, s4];
}

function knownBefore(isKnown: Uint8Array): Int32Array {
  const counts = new Int32Array(isKnown.length + 1);
  for (let i = 0; i < isKnown.length; i++) counts[i + 1] = (counts[i] ?? 0) + (isKnown[i] ?? 0);
  return counts;
}

/**
 * Fits of samples begin..end-1, each with the samples within the reach from the whole row. The rest of the arrays stays 0. A
 * fit depends on nothing outside its reach, to the last digit.
 */
export function parabolaFits(isKnown: Uint8Array, seconds: Float64Array, reaches: readonly number[], begin = 0, end = seconds.length): readonly ParabolaFit[] {
  const middle = ((seconds[begin] ?? 0) + (seconds[end - 1] ?? 0)) / 2;
  const about = seconds.map((time) => time - middle);
  const row = { isKnown, seconds, about, sums: runningSums(about), counts: knownBefore(isKnown) };
  return reaches.map((reach) => fitOf(row, reach, begin, end));
}

interface Row {
  readonly isKnown: Uint8Array;
  readonly seconds: Float64Array;
  readonly about: Float64Array;
  readonly sums: ReturnType<typeof runningSums>;
  readonly counts: Int32Array;
}

function fitOf(row: Row, reachSeconds: number, begin: number, end: number): ParabolaFit {
  const { isKnown, seconds, about, counts } = row;
  const count = seconds.length;
  const fit: ParabolaFit = {
    times: seconds, isKnown, reachSeconds, from: new Int32Array(count), to: new Int32Array(count), by0: new Float64Array(count), by1: new Float64Array(count), by2: new Float64Array(count),
  };
  const moments: Moments = { s0: 0, s1: 0, s2: 0, s3: 0, s4: 0 };
  let from = 0;
  let to = 0;
  for (let i = begin; i < end; i++) {
    const now = about[i] ?? NaN;
    while ((about[from] ?? NaN) < now - reachSeconds - 1e-9) from++;
    while (to < count && (about[to] ?? NaN) <= now + reachSeconds + 1e-9) to++;
    const known = (counts[to] ?? 0) - (counts[from] ?? 0);
    if (known === to - from) momentsWithoutHoles(moments, row, now, from, to, reachSeconds);
    else momentsAcrossHoles(moments, row, now, from, to, reachSeconds);
    // First row of the inverse of the normal equations, by Cramer's rule.
    const { s0, s1, s2, s3, s4 } = moments;
    const a = s2 * s4 - s3 * s3;
    const b = s2 * s3 - s1 * s4;
    const c = s1 * s3 - s2 * s2;
    const det = s0 * a + s1 * b + s2 * c;
    const isEnough = known >= LEAST_SAMPLES && det > 1e-9;
    fit.from[i] = isEnough ? from : i;
    fit.to[i] = isEnough ? to : i + 1;
    fit.by0[i] = isEnough ? a / det : 1;
    fit.by1[i] = isEnough ? b / det / reachSeconds : 0;
    fit.by2[i] = isEnough ? c / det / (reachSeconds * reachSeconds) : 0;
  }
  return fit;
}

/** From the running sums, moved to this sample's own time. */
function momentsWithoutHoles(into: Moments, { sums: [sum1, sum2, sum3, sum4] }: Row, now: number, from: number, to: number, u: number): void {
  const m0 = to - from;
  const m1 = (sum1[to] ?? NaN) - (sum1[from] ?? NaN);
  const m2 = (sum2[to] ?? NaN) - (sum2[from] ?? NaN);
  const m3 = (sum3[to] ?? NaN) - (sum3[from] ?? NaN);
  const m4 = (sum4[to] ?? NaN) - (sum4[from] ?? NaN);
  const square = now * now;
  into.s0 = m0;
  into.s1 = (m1 - now * m0) / u;
  into.s2 = (m2 - 2 * now * m1 + square * m0) / (u * u);
  into.s3 = (m3 - 3 * now * m2 + 3 * square * m1 - square * now * m0) / (u * u * u);
  into.s4 = (m4 - 4 * now * m3 + 6 * square * m2 - 4 * square * now * m1 + square * square * m0) / (u * u * u * u);
}

function momentsAcrossHoles(into: Moments, { isKnown, about }: Row, now: number, from: number, to: number, u: number): void {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  for (let j = from; j < to; j++) {
    if (!isKnown[j]) continue;
    const d = ((about[j] ?? NaN) - now) / u;
    const square = d * d;
    s0 += 1;
    s1 += d;
    s2 += square;
    s3 += square * d;
    s4 += square * square;
  }
  into.s0 = s0;
  into.s1 = s1;
  into.s2 = s2;
  into.s3 = s3;
  into.s4 = s4;
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
