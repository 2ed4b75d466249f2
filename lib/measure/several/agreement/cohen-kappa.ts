import { Z95 } from "@/lib/measure/several/agreement/measurement-error";

/** How much a disagreement counts: any the same, by the distance on the scale, or by its square. */
export type DisagreementWeight = "none" | "linear" | "quadratic";

/** Agreement of two raters beyond chance. */
export interface CohenKappa {
  readonly n: number;
  /** Share on which both agree (weighted: 1 less the mean disagreement). */
  readonly observed: number;
  /** The same by chance alone. */
  readonly expected: number;
  /** Null when chance alone agrees always (one label for everything) or nothing was rated: then only `observed` speaks. */
  readonly kappa: number | null;
  /** SE of kappa, and SE if there were no agreement beyond chance; only without weights. */
  readonly se: number | null;
  readonly seOfNone: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Cohen's kappa of a square table of counts: rows by the first rater, columns by the second, categories in the order of
 * the scale. Weights run over the whole scale given: a category that nobody used still counts as a step, so that two
 * tables of one scale compare. SEs: Fleiss, Cohen & Everitt 1969.
 * @throws RangeError unless the table is square with counts of 0 or more
 */
export function cohenKappa(table: readonly (readonly number[])[], weight: DisagreementWeight = "none"): CohenKappa {
  const size = table.length;
  if (size < 1 || table.some((row) => row.length !== size || row.some((count) => !(count >= 0 && count < Infinity)))) {
    throw new RangeError("a table of two raters is square and holds counts");
  }
  const n = table.flat().reduce((sum, count) => sum + count, 0);
  if (n === 0) return { n, observed: NaN, expected: NaN, kappa: null, se: null, seOfNone: null, low: null, high: null };
  const p = (i: number, j: number) => (table[i]?.[j] ?? 0) / n;
  const all = Array.from({ length: size }, (_, i) => i);
  const row = all.map((i) => all.reduce((sum, j) => sum + p(i, j), 0));
  const column = all.map((j) => all.reduce((sum, i) => sum + p(i, j), 0));
  const chance = (i: number, j: number) => (row[i] ?? 0) * (column[j] ?? 0);
  const sumOver = (value: (i: number, j: number) => number) => all.reduce((sum, i) => sum + all.reduce((own, j) => own + value(i, j), 0), 0);
  const cost = (i: number, j: number) => costOf(weight, i, j, size);
  const observed = 1 - sumOver((i, j) => cost(i, j) * p(i, j));
  const expected = 1 - sumOver((i, j) => cost(i, j) * chance(i, j));
  const beyond = 1 - expected;
  if (!(beyond > 1e-15)) return { n, observed, expected, kappa: null, se: null, seOfNone: null, low: null, high: null };
  const kappa = (observed - expected) / beyond;
  if (weight !== "none") return { n, observed, expected, kappa, se: null, seOfNone: null, low: null, high: null };
  const both = (i: number) => (row[i] ?? 0) + (column[i] ?? 0);
  const same = sumOver((i, j) => (i === j ? p(i, i) * (1 - both(i) * (1 - kappa)) ** 2 : 0));
  const apart = (1 - kappa) ** 2 * sumOver((i, j) => (i === j ? 0 : p(i, j) * ((column[i] ?? 0) + (row[j] ?? 0)) ** 2));
  const se = Math.sqrt(Math.max(0, same + apart - (kappa - expected * (1 - kappa)) ** 2) / n) / beyond;
  const none = sumOver((i, j) => (i === j ? chance(i, i) * both(i) : 0));
  const seOfNone = Math.sqrt(Math.max(0, expected + expected ** 2 - none) / n) / beyond;
  return { n, observed, expected, kappa, se, seOfNone, low: kappa - Z95 * se, high: kappa + Z95 * se };
}

function costOf(weight: DisagreementWeight, i: number, j: number, size: number): number {
  if (weight === "none") return i === j ? 0 : 1;
  const apart = size > 1 ? Math.abs(i - j) / (size - 1) : 0;
  return weight === "linear" ? apart : apart ** 2;
}

/**
 * The table of two raters from what each called, thing by thing; a thing that one of them did not call is left out.
 * @param scale all categories in their order @throws RangeError for a call that is not on the scale
 */
export function tableOfCalls<C>(calls: readonly (readonly [C | null, C | null])[], scale: readonly C[]): readonly (readonly number[])[] {
  const table = scale.map(() => scale.map(() => 0));
  for (const [first, second] of calls) {
    if (first === null || second === null) continue;
    const [i, j] = [scale.indexOf(first), scale.indexOf(second)];
    const row = table[i];
    if (!row || j < 0) throw new RangeError("a call is not on the scale");
    row[j] = (row[j] ?? 0) + 1;
  }
  return table;
}
