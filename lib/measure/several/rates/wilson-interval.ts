import { normalQuantile } from "@/lib/measure/several/distributions/quantiles";
import { checkTries, type ShareInterval, type Tries } from "@/lib/measure/several/rates/tries";

/**
 * Wilson's score interval of a share, fit for a handful of tries: 3 of 5 may be anything from 0.23 to 0.88. No tries at
 * all: anything from 0 to 1. Source: Newcombe 1998, Stat Med 17:857-872.
 * @param inside 0.95 for a 95 % interval @throws RangeError for counts that cannot be or a share outside 0 to 1
 */
export function wilsonInterval(tries: Tries, inside = 0.95): ShareInterval {
  checkTries(tries);
  const z = normalQuantile((1 + inside) / 2);
  const { k, n } = tries;
  if (n === 0) return { low: 0, high: 1 };
  const share = k / n;
  const middle = share + z ** 2 / (2 * n);
  const reach = z * Math.sqrt((share * (1 - share)) / n + z ** 2 / (4 * n ** 2));
  const whole = 1 + z ** 2 / n;
  return { low: k === 0 ? 0 : (middle - reach) / whole, high: k === n ? 1 : (middle + reach) / whole };
}
