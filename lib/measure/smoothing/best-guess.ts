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
  const chosen = new Uint8Array(count).fill(fits.length - 1);
  const [low, high] = [new Float64Array(count), new Float64Array(count)];
  const isOpen = new Uint8Array(count);
  const smooth = axes.map((values) => {
    low.fill(-Infinity);
    high.fill(Infinity);
    isOpen.fill(1);
    return fits.map((fit, reach) => {
      const own = new Float64Array(count);
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
      return own;
    });
  });
  return smooth.map((reaches) => {
    const guess = new Float64Array(count).fill(NaN);
    for (let i = begin; i < end; i++) guess[i] = reaches[chosen[i] ?? 0]?.[i] ?? NaN;
    return guess;
  });
}
