import { normalBelow } from "@/lib/measure/normal";
import { betaQuantile } from "@/lib/measure/several/distributions/beta-distribution";

/**
 * Standard normal quantile, by halving of the distribution function.
 * @param share between 0 and 1, both excluded @throws RangeError for another share
 */
export function normalQuantile(share: number): number {
  checkInside(share);
  let [low, high] = [-38, 38];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * How many SDs to either side hold this share of Student's t distribution.
 * @param inside 0.95 for a 95 % interval @param freedom degrees of freedom, above 0 @throws RangeError for others
 */
export function studentReach(inside: number, freedom: number): number {
  checkInside(inside);
  checkFreedom(freedom);
  const x = betaQuantile(1 - inside, freedom / 2, 0.5);
  return Math.sqrt((freedom * (1 - x)) / x);
}

/**
 * Quantile of Fisher's F distribution; degrees of freedom need not be whole.
 * @throws RangeError for a share outside 0 to 1 or degrees of freedom not above 0
 */
export function fQuantile(share: number, freedomAbove: number, freedomBelow: number): number {
  checkInside(share);
  checkFreedom(freedomAbove);
  checkFreedom(freedomBelow);
  // Both ends of the beta distribution are worked out, so that neither loses digits next to 1.
  const x = betaQuantile(share, freedomAbove / 2, freedomBelow / 2);
  const rest = betaQuantile(1 - share, freedomBelow / 2, freedomAbove / 2);
  return (freedomBelow * x) / (freedomAbove * rest);
}

function checkInside(share: number): void {
  if (!(share > 0 && share < 1)) throw new RangeError(`a share must lie between 0 and 1, not at ${share}`);
}

function checkFreedom(freedom: number): void {
  if (!(freedom > 0 && freedom < Infinity)) throw new RangeError(`degrees of freedom must be above 0, not ${freedom}`);
}
