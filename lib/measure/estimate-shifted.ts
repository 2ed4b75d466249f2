import { evaluateWindowDraws, variancesOf } from "@/lib/measure/draws";
import { beyondLimit, censoredAt, quantilesOf, withinCensor } from "@/lib/measure/censored";
import type { Estimate, EstimateOptions } from "@/lib/measure/estimate-parts";
import type { Expression } from "@/lib/measure/formula";
import { meanOf, sampleSd } from "@/lib/measure/mean-and-sd";
import { evaluatorOf, groupsBesideWindow, type Evaluator, type Sample } from "@/lib/measure/sample";

/** Fewer draws than this say too little about an SD. Source: conventions `estimate.draws`. */
const LEAST_DRAWS = 200;

/** This share of them is drawn around the placed curve itself. */
const AROUND_PLACED = 0.25;

/** Doubt of the correction as a share of it. Measured on drawn hitters (tests/bench/coverage.ts). */
const DOUBT_OF_SHIFT = 0.7;

/**
 * The guessed curve keeps some noise of its own, which lifts its largest value: by so much more than the draws say noise lifts
 * the largest of the placed curve. Measured on drawn hitters (tests/bench/coverage.ts); a length or a time is not picked like that.
 */
const OF_PICKED = 1.1;

/**
 * An extreme or a crossing of a noisy curve: noise shifts it. How far is found by draws around the guessed curve, each
 * smoothed as the placed points are (around the noisy curve itself a flat stretch would show only two fifths of it), and
 * taken off; SD, quantiles and verdict come from the draws about the corrected value. The guess may be steeper just there than
 * the curve is: draws around the placed curve then tell the SD. Beyond a limit: see beyondLimit.
 * Source: conventions `estimate.extreme`, `estimate.crossing`.
 */
export function estimateShifted(
  shape: "extreme" | "crossing", expression: Expression, sample: Sample, evaluator: Evaluator, value: number, options: EstimateOptions,
): Estimate | null {
  const count = Math.max(LEAST_DRAWS, Math.round(options.draws / 2));
  const groups = groupsBesideWindow(sample);
  const isPicked = shape === "extreme" && evaluator.window.decidedBy >= 0;
  const guessed = withinCensor(evaluatorOf(expression, sample, "guessed").valueAt(new Float64Array(groups.length)), options.censor);
  // Where only the noisy curve has it, all draws lie around that.
  const isGuessed = Number.isFinite(guessed);
  const share = expression.isTimeOfLargest ? 0.5 : AROUND_PLACED;
  const aroundPlaced = finiteDraws(evaluator, groups, Math.round(share * count), options);
  const drawn = finiteDraws(isGuessed ? evaluatorOf(expression, sample, "drawn") : evaluator, groups, Math.round((1 - share) * count), options);
  if (drawn.length < (1 - share) * (count / 2)) return null;
  if (expression.isTimeOfLargest) return amongPeaks(value, [...drawn, ...aroundPlaced]);
  if (censoredAt(value, options.censor) !== null) return beyondLimit(drawn, options.censor);
  const mean = meanOf(drawn);
  const spread = sampleSd(drawn) ?? 0;
  const shift = (mean - (isGuessed ? guessed : value)) * (isPicked ? OF_PICKED : 1);
  const corrected = clamp(withinCensor(value - shift, options.censor), options.foldsAt);
  const period = sample.window?.framePeriodSeconds ?? 0;
  // The correction is itself an estimate, and only roughly known.
  const sd = Math.max(Math.hypot(Math.max(spread, sampleSd(aroundPlaced) ?? 0), (corrected - value) * DOUBT_OF_SHIFT), shape === "crossing" ? period / Math.sqrt(12) : 0);
  const widening = spread > 0 ? sd / spread : 1;
  const draws = drawn.map((draw) => clamp(withinCensor((draw - mean) * widening + corrected, options.censor), options.foldsAt));
  const variance = variancesOf(evaluator.valueAt, groups, ["scale", "time"], 1);
  const known = (part: number) => (Number.isFinite(part) ? Math.min(part, sd ** 2) : 0);
  const [scale, time] = [known(variance.scale), known(variance.time)];
  return {
    value: corrected,
    sd,
    doubt: { points: Math.sqrt(Math.max(0, sd ** 2 - scale - time)), scale: Math.sqrt(scale), time: Math.sqrt(time) },
    quantiles: quantilesOf(draws),
    draws,
    isCensored: false,
  };
}

/** When one of several peaks is the largest: the draws as they fall, around the guess and around the placed curve; SD about the value. */
function amongPeaks(value: number, draws: readonly number[]): Estimate {
  const sd = Math.sqrt(meanOf(draws.map((draw) => (draw - value) ** 2)));
  return { value, sd, doubt: { points: sd, scale: 0, time: 0 }, quantiles: quantilesOf(draws), draws, isCensored: false };
}

function finiteDraws(evaluator: Evaluator, groups: ReturnType<typeof groupsBesideWindow>, count: number, { seed, censor }: EstimateOptions): number[] {
  return Array.from(evaluateWindowDraws(evaluator, groups, count, seed), (draw) => withinCensor(draw, censor)).filter(Number.isFinite);
}

function clamp(value: number, limits: readonly [number, number] | undefined): number {
  return limits ? Math.max(limits[0], Math.min(limits[1], value)) : value;
}
