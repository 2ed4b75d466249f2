import { seededRandom } from "@/lib/core/random";
import type { EstimateShape } from "@/lib/measure/checkpoint-definition";
import type { Expression } from "@/lib/measure/formula";
import { percentile } from "@/lib/measure/order-statistics";
import type { DoubtParts, Quantiles } from "@/lib/measure/reading";
import { evaluate, groupsOf, type DoubtGroup, type Sample } from "@/lib/measure/sample";

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
  const value = evaluate(expression, sample, new Float64Array(groups.length));
  if (!Number.isFinite(value)) return null;
  const isTimeKnown = sample.places.every((place) => place.speed !== null);
  if (shape === "plain" || shape === "time") return firstOrder(expression, sample, groups, value, isTimeKnown);
  if (shape === "folded") return drawn(expression, sample, groups, value, isTimeKnown, draws, seed);
  throw new RangeError(`no formula of shape ${shape} is known`);
}

function firstOrder(expression: Expression, sample: Sample, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean): Estimate | null {
  const offsets = new Float64Array(groups.length);
  const variance = { points: 0, scale: 0, time: 0 };
  groups.forEach((group, i) => {
    offsets[i] = STEP;
    const above = evaluate(expression, sample, offsets);
    offsets[i] = -STEP;
    const below = evaluate(expression, sample, offsets);
    offsets[i] = 0;
    variance[group] += ((above - below) / (2 * STEP)) ** 2;
  });
  const time = isTimeKnown ? Math.sqrt(variance.time) : null;
  const sd = Math.sqrt(variance.points + variance.scale + (time === null ? 0 : variance.time));
  if (!Number.isFinite(sd)) return null;
  return { value, sd, doubt: { points: Math.sqrt(variance.points), scale: Math.sqrt(variance.scale), time }, quantiles: null, draws: null };
}

function drawn(
  expression: Expression, sample: Sample, groups: readonly DoubtGroup[], value: number, isTimeKnown: boolean, count: number, seed: string,
): Estimate | null {
  const random = seededRandom(seed);
  const all = new Float64Array(groups.length);
  const own = new Float64Array(groups.length);
  const present = (["points", "scale", "time"] as const).filter((group) => groups.includes(group));
  const values: number[] = [];
  const partValues = { points: [] as number[], scale: [] as number[], time: [] as number[] };
  for (let draw = 0; draw < count; draw++) {
    for (let i = 0; i < all.length; i++) {
      const offset = random.normal();
      all[i] = groups[i] === "time" && !isTimeKnown ? 0 : offset;
    }
    const result = evaluate(expression, sample, all);
    if (Number.isFinite(result)) values.push(result);
    for (const group of present) {
      for (let i = 0; i < all.length; i++) own[i] = groups[i] === group ? (all[i] ?? 0) : 0;
      partValues[group].push(evaluate(expression, sample, own));
    }
  }
  if (values.length < count / 2) return null;
  const quantiles = { p16: percentile(values, 0.16), p50: percentile(values, 0.5), p84: percentile(values, 0.84) };
  const doubt = { points: spread(partValues.points), scale: spread(partValues.scale), time: isTimeKnown ? spread(partValues.time) : null };
  return { value, sd: spread(values), doubt, quantiles, draws: values };
}

/** SD of numbers about their mean (n-1); 0 for fewer than two. */
function spread(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}
