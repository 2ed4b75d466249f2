/** Median; NaN for no values. */
export function median(values: readonly number[]): number {
  return percentile(values, 0.5);
}

/**
 * A percentile, linear between order statistics at rank share*(n-1)+1.
 * @param share 0 to 1 @throws RangeError for another share
 */
export function percentile(values: readonly number[], share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a percentile's share must be between 0 and 1, not ${share}`);
  if (values.length === 0) return NaN;
  const sorted = Float64Array.from(values).sort();
  const rank = share * (sorted.length - 1);
  const low = Math.floor(rank);
  const lower = sorted[low] ?? NaN;
  return lower + (rank - low) * ((sorted[low + 1] ?? lower) - lower);
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
