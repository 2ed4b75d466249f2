import { betaBelow, betaQuantile } from "@/lib/measure/several/distributions/beta-distribution";
import { checkTries, type ShareInterval, type Tries } from "@/lib/measure/several/rates/tries";

/** What was thought before the first try, as a beta distribution; both above 0. */
export interface BetaShapes {
  readonly a: number;
  readonly b: number;
}

/** Every share equally likely; Jeffreys' prior; a mild pull to the middle. */
export const UNIFORM: BetaShapes = { a: 1, b: 1 };
export const JEFFREYS: BetaShapes = { a: 0.5, b: 0.5 };
export const MILD: BetaShapes = { a: 2, b: 2 };

/** What is thought of a share after k of n. */
export interface SuccessBelief {
  readonly shapes: BetaShapes;
  readonly mean: number;
  readonly median: number;
  /** Null where the curve has no peak inside 0 to 1. */
  readonly mode: number | null;
  readonly interval: ShareInterval;
  /** Chance that the share is above a limit. @throws RangeError for a limit outside 0 to 1 */
  readonly chanceAbove: (limit: number) => number;
}

/**
 * The share's distribution after k of n tries: beta(a + k, b + n - k).
 * @param inside 0.95 for a 95 % interval with equal tails @throws RangeError for counts, shapes or shares that cannot be
 */
export function successBelief(tries: Tries, before: BetaShapes = UNIFORM, inside = 0.95): SuccessBelief {
  checkTries(tries);
  if (!(inside > 0 && inside < 1)) throw new RangeError(`an interval holds a share between 0 and 1, not ${inside}`);
  const a = before.a + tries.k;
  const b = before.b + tries.n - tries.k;
  const tail = (1 - inside) / 2;
  return {
    shapes: { a, b },
    mean: a / (a + b),
    median: betaQuantile(0.5, a, b),
    mode: a > 1 && b > 1 ? (a - 1) / (a + b - 2) : null,
    interval: { low: betaQuantile(tail, a, b), high: betaQuantile(1 - tail, a, b) },
    chanceAbove: (limit) => 1 - betaBelow(limit, a, b),
  };
}
