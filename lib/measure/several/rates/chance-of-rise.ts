import { logBeta } from "@/lib/measure/several/distributions/log-gamma";
import { checkTries, type Tries } from "@/lib/measure/several/rates/tries";

/**
 * Chance that the share of tries that go well is higher now than before, every share thought equally likely at first:
 * an exact finite sum. Below 0.95 it is not yet evidence.
 * @throws RangeError for counts that cannot be
 */
export function chanceOfRise(before: Tries, after: Tries): number {
  checkTries(before);
  checkTries(after);
  const [a, b] = [before.k + 1, before.n - before.k + 1];
  const [c, d] = [after.k + 1, after.n - after.k + 1];
  let sum = 0;
  for (let i = 0; i < c; i++) sum += Math.exp(logBeta(a + i, b + d) - Math.log(d + i) - logBeta(1 + i, d) - logBeta(a, b));
  return Math.min(1, sum);
}
