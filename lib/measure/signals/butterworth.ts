/**
 * Coefficients of a second-order low-pass section as Winter writes them:
 * y[i] = a0 x[i] + a1 x[i-1] + a2 x[i-2] + b1 y[i-1] + b2 y[i-2]. No unit.
 */
export interface SectionCoefficients {
  readonly a0: number;
  readonly a1: number;
  readonly a2: number;
  readonly b1: number;
  readonly b2: number;
}

/** A piece shorter than this many samples is not filtered. Source: conventions `time.unevenTimes`. */
export const LEAST_SAMPLES = 12;

/** Samples that each end is extended by: three times the three coefficients of a section, as scipy's filtfilt pads. */
export const PAD_SAMPLES = 9;

/** (2^(1/n) - 1)^(1/4) for n passes: 1 for one, 0.8022 for two. */
function cutoffCorrection(passes: 1 | 2): number {
  return (2 ** (1 / passes) - 1) ** 0.25;
}

/**
 * Coefficients of a second-order Butterworth section. For two passes the cut-off is corrected after pre-warping,
 * omega = tan(pi fc / fs) / 0.8022, so that both passes together have a gain of 0.7071 at the cut-off.
 * Source: Winter, Biomechanics and Motor Control of Human Movement; cases T5.1 to T5.3.
 * @param cutoffHz cut-off of all passes together
 * @param rateHz samples a second
 * @throws RangeError for a cut-off that is not between 0 and half the rate
 */
export function butterworthCoefficients(cutoffHz: number, rateHz: number, passes: 1 | 2 = 2): SectionCoefficients {
  if (!(rateHz > 0 && rateHz < Infinity)) throw new RangeError(`the rate must be above 0 Hz, not ${rateHz}`);
  if (!(cutoffHz > 0 && cutoffHz < rateHz / 2)) throw new RangeError(`the cut-off must lie between 0 and ${rateHz / 2} Hz, not ${cutoffHz}`);
  const omega = Math.tan((Math.PI * cutoffHz) / rateHz) / cutoffCorrection(passes);
  const k1 = Math.SQRT2 * omega;
  const k2 = omega * omega;
  const a0 = k2 / (1 + k1 + k2);
  const k3 = (2 * a0) / k2;
  return { a0, a1: 2 * a0, a2: a0, b1: k3 - 2 * a0, b2: 1 - 2 * a0 - k3 };
}

/**
 * Filters `values[from] … values[to - 1]` into the same places of `into` (which may be `values` itself) and leaves the
 * rest of `into` alone. A piece of fewer than LEAST_SAMPLES becomes NaN and the answer is false. A NaN inside makes the
 * whole piece NaN.
 */
export type PieceFilter = (values: Float64Array, into: Float64Array, from?: number, to?: number) => boolean;

/**
 * Winter's two-pass second-order Butterworth filter, made once and used often: forwards, then backwards, so that nothing
 * is delayed. Ends are extended by PAD_SAMPLES oddly (2 x0 - x9 … x1) and each pass starts in the steady state of its
 * first sample, as scipy's filtfilt does (case T5.4): what moves steadily right up to an end is off there by up to a
 * third of a step (10 Hz, 240 samples a second). It keeps its own memory between calls and allocates only when a
 * piece is longer than any before; so one filter serves one caller at a time.
 * @param cutoffHz two-pass cut-off: gain 0.7071 there
 * @throws RangeError for a cut-off that is not between 0 and half the rate
 */
export function twoPassFilter(cutoffHz: number, rateHz: number): PieceFilter {
  const section = butterworthCoefficients(cutoffHz, rateHz, 2);
  let work = new Float64Array(0);
  return (values, into, from = 0, to = values.length) => {
    const count = to - from;
    if (!(count >= LEAST_SAMPLES)) {
      into.fill(NaN, from, Math.max(from, to));
      return false;
    }
    const length = count + 2 * PAD_SAMPLES;
    if (work.length < length) work = new Float64Array(length);
    extendOddly(values, from, to, work);
    passOver(work, 0, length, 1, section);
    passOver(work, length - 1, length, -1, section);
    into.set(work.subarray(PAD_SAMPLES, PAD_SAMPLES + count), from);
    return true;
  };
}

/**
 * The same filter for one row of samples in equal steps of time; null for fewer than LEAST_SAMPLES.
 * @throws RangeError for a cut-off that is not between 0 and half the rate
 */
export function filterTwoPass(values: Float64Array, cutoffHz: number, rateHz: number): Float64Array | null {
  const filtered = new Float64Array(values.length);
  return twoPassFilter(cutoffHz, rateHz)(values, filtered) ? filtered : null;
}

function extendOddly(values: Float64Array, from: number, to: number, work: Float64Array): void {
  const first = values[from] ?? NaN;
  const last = values[to - 1] ?? NaN;
  const count = to - from;
  for (let i = 0; i < PAD_SAMPLES; i++) {
    work[i] = 2 * first - (values[from + PAD_SAMPLES - i] ?? NaN);
    work[PAD_SAMPLES + count + i] = 2 * last - (values[to - 2 - i] ?? NaN);
  }
  work.set(values.subarray(from, to), PAD_SAMPLES);
}

/** One pass in place, from `start` in steps of `step`, in the steady state of its first sample (transposed direct form II). */
function passOver(work: Float64Array, start: number, count: number, step: 1 | -1, { a0, a1, a2, b1, b2 }: SectionCoefficients): void {
  const first = work[start] ?? NaN;
  let one = (1 - a0) * first;
  let two = (a2 + b2) * first;
  for (let i = 0, at = start; i < count; i++, at += step) {
    const x = work[at] ?? NaN;
    const y = a0 * x + one;
    one = a1 * x + b1 * y + two;
    two = a2 * x + b2 * y;
    work[at] = y;
  }
}
