import { smoothThrough, type ParabolaFit } from "@/lib/measure/smoothing/parabola-fit";

/** A wider reach is taken while its value agrees with those of all narrower ones within so many of their SDs. */
const AGREES_WITHIN_SDS = 2;

/**
 * The best guess at a point's true curves: each sample smoothed as far around as the curve allows, by the widest reach whose
 * value agrees with those of all narrower ones within their noise, on every axis (intersection of confidence intervals;
 * Katkovnik 1999, from memory). Samples begin..end-1 are guessed, the rest is NaN.
 * @param fits of growing reach @param axes the coordinates of one point @param sd of one coordinate on each sample
 * @param frameCorrelation how alike errors of neighbouring samples are, 0 to 1
 */
export function bestGuesses(fits: readonly ParabolaFit[], axes: readonly Float64Array[], sd: Float64Array, frameCorrelation: number, begin: number, end: number): Float64Array[] {
  const count = sd.length;
  const inflation = (1 + frameCorrelation) / (1 - frameCorrelation);
  const { low, high, chosen, isOpen, smooth } = memoryFor(count, axes.length * fits.length);
  chosen.fill(fits.length - 1, begin, end);
  axes.forEach((values, axis) => {
    low.fill(-Infinity, begin, end);
    high.fill(Infinity, begin, end);
    isOpen.fill(1, begin, end);
    fits.forEach((fit, reach) => {
      const own = smooth[axis * fits.length + reach] ?? low;
      smoothThrough(fit, values, own, begin, end);
      for (let i = begin; i < end; i++) {
        if (!isOpen[i]) continue;
        const share = (fit.by0[i] ?? NaN) * inflation;
        const within = AGREES_WITHIN_SDS * (sd[i] ?? NaN) * (share < 1 ? Math.sqrt(share) : 1);
        const value = own[i] ?? NaN;
        if (value - within > (low[i] ?? NaN)) low[i] = value - within;
        if (value + within < (high[i] ?? NaN)) high[i] = value + within;
        if (!((low[i] ?? NaN) > (high[i] ?? NaN))) continue;
        isOpen[i] = 0;
        chosen[i] = Math.min(chosen[i] ?? 0, Math.max(0, reach - 1));
      }
    });
  });
  return axes.map((_, axis) => {
    const guess = new Float64Array(count).fill(NaN);
    for (let i = begin; i < end; i++) guess[i] = smooth[axis * fits.length + (chosen[i] ?? 0)]?.[i] ?? NaN;
    return guess;
  });
}

interface Memory {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly chosen: Uint8Array;
  readonly isOpen: Uint8Array;
  readonly smooth: Float64Array[];
}

let memory: Memory = { low: new Float64Array(0), high: new Float64Array(0), chosen: new Uint8Array(0), isOpen: new Uint8Array(0), smooth: [] };

/** Used again from call to call. */
function memoryFor(count: number, rows: number): Memory {
  if (memory.low.length < count) memory = { low: new Float64Array(count), high: new Float64Array(count), chosen: new Uint8Array(count), isOpen: new Uint8Array(count), smooth: [] };
  while (memory.smooth.length < rows) memory.smooth.push(new Float64Array(memory.low.length));
  return memory;
}
