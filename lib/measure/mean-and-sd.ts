/** SD about the mean with n - 1; null under two values. */
export function sampleSd(values: readonly number[]): number | null {
  if (values.length < 2) return null;
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** Mean; NaN for none. */
export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
