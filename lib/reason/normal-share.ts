/**
 * Φ(z): share of a standard normal below z, good to about 1e-15. Power series near the middle, continued fraction in
 * the tails (Abramowitz & Stegun 26.2.11 and 26.2.14).
 */
export function normalShareBelow(z: number): number {
  if (Number.isNaN(z)) return NaN;
  if (z === Infinity) return 1;
  if (z === -Infinity) return 0;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const size = Math.abs(z);
  if (size < 3) {
    let term = z;
    let sum = z;
    for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
      term *= (z * z) / n;
      sum += term;
    }
    return 0.5 + density * sum;
  }
  let fraction = 0;
  for (let n = 120; n >= 1; n--) fraction = n / (size + fraction);
  const tail = density / (size + fraction);
  return z < 0 ? tail : 1 - tail;
}
