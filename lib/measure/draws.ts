import { fillNormals, poolStart } from "@/lib/measure/normal-pool";
import type { DoubtGroup, Evaluator } from "@/lib/measure/sample";

type ValueAt = (offsets: Float64Array) => number;

/** Share of an SD by which each unknown is moved to find the slope of the value. */
const STEP = 0.01;

/**
 * First-order variance of each group of unknowns: the square of the value's slope in units of each unknown's SD.
 * @param step in SDs; a whole one where the value moves in jumps, as that of a window does
 */
export function variancesOf(valueAt: ValueAt, groups: readonly DoubtGroup[], wanted: readonly DoubtGroup[], step: number = STEP): Record<DoubtGroup, number> {
  const offsets = new Float64Array(groups.length);
  const variance = { points: 0, scale: 0, time: 0 };
  groups.forEach((group, i) => {
    if (!wanted.includes(group)) return;
    offsets[i] = step;
    const above = valueAt(offsets);
    offsets[i] = -step;
    const below = valueAt(offsets);
    offsets[i] = 0;
    variance[group] += ((above - below) / (2 * step)) ** 2;
  });
  return variance;
}

/**
 * Variance that the event times bring where places move along a curve: of a second-order value its slope squared and twice its
 * bend squared, from whole SDs to either side.
 */
export function varianceAlongCurve(valueAt: ValueAt, groups: readonly DoubtGroup[]): number {
  const offsets = new Float64Array(groups.length);
  const now = valueAt(offsets);
  let variance = 0;
  groups.forEach((group, i) => {
    if (group !== "time") return;
    offsets[i] = 1;
    const above = valueAt(offsets);
    offsets[i] = -1;
    const below = valueAt(offsets);
    offsets[i] = 0;
    variance += ((above - below) / 2) ** 2 + 2 * ((above + below) / 2 - now) ** 2;
  });
  return variance;
}

/**
 * Values of seeded draws of all unknowns; those that cannot be computed are left out, infinite ones stay.
 * @param isTimeKnown false holds the event times still
 */
export function evaluateDraws(valueAt: ValueAt, groups: readonly DoubtGroup[], count: number, seed: string, isTimeKnown: boolean): number[] {
  const offsets = new Float64Array(groups.length);
  const still = isTimeKnown ? [] : groups.flatMap((group, i) => (group === "time" ? [i] : []));
  const start = poolStart(seed);
  const values: number[] = [];
  for (let draw = 0; draw < count; draw++) {
    fillNormals(offsets, start, draw);
    for (const i of still) offsets[i] = 0;
    const value = valueAt(offsets);
    if (!Number.isNaN(value)) values.push(value);
  }
  return values;
}

/**
 * As evaluateDraws, with a window's points drawn from the pool of noise.
 * @param groups those beside the window
 */
export function evaluateWindowDraws({ drawnAt, noiseLength }: Pick<Evaluator, "drawnAt" | "noiseLength">, groups: readonly DoubtGroup[], count: number, seed: string): Float64Array {
  const offsets = new Float64Array(groups.length);
  const start = poolStart(seed);
  const noiseStart = poolStart(`${seed} window`);
  const values = new Float64Array(count);
  let known = 0;
  for (let draw = 0; draw < count; draw++) {
    fillNormals(offsets, start, draw);
    const value = drawnAt(offsets, noiseStart + draw * (noiseLength + 1));
    if (!Number.isNaN(value)) values[known++] = value;
  }
  return values.subarray(0, known);
}
