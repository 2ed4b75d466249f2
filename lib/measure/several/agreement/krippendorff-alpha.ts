/** How far two values lie apart: different or not, by rank, by difference, by ratio. */
export type ValueScale = "nominal" | "ordinal" | "interval" | "ratio";

/** Agreement of any number of coders, gaps allowed. */
export interface KrippendorffAlpha {
  /** Null when nothing can be paired or all values are the same. */
  readonly alpha: number | null;
  /** Values that stand beside another on their unit. */
  readonly pairable: number;
}

/**
 * Krippendorff's alpha: 1 less observed over expected disagreement. A row per coder, a column per unit; null = not coded.
 * Source: Krippendorff 2011, Computing Krippendorff's alpha-reliability.
 * @throws RangeError when rows differ in length, or for values below 0 on a ratio scale
 */
export function krippendorffAlpha(coders: readonly (readonly (number | null)[])[], scale: ValueScale): KrippendorffAlpha {
  const length = coders[0]?.length ?? 0;
  if (coders.some((row) => row.length !== length)) throw new RangeError("every coder needs a place for every unit");
  const units = Array.from({ length }, (_, u) => coders.flatMap((row) => knownValue(row[u])));
  const paired = units.filter((unit) => unit.length > 1);
  const values = [...new Set(paired.flat())].sort((a, b) => a - b);
  if (scale === "ratio" && (values[0] ?? 0) < 0) throw new RangeError("a ratio scale has no values below 0");
  const index = new Map(values.map((value, i) => [value, i]));
  const size = values.length;
  const coincidence = new Float64Array(size * size);
  for (const unit of paired) {
    unit.forEach((first, i) =>
      unit.forEach((second, j) => {
        if (i === j) return;
        const at = (index.get(first) ?? 0) * size + (index.get(second) ?? 0);
        coincidence[at] = (coincidence[at] ?? 0) + 1 / (unit.length - 1);
      }),
    );
  }
  const totals = values.map((_, i) => coincidence.subarray(i * size, (i + 1) * size).reduce((sum, count) => sum + count, 0));
  const pairable = totals.reduce((sum, count) => sum + count, 0);
  let [observed, expected] = [0, 0];
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const apart = apartSquared(scale, i, j, values, totals);
      observed += (coincidence[i * size + j] ?? 0) * apart;
      expected += (totals[i] ?? 0) * (totals[j] ?? 0) * apart;
    }
  }
  return { alpha: expected > 0 ? 1 - ((pairable - 1) * observed) / expected : null, pairable: Math.round(pairable) };
}

function knownValue(value: number | null | undefined): number[] {
  return value == null || !Number.isFinite(value) ? [] : [value];
}

function apartSquared(scale: ValueScale, i: number, j: number, values: readonly number[], totals: readonly number[]): number {
  if (i === j) return 0;
  const [a, b] = [values[i] ?? NaN, values[j] ?? NaN];
  switch (scale) {
    case "nominal":
      return 1;
    case "interval":
      return (a - b) ** 2;
    case "ratio":
      return ((a - b) / (a + b)) ** 2;
    case "ordinal": {
      const [low, high] = i < j ? [i, j] : [j, i];
      const between = totals.slice(low, high + 1).reduce((sum, count) => sum + count, 0);
      return (between - ((totals[i] ?? 0) + (totals[j] ?? 0)) / 2) ** 2;
    }
  }
}
