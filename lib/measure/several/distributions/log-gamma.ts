/** Lanczos coefficients for g = 7, nine terms. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905, -0.13857109526572012,
  9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/**
 * Natural logarithm of the gamma function, relative error below 1e-13 (Lanczos' approximation).
 * @param x above 0 @throws RangeError for another x
 */
export function logGamma(x: number): number {
  if (!(x > 0 && x < Infinity)) throw new RangeError(`the gamma function is asked above 0, not at ${x}`);
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const [first, ...rest] = LANCZOS;
  const sum = rest.reduce((total, coefficient, i) => total + coefficient / (z + i + 1), first as number);
  const t = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Natural logarithm of the beta function. @throws RangeError unless both are above 0 */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}
