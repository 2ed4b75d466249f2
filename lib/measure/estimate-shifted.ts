import { evaluateDraws, meanOf, spread, variancesOf } from "@/lib/measure/draws";
import type { Estimate, EstimateOptions } from "@/lib/measure/estimate";
import type { Expression } from "@/lib/measure/formula";
import { percentile } from "@/lib/measure/order-statistics";
import { evaluatorOf, type DoubtGroup, type Evaluator, type Sample } from "@/lib/measure/sample";

/** Fewer draws than this say too little about an SD. Source: conventions `estimate.draws`. */
const LEAST_DRAWS = 200;

/**
 * An extreme or a crossing of a noisy curve: noise shifts it. The shift is found by draws around the smoothed curve
 * (around the noisy one itself a flat stretch would show only two fifths of it) and taken off; SD, quantiles and
 * verdict come from the draws about the corrected value. Source: conventions `estimate.extreme`, `estimate.crossing`.
 */
export function estimateShifted(
  shape: "extreme" | "crossing", expression: Expression, sample: Sample, placed: Evaluator, value: number, groups: readonly DoubtGroup[], options: EstimateOptions,
): Estimate | null {
  const count = Math.max(LEAST_DRAWS, Math.round(options.draws / 2));
  const nowhere = new Float64Array(groups.length);
  const smooth = evaluatorOf(expression, sample, true);
  const smoothValue = smooth.valueAt(nowhere);
  // A crossing that only the noisy curve has: the draws then lie around it as it is.
  const [around, centre] = Number.isFinite(smoothValue) ? [smooth, smoothValue] : [placed, value];
  const drawn = evaluateDraws(around.valueAt, groups, count, options.seed, true).map((draw) => withinCensor(draw, options.censor)).filter(Number.isFinite);
  if (drawn.length < count / 2) return null;
  const mean = meanOf(drawn);
  const corrected = clamp(withinCensor(value - (mean - centre), options.censor), options.foldsAt);
  const period = sample.window?.framePeriodSeconds ?? 0;
  const sd = Math.max(spread(drawn), shape === "crossing" ? period / Math.sqrt(12) : 0);
  const draws = drawn.map((draw) => clamp(withinCensor(draw - mean + corrected, options.censor), options.foldsAt));
  const variance = variancesOf(placed.valueAt, groups, ["scale", "time"], 1);
  const known = (part: number) => (Number.isFinite(part) ? Math.min(part, sd ** 2) : 0);
  const [scale, time] = [known(variance.scale), known(variance.time)];
  return {
    value: corrected,
    sd,
    doubt: { points: Math.sqrt(Math.max(0, sd ** 2 - scale - time)), scale: Math.sqrt(scale), time: Math.sqrt(time) },
    quantiles: { p16: percentile(draws, 0.16), p50: percentile(draws, 0.5), p84: percentile(draws, 0.84) },
    draws,
    isCensored: false,
  };
}

/** A value no further out than the limit beyond which nothing more is known. */
function withinCensor(value: number, censor: EstimateOptions["censor"]): number {
  if (censor?.above !== undefined && value > censor.above) return censor.above;
  return censor?.below !== undefined && value < censor.below ? censor.below : value;
}

function clamp(value: number, limits: readonly [number, number] | undefined): number {
  return limits ? Math.max(limits[0], Math.min(limits[1], value)) : value;
}
