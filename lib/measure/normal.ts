/**
 * Standard normal distribution function, absolute error below 1e-13 within 6 SD: by the series around 0 and the
 * continued fraction of Mills' ratio beyond 3.
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) return NaN;
  if (z < -38) return 0;
  if (z > 38) return 1;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const x = Math.abs(z);
  if (x < 3) {
    let term = x;
    let sum = x;
    for (let k = 3; Math.abs(term) > 1e-17 * sum && k < 200; k += 2) {
      term *= (x * x) / k;
      sum += term;
    }
    return 0.5 + Math.sign(z) * density * sum;
  }
  let fraction = 0;
  for (let k = 60; k >= 1; k--) fraction = k / (x + fraction);
  const tail = density / (x + fraction);
  return z < 0 ? tail : 1 - tail;
}
