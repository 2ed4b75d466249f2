import { splineValues } from "@/lib/measure/signals/cubic-spline";

/** An interval that differs from the median by more than this share makes times uneven. Source: conventions `time.unevenTimes`. */
export const UNEVEN_SHARE = 0.02;

/** Guards a comparison of times against rounding, as a share. */
const EPSILON = 1e-6;

/** Whether any interval between samples differs from the clip's median interval by more than 2 %. */
export function isUneven(seconds: ArrayLike<number>, periodSeconds: number): boolean {
  for (let i = 1; i < seconds.length; i++) {
    const step = (seconds[i] ?? NaN) - (seconds[i - 1] ?? NaN);
    if (!(Math.abs(step / periodSeconds - 1) <= UNEVEN_SHARE + EPSILON)) return true;
  }
  return false;
}

/** Times from the first sample to the last in steps as near to the median interval as fit a whole number of times. */
export function evenTimes(seconds: ArrayLike<number>, periodSeconds: number): Float64Array {
  const first = seconds[0] ?? NaN;
  const last = seconds[seconds.length - 1] ?? NaN;
  const steps = Math.max(1, Math.round((last - first) / periodSeconds));
  return Float64Array.from({ length: steps + 1 }, (_, i) => first + ((last - first) * i) / steps);
}

/**
 * Values at other times in increasing order, by the not-a-knot cubic spline through the samples.
 * @throws RangeError for fewer than two samples or times that do not increase
 */
export function resample(seconds: Float64Array, values: Float64Array, at: Float64Array): Float64Array {
  return splineValues(seconds, values, at);
}
