import { betaQuantile } from "@/lib/measure/several/distributions/beta-distribution";
import { checkTries, type ShareInterval, type Tries } from "@/lib/measure/several/rates/tries";

/**
 * Clopper and Pearson's exact interval of a share: never narrower than it says, often wider.
 * @param inside 0.95 for a 95 % interval @throws RangeError for counts that cannot be or a share outside 0 to 1
 */
export function exactInterval(tries: Tries, inside = 0.95): ShareInterval {
  checkTries(tries);
  if (!(inside > 0 && inside < 1)) throw new RangeError(`an interval holds a share between 0 and 1, not ${inside}`);
  const { k, n } = tries;
  const tail = (1 - inside) / 2;
  return { low: k === 0 ? 0 : betaQuantile(tail, k, n - k + 1), high: k === n ? 1 : betaQuantile(1 - tail, k + 1, n - k) };
}
