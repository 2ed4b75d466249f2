import { logBeta } from "@/lib/measure/several/distributions/log-gamma";

/**
 * Share of the beta distribution with shapes a and b below x: the regularised incomplete beta function, by Lentz'
 * continued fraction (absolute error below 1e-12 for shapes up to 1e4).
 * @throws RangeError for shapes that are not above 0 or an x outside 0 to 1
 */
export function betaBelow(x: number, a: number, b: number): number {
  checkShapes(a, b);
  if (!(x >= 0 && x <= 1)) throw new RangeError(`a share lies between 0 and 1, not at ${x}`);
  if (x === 0 || x === 1) return x;
  // The fraction converges fast below the mean; beyond it the other tail is taken.
  if (x > (a + 1) / (a + b + 2)) return 1 - betaBelow(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b)) / a;
  return front * continuedFraction(x, a, b);
}

function continuedFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const kept = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    const step = d * c;
    result *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return result;
}

/**
 * The x below which a share of the beta distribution lies, by halving.
 * @param share 0 to 1 @throws RangeError for a share outside or shapes not above 0
 */
export function betaQuantile(share: number, a: number, b: number): number {
  checkShapes(a, b);
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a quantile's share lies between 0 and 1, not at ${share}`);
  if (share === 0 || share === 1) return share;
  let [low, high] = [0, 1];
  for (let i = 0; i < 1100; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (betaBelow(middle, a, b) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function checkShapes(a: number, b: number): void {
  if (!(a > 0 && b > 0 && a < Infinity && b < Infinity)) throw new RangeError(`the shapes of a beta distribution must be above 0, not ${a} and ${b}`);
}
