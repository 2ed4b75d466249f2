import type { EstimateShape } from "@/lib/measure/checkpoint-definition";
import type { Expression } from "@/lib/measure/formula";
import { normalDraws } from "@/lib/measure/normal-draws";
import { percentile } from "@/lib/measure/order-statistics";
import type { DoubtParts, Quantiles } from "@/lib/measure/reading";
import { evaluatorOf, groupsOf, type DoubtGroup, type Sample } from "@/lib/measure/sample";

/** A value with its doubt. `draws` only where its distribution is not normal. */
export interface Estimate {
  readonly value: number;
  readonly sd: number;
  readonly doubt: DoubtParts;
  readonly quantiles: Quantiles | null;
  readonly draws: readonly number[] | null;
}

/** Share of an SD by which each unknown is moved to find the slope of the value. */
const STEP = 0.01;

/**
 * Value and SD of an expression at a sample; null when it cannot be computed there (points on top of each other).
 * `plain` and `time`: first-order propagation. `folded`: seeded draws, each folded by the expression itself.
 * @throws RangeError for a shape that no formula here has yet
 */
export function estimate(shape: EstimateShape, expression: Expression, sample: Sample, draws: number, seed: string): Estimate | null {
  const groups = groupsOf(sample);
  const evaluate = evaluatorOf(expression, sample);
  const value = evaluate(new Float64Array(groups.length));
  if (!Number.isFinite(value)) return null;
  const isTimeKnown = sample.places.every((place) => place.speed !== null);
  if (shape === "plain" || shape === "time") return firstOrder(evaluate, groups, value, isTimeKnown);
  if (shape === "folded") return drawn(evaluate, groups, value, isTimeKnown, draws, seed);
  throw new RangeError(`no formula of shape ${shape} is known`);
}

type Evaluate = ReturnType<typeof evaluatorOf>;

/** First-order variance of each group of unknowns: the square of the value's slope in units of each unknown's SD. */
function variancesOf(evaluate: Evaluate, groups: readonly DoubtGroup[], wanted: readonly DoubtGroup[]): Record<DoubtGroup, number> {
  const offsets = new Float64Array(groups.length);
  const variance = { points: 0, scale: 0, time: 0 };
  groups.forEach((group, i) => {
    if (!wanted.includes(group)) return;
    offsets[i] = STEP;
    const above = evaluate(offsets);
    offsets[i] = -STEP;
    const below = evaluate(offsets);
    offsets[i] = 0;
    variance[group] += ((above - below) / (2 * STEP)) ** 2;
  });
  return variance;
}

function firstOrder(evaluate: Evaluate, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean): Estimate | null {
  const variance = variancesOf(evaluate, groups, ["points", "scale", "time"]);
  const time = isTimeKnown ? Math.sqrt(variance.time) : null;
  const sd = Math.sqrt(variance.points + variance.scale + (time === null ? 0 : variance.time));
  if (!Number.isFinite(sd)) return null;
  return { value, sd, doubt: { points: Math.sqrt(variance.points), scale: Math.sqrt(variance.scale), time }, quantiles: null, draws: null };
}

/** The parts of scale and time are first-order ones; the points' part is the rest, since there the fold matters. */
function drawn(evaluate: Evaluate, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean, count: number, seed: string): Estimate | null {
  const normals = normalDraws(seed, count * groups.length);
  const offsets = new Float64Array(groups.length);
  const values: number[] = [];
  for (let draw = 0; draw < count; draw++) {
    for (let i = 0; i < offsets.length; i++) offsets[i] = groups[i] === "time" && !isTimeKnown ? 0 : (normals[draw * offsets.length + i] ?? 0);
    const result = evaluate(offsets);
    if (Number.isFinite(result)) values.push(result);
  }
  if (values.length < count / 2) return null;
  const sd = spread(values);
  const variance = variancesOf(evaluate, groups, ["scale", "time"]);
  const known = variance.scale + (isTimeKnown ? variance.time : 0);
  if (!Number.isFinite(sd) || !Number.isFinite(known)) return null;
  return {
    value,
    sd,
    doubt: { points: Math.sqrt(Math.max(0, sd ** 2 - known)), scale: Math.sqrt(variance.scale), time: isTimeKnown ? Math.sqrt(variance.time) : null },
    quantiles: { p16: percentile(values, 0.16), p50: percentile(values, 0.5), p84: percentile(values, 0.84) },
    draws: values,
  };
}

/** SD of numbers about their mean (n-1); 0 for fewer than two. */
function spread(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}
