import { evaluateWindowDraws, variancesOf } from "@/lib/measure/draws";
import type { Estimate, EstimateOptions } from "@/lib/measure/estimate-parts";
import type { Expression } from "@/lib/measure/formula";
import { meanOf, sampleSd } from "@/lib/measure/mean-and-sd";
import { percentile } from "@/lib/measure/order-statistics";
import { evaluatorOf, groupsBesideWindow, type Evaluator, type Sample } from "@/lib/measure/sample";

/** Fewer draws than this say too little about an SD. Source: conventions `estimate.draws`. */
const LEAST_DRAWS = 200;

/** Doubt of the correction as a share of it. Measured on drawn hitters (tests/bench/coverage.ts). */
const DOUBT_OF_SHIFT = 0.7;

/**
 * An extreme or a crossing of a noisy curve: noise shifts it. How far is found by draws around the guessed curve, each
 * smoothed as the placed points are (around the noisy curve itself a flat stretch would show only two fifths of it), and
 * taken off; SD, quantiles and verdict come from the draws about the corrected value.
 * Source: conventions `estimate.extreme`, `estimate.crossing`.
 */
export function estimateShifted(
  shape: "extreme" | "crossing", expression: Expression, sample: Sample, evaluator: Evaluator, value: number, options: EstimateOptions,
): Estimate | null {
  const count = Math.max(LEAST_DRAWS, Math.round(options.draws / 2));
  const groups = groupsBesideWindow(sample);
  const guessed = withinCensor(evaluatorOf(expression, sample, "guessed").valueAt(new Float64Array(groups.length)), options.censor);
  // Where only the noisy curve has it, the draws lie around that.
  const isGuessed = Number.isFinite(guessed);
  const around = isGuessed ? evaluatorOf(expression, sample, "drawn") : evaluator;
  const drawn = Array.from(evaluateWindowDraws(around, groups, count, options.seed), (draw) => withinCensor(draw, options.censor)).filter(Number.isFinite);
  if (drawn.length < count / 2) return null;
  const mean = meanOf(drawn);
  const spread = sampleSd(drawn) ?? 0;
  const corrected = clamp(withinCensor(value - (mean - (isGuessed ? guessed : value)), options.censor), options.foldsAt);
  const period = sample.window?.framePeriodSeconds ?? 0;
  // The correction is itself an estimate, and only roughly known.
  const sd = Math.max(Math.hypot(spread, (corrected - value) * DOUBT_OF_SHIFT), shape === "crossing" ? period / Math.sqrt(12) : 0);
  const widening = spread > 0 ? sd / spread : 1;
  const draws = drawn.map((draw) => clamp(withinCensor((draw - mean) * widening + corrected, options.censor), options.foldsAt));
  const variance = variancesOf(evaluator.valueAt, groups, ["scale", "time"], 1);
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
