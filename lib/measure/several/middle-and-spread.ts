import { meanOf, sampleSd } from "@/lib/measure/mean-and-sd";
import { median } from "@/lib/measure/order-statistics";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/**
 * Middle and spread of several values, in their unit. `plain` is the SD about the mean, `robust` the median distance
 * from the median, scaled to an SD: one swing that stands apart moves the first and hardly the second.
 */
export interface MiddleAndSpread {
  readonly n: number;
  readonly median: number;
  readonly mean: number;
  readonly plainSd: number;
  readonly robustSd: number;
  /** The plain spread is more than twice the robust one: one or two values stand apart from the rest. */
  readonly standsApart: boolean;
}

/** Scale of the median distance to an SD under a normal curve, and its correction for few values. */
const TO_SD = 1.4826;
const FEW: Readonly<Record<number, number>> = { 2: 1.196, 3: 1.495, 4: 1.363, 5: 1.206, 6: 1.2, 7: 1.14, 8: 1.129, 9: 1.107 };

/**
 * Unknown under two values; unknown values (NaN) are left out.
 * Source of the correction for few values: Croux & Rousseeuw 1992, COMPSTAT 1:411-428.
 */
export function middleAndSpread(values: readonly number[]): Answer<MiddleAndSpread> {
  const known = values.filter(Number.isFinite);
  const plainSd = sampleSd(known);
  if (plainSd === null) return unknownBecause("fewer than two swings");
  const middle = median(known);
  const n = known.length;
  const robustSd = TO_SD * (FEW[n] ?? n / (n - 0.8)) * median(known.map((value) => Math.abs(value - middle)));
  return { n, median: middle, mean: meanOf(known), plainSd, robustSd, standsApart: n >= 4 && plainSd > 2 * robustSd };
}
