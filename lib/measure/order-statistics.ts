/** Median; NaN for no values. */
export function median(values: ArrayLike<number>): number {
  return percentile(values, 0.5);
}

let scratch = new Float64Array(256);

/**
 * A percentile, linear between order statistics at rank share*(n-1)+1. Unknown values (NaN) count as the largest.
 * @param share 0 to 1 @throws RangeError for another share
 */
export function percentile(values: ArrayLike<number>, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a percentile's share must be between 0 and 1, not ${share}`);
  const count = values.length;
  if (count === 0) return NaN;
  if (scratch.length < count) scratch = new Float64Array(2 * count);
  let unknown = 0;
  for (let i = 0; i < count; i++) {
    const value = values[i] ?? NaN;
    const isUnknown = Number.isNaN(value);
    if (isUnknown) unknown++;
    scratch[i] = isUnknown ? Infinity : value;
  }
  const rank = share * (count - 1);
  if (Math.ceil(rank) >= count - unknown) return NaN;
  const low = Math.floor(rank);
  const lower = selected(scratch, count, low);
  if (rank === low) return lower;
  // All behind the selected one are as large or larger.
  let upper = Infinity;
  for (let i = low + 1; i < count; i++) upper = Math.min(upper, scratch[i] ?? Infinity);
  return lower + (rank - low) * (upper - lower);
}

/** Brings the value of a rank to its place among the first `count`, smaller ones before it, larger ones behind (Hoare's FIND). */
function selected(values: Float64Array, count: number, rank: number): number {
  let [left, right] = [0, count - 1];
  while (left < right) {
    const pivot = values[rank] ?? NaN;
    let [i, j] = [left, right];
    do {
      while ((values[i] ?? NaN) < pivot) i++;
      while (pivot < (values[j] ?? NaN)) j--;
      if (i <= j) {
        const held = values[i] ?? NaN;
        values[i++] = values[j] ?? NaN;
        values[j--] = held;
      }
    } while (i <= j);
    if (j < rank) left = i;
    if (rank < i) right = j;
  }
  return values[rank] ?? NaN;
}

/**
 * SD of the median of n independent normal values, as a share of one value's SD: exact for one and two, within 3 % of
 * the exact order statistics above that, and going to sqrt(pi/2n).
 */
export function medianSdFactor(n: number): number {
  if (!(n >= 1)) throw new RangeError("a median needs at least one value");
  const effective = n % 2 ? n + Math.PI / 2 - 1 : n + Math.PI - 2;
  return Math.sqrt(Math.PI / 2 / effective);
}
