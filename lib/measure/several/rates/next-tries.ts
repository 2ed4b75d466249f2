import { logBeta, logGamma } from "@/lib/measure/several/distributions/log-gamma";
import type { BetaShapes } from "@/lib/measure/several/rates/success-belief";

/** How many of the next tries may go well. */
export interface NextTries {
  /** Chance of exactly k of them, k = 0 to n. */
  readonly chances: readonly number[];
  readonly mean: number;
  readonly variance: number;
}

/**
 * The next n tries, given what is thought of the share: the beta-binomial distribution.
 * @throws RangeError for a number of tries that is not whole or below 0, or shapes not above 0
 */
export function nextTries(n: number, { a, b }: BetaShapes): NextTries {
  if (!(Number.isInteger(n) && n >= 0)) throw new RangeError(`${n} further tries cannot be`);
  const chances = Array.from({ length: n + 1 }, (_, k) => Math.exp(logChoose(n, k) + logBeta(a + k, b + n - k) - logBeta(a, b)));
  const whole = a + b;
  return { chances, mean: (n * a) / whole, variance: (n * a * b * (whole + n)) / (whole ** 2 * (whole + 1)) };
}

function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}
