import { filterTwoPass } from "@/lib/measure/signals/butterworth";

/** What Winter's residual analysis says about one row of samples. */
export interface ResidualAnalysis {
  /** RMS of raw minus filtered at each cut-off asked for, in the unit of the samples. */
  readonly residuals: readonly number[];
  /** The line through the noisy tail: residual = interceptResidual + slopePerHz * cut-off. */
  readonly interceptResidual: number;
  readonly slopePerHz: number;
  /** Cut-off whose residual is the intercept; null when none of those asked for encloses it. */
  readonly cutoffHz: number | null;
}

/** RMS of what the two-pass filter takes away, in the unit of the samples; NaN for a row too short to filter. */
export function residualRms(values: Float64Array, cutoffHz: number, rateHz: number): number {
  const filtered = filterTwoPass(values, cutoffHz, rateHz);
  if (!filtered) return NaN;
  return Math.sqrt(values.reduce((sum, value, i) => sum + (value - (filtered[i] ?? NaN)) ** 2, 0) / values.length);
}

/**
 * Winter's residual analysis: above some cut-off the filter takes away noise only, and there the residual falls on a
 * line; its value carried back to 0 Hz is the noise, and the cut-off is the one whose residual equals it. It tends to
 * smooth too much (case T5.6: the peak of a fast turn is 7 % low at the chosen cut-off), so a peak is shown beside it.
 * @param cutoffsHz increasing, each below half the rate
 * @param tailHz lowest and highest cut-off of the line through the noisy tail
 * @returns null for a row too short to filter or with unknown values
 * @throws RangeError for cut-offs that do not increase, lie outside (0, rate / 2), or leave fewer than two in the tail
 */
export function residualAnalysis(values: Float64Array, rateHz: number, cutoffsHz: readonly number[], tailHz: readonly [number, number]): ResidualAnalysis | null {
  if (cutoffsHz.some((hz, i) => i > 0 && !(hz > (cutoffsHz[i - 1] ?? NaN)))) throw new RangeError("cut-offs must increase");
  const tail = cutoffsHz.flatMap((hz, i) => (hz >= tailHz[0] && hz <= tailHz[1] ? [i] : []));
  if (tail.length < 2) throw new RangeError(`fewer than two cut-offs lie between ${tailHz[0]} and ${tailHz[1]} Hz`);
  const residuals = cutoffsHz.map((hz) => residualRms(values, hz, rateHz));
  if (!residuals.every(Number.isFinite)) return null;
  const { intercept, slope } = lineThrough(tail.map((i) => cutoffsHz[i] ?? NaN), tail.map((i) => residuals[i] ?? NaN));
  return { residuals, interceptResidual: intercept, slopePerHz: slope, cutoffHz: crossingHz(values, rateHz, cutoffsHz, residuals, intercept) };
}

/** Least-squares line. */
export function lineThrough(xs: readonly number[], ys: readonly number[]): { readonly intercept: number; readonly slope: number } {
  const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
  const [mx, my] = [mean(xs), mean(ys)];
  const spread = xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
  const slope = xs.reduce((sum, x, i) => sum + (x - mx) * ((ys[i] ?? NaN) - my), 0) / spread;
  return { intercept: my - slope * mx, slope };
}

/** Where the residual passes a level, by halving between the two cut-offs beside it. */
function crossingHz(values: Float64Array, rateHz: number, cutoffsHz: readonly number[], residuals: readonly number[], level: number): number | null {
  const after = residuals.findIndex((residual) => residual <= level);
  const first = cutoffsHz[after - 1];
  const second = cutoffsHz[after];
  if (first === undefined || second === undefined) return null;
  let [low, high] = [first, second];
  for (let i = 0; i < 50; i++) {
    const middle: number = (low + high) / 2;
    if (residualRms(values, middle, rateHz) > level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
