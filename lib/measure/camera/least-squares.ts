/** A column shorter than this, as a share of the longest, adds nothing to the others: the answer is not determined. */
const RANK_LIMIT = 1e-10;

/**
 * The x that makes A x nearest to b (least squares), by Householder reflections; null when A does not determine it: fewer
 * rows than columns, columns that follow from others, numbers that are not finite. Source: Golub & Van Loan, Matrix
 * Computations, 5.2 and 5.3. @throws RangeError when rows differ in length or b in number
 */
export function leastSquares(rows: readonly (readonly number[])[], right: readonly number[]): readonly number[] | null {
  const columns = rows[0]?.length ?? 0;
  if (rows.some((row) => row.length !== columns) || right.length !== rows.length) throw new RangeError("rows of unequal length");
  if (columns === 0 || rows.length < columns) return null;
  const a = rows.map((row, i) => Float64Array.from([...row, right[i] ?? NaN]));
  const at = (i: number, j: number) => a[i]?.[j] ?? NaN;
  const diagonal: number[] = [];
  for (let k = 0; k < columns; k++) {
    const reflector = a.slice(k).map((row) => row[k] ?? NaN);
    const norm = Math.hypot(...reflector);
    const head = reflector[0] ?? NaN;
    const pivot = head > 0 ? -norm : norm;
    diagonal.push(pivot);
    reflector[0] = head - pivot;
    const squared = reflector.reduce((sum, value) => sum + value * value, 0);
    if (!(squared > 0)) return null;
    for (let j = k; j <= columns; j++) {
      const along = (2 / squared) * reflector.reduce((sum, value, i) => sum + value * at(k + i, j), 0);
      reflector.forEach((value, i) => {
        const row = a[k + i];
        if (row) row[j] = at(k + i, j) - along * value;
      });
    }
  }
  const largest = Math.max(...diagonal.map(Math.abs));
  if (!diagonal.every((value) => Math.abs(value) > RANK_LIMIT * largest)) return null;
  const x = new Array<number>(columns).fill(NaN);
  for (let i = columns - 1; i >= 0; i--) {
    let rest = at(i, columns);
    for (let j = i + 1; j < columns; j++) rest -= at(i, j) * (x[j] ?? NaN);
    x[i] = rest / (diagonal[i] ?? NaN);
  }
  return x.every(Number.isFinite) ? x : null;
}
