import type { CensorLimit } from "@/lib/measure/checkpoint-definition";
import type { DoubtParts, Quantiles } from "@/lib/measure/reading";

/** A value with its doubt. `draws` only where its distribution is not normal. */
export interface Estimate {
  readonly value: number;
  readonly sd: number;
  readonly doubt: DoubtParts;
  readonly quantiles: Quantiles | null;
  readonly draws: readonly number[] | null;
  /** The value is the limit, and only "that or more" is known. */
  readonly isCensored: boolean;
}

/** How an estimate is formed. */
export interface EstimateOptions {
  /** Number of draws of a folded reading; extremes and crossings take half as many, at least 200. */
  readonly draws: number;
  readonly seed: string;
  readonly censor?: CensorLimit;
  /** Limits at which the value folds back; a corrected value may not pass them. */
  readonly foldsAt?: readonly [number, number];
}
