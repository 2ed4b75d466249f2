import { Z95 } from "@/lib/measure/several/agreement/measurement-error";
import { studentReach } from "@/lib/measure/several/distributions/quantiles";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/** A number with its 95 % interval. */
export interface Between {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** How far two ways of measuring the same things lie apart, in their unit. */
export interface LimitsOfAgreement {
  readonly n: number;
  /** Pairs with an unknown number. */
  readonly leftOut: number;
  /** Mean of second minus first. */
  readonly bias: Between;
  readonly sdOfDifferences: number;
  /** Between these lie 95 of 100 differences. */
  readonly lower: Between;
  readonly upper: Between;
}

/**
 * Bland and Altman's limits of agreement: mean difference and 1.96 SD to either side, each with its own interval (the
 * limits' SE by 1/n + 1.96²/(2(n-1))). Unknown under three whole pairs. Source: Bland & Altman 1986, Lancet 1:307-310.
 */
export function limitsOfAgreement(pairs: readonly (readonly [number | null, number | null])[]): Answer<LimitsOfAgreement> {
  const differences = pairs.flatMap(([first, second]) => {
    const difference = first === null || second === null ? NaN : second - first;
    return Number.isFinite(difference) ? [difference] : [];
  });
  const n = differences.length;
  if (n < 3) return unknownBecause("fewer than three pairs");
  const mean = differences.reduce((sum, value) => sum + value, 0) / n;
  const sd = Math.sqrt(differences.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
  const reach = studentReach(0.95, n - 1);
  const around = (value: number, se: number): Between => ({ value, low: value - reach * se, high: value + reach * se });
  const limitSe = sd * Math.sqrt(1 / n + Z95 ** 2 / (2 * (n - 1)));
  return {
    n, leftOut: pairs.length - n, sdOfDifferences: sd,
    bias: around(mean, sd / Math.sqrt(n)),
    lower: around(mean - Z95 * sd, limitSe),
    upper: around(mean + Z95 * sd, limitSe),
  };
}
