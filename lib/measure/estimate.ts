import { beyondLimit, censoredAt, certainlyBeyond, quantilesOf, withinCensor } from "@/lib/measure/censored";
import type { EstimateShape } from "@/lib/measure/checkpoint-definition";
import type { Estimate, EstimateOptions } from "@/lib/measure/estimate-parts";
import { estimateShifted } from "@/lib/measure/estimate-shifted";
import { evaluateDraws, evaluateWindowDraws, varianceAlongCurve, variancesOf } from "@/lib/measure/draws";
import type { Expression } from "@/lib/measure/formula";
import { sampleSd } from "@/lib/measure/mean-and-sd";
import { evaluatorOf, groupsBesideWindow, groupsOf, type DoubtGroup, type Evaluator, type Sample } from "@/lib/measure/sample";

/**
 * Value and SD of an expression at a sample; null when it cannot be computed there (points on top of each other).
 * `plain` and `time`: first-order propagation, second-order in time for a bat that turns. `folded`: seeded draws, each folded by the expression itself. `extreme`
 * and `crossing`: seeded draws, the noise's own part taken off (estimate-shifted.ts). At or beyond a limit: censored.ts.
 * Source: conventions `estimate`.
 * @param evaluator of the points as placed, where there is one already
 */
export function estimate(shape: EstimateShape, expression: Expression, sample: Sample, options: EstimateOptions, evaluator: Evaluator = evaluatorOf(expression, sample)): Estimate | null {
  const value = evaluator.valueAt(new Float64Array(groupsBesideWindow(sample).length));
  if (Number.isNaN(value)) return null;
  if (shape === "extreme" || shape === "crossing") return estimateShifted(shape, expression, sample, evaluator, value, options);
  const limit = censoredAt(value, options.censor);
  if (limit !== null) return sample.window ? beyondLimit(drawsOf(expression, sample, options), options.censor) : certainlyBeyond(limit);
  if (!Number.isFinite(value)) return null;
  const groups = groupsOf(sample);
  const isTimeKnown = sample.places.every((place) => place.speed !== null);
  if (shape === "folded") return drawn(evaluator, groups, value, isTimeKnown, options);
  return firstOrder(evaluator, groups, value, isTimeKnown, sample.places.some(({ bend }) => bend !== null));
}

/** Values of draws around the guessed curves of a window, none beyond the limit. */
function drawsOf(expression: Expression, sample: Sample, { draws, seed, censor }: EstimateOptions): number[] {
  const values = evaluateWindowDraws(evaluatorOf(expression, sample, "drawn"), groupsBesideWindow(sample), Math.round(draws / 2), seed);
  return Array.from(values, (draw) => withinCensor(draw, censor)).filter(Number.isFinite);
}

function firstOrder({ valueAt }: Evaluator, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean, isAlongCurve: boolean): Estimate | null {
  const variance = variancesOf(valueAt, groups, ["points", "scale", "time"]);
  if (isAlongCurve) variance.time = varianceAlongCurve(valueAt, groups);
  const time = isTimeKnown ? Math.sqrt(variance.time) : null;
  const sd = Math.sqrt(variance.points + variance.scale + (time === null ? 0 : variance.time));
  if (!Number.isFinite(sd)) return null;
  return { value, sd, doubt: { points: Math.sqrt(variance.points), scale: Math.sqrt(variance.scale), time }, quantiles: null, draws: null, isCensored: false };
}

/** The parts of scale and time are first-order ones; the points' part is the rest, since there the fold matters. */
function drawn({ valueAt }: Evaluator, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean, { draws, seed }: EstimateOptions): Estimate | null {
  const values = evaluateDraws(valueAt, groups, draws, seed, isTimeKnown);
  if (values.length < draws / 2) return null;
  const sd = sampleSd(values) ?? 0;
  const variance = variancesOf(valueAt, groups, ["scale", "time"]);
  const known = variance.scale + (isTimeKnown ? variance.time : 0);
  if (!Number.isFinite(sd) || !Number.isFinite(known)) return null;
  return {
    value,
    sd,
    doubt: { points: Math.sqrt(Math.max(0, sd ** 2 - known)), scale: Math.sqrt(variance.scale), time: isTimeKnown ? Math.sqrt(variance.time) : null },
    quantiles: quantilesOf(values),
    draws: values,
    isCensored: false,
  };
}
