import type { CensorLimit } from "@/lib/measure/checkpoint-definition";
import type { Estimate } from "@/lib/measure/estimate-parts";
import { sampleSd } from "@/lib/measure/mean-and-sd";
import { percentile } from "@/lib/measure/order-statistics";
import type { Quantiles } from "@/lib/measure/reading";

/** "That or more" is said when no more than this share of the draws lies before the limit: the lower end of a 95 % interval. */
const LEAST_BEFORE = 0.025;

/** The limit when a value lies at or beyond it; null when it does not. */
export function censoredAt(value: number, censor: CensorLimit | undefined): number | null {
  if (censor?.above !== undefined && value >= censor.above) return censor.above;
  return censor?.below !== undefined && value <= censor.below ? censor.below : null;
}

/** A value no further out than the limit beyond which nothing more is known. */
export function withinCensor(value: number, censor: CensorLimit | undefined): number {
  return Number.isNaN(value) ? value : (censoredAt(value, censor) ?? value);
}

/** Only "that or more" is known. */
export const certainlyBeyond = (limit: number): Estimate => ({ value: limit, sd: 0, doubt: { points: 0, scale: 0, time: 0 }, quantiles: null, draws: null, isCensored: true });

/**
 * What is read at or beyond a limit: "that or more", unless the draws say that noise may have carried it there; then their
 * median with its doubt.
 * @param draws none beyond the limit
 */
export function beyondLimit(draws: readonly number[], censor: CensorLimit | undefined): Estimate | null {
  const limit = censor?.above ?? censor?.below;
  if (limit === undefined) return null;
  if (draws.filter((draw) => draw !== limit).length <= LEAST_BEFORE * draws.length) return certainlyBeyond(limit);
  const sd = sampleSd(draws) ?? 0;
  return { value: percentile(draws, 0.5), sd, doubt: { points: sd, scale: 0, time: 0 }, quantiles: quantilesOf(draws), draws, isCensored: false };
}

export function quantilesOf(draws: readonly number[]): Quantiles {
  return { p16: percentile(draws, 0.16), p50: percentile(draws, 0.5), p84: percentile(draws, 0.84) };
}
