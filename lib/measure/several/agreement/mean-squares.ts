import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/** Mean squares of a table of things (rows) that were each measured or judged as often (columns). */
export interface MeanSquares {
  /** Rows. */
  readonly n: number;
  /** Columns. */
  readonly k: number;
  /** Between rows. */
  readonly between: number;
  /** Between columns: one rater, or one trial, reading higher than another. */
  readonly columns: number;
  /** What is left when rows and columns are taken out. */
  readonly error: number;
  /** Within rows: columns and error together. */
  readonly within: number;
  /** SD of all numbers of the table. */
  readonly sdTotal: number;
  readonly mean: number;
}

/**
 * Two-way mean squares. Rows with an unknown number are left out, and said; fewer than two whole rows or columns are no
 * table. Source: Shrout & Fleiss 1979, Psychol Bull 86:420-428.
 * @throws RangeError when rows differ in length
 */
export function meanSquares(rows: readonly (readonly (number | null)[])[]): Answer<MeanSquares & { readonly leftOut: number }> {
  const k = rows[0]?.length ?? 0;
  if (rows.some((row) => row.length !== k)) throw new RangeError("every row of the table needs as many numbers");
  const whole = rows.filter((row): row is readonly number[] => row.every((value) => value !== null && Number.isFinite(value)));
  const n = whole.length;
  if (n < 2 || k < 2) return unknownBecause("fewer than two rows or columns without a gap");
  const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const mean = meanOf(whole.flat());
  const rowMeans = whole.map(meanOf);
  const columnMeans = Array.from({ length: k }, (_, j) => meanOf(whole.map((row) => row[j] ?? NaN)));
  const squares = (values: readonly number[]) => values.reduce((sum, value) => sum + value ** 2, 0);
  const total = squares(whole.flat().map((value) => value - mean));
  const between = k * squares(rowMeans.map((value) => value - mean));
  const columns = n * squares(columnMeans.map((value) => value - mean));
  // From the residuals themselves, so that a table without error has none.
  const error = squares(whole.flatMap((row, i) => row.map((value, j) => value - (rowMeans[i] ?? NaN) - (columnMeans[j] ?? NaN) + mean)));
  return {
    n, k, mean, leftOut: rows.length - n,
    between: between / (n - 1),
    columns: columns / (k - 1),
    error: error / ((n - 1) * (k - 1)),
    within: (columns + error) / (n * (k - 1)),
    sdTotal: Math.sqrt(total / (n * k - 1)),
  };
}
