import type { MeanSquares } from "@/lib/measure/several/agreement/mean-squares";
import { normalQuantile } from "@/lib/measure/several/distributions/quantiles";

/** 1.96: normal values lie within so many SDs 95 times of 100. */
export const Z95 = 1.96;

/** SD of repeated measurements of one thing, in their unit: the root of the error mean square. Source: Weir 2005, JSCR 19:231-240. */
export function measurementSd(squares: Pick<MeanSquares, "error">): number {
  return Math.sqrt(squares.error);
}

/** The same from a published spread and reliability: SD times the root of 1 - ICC. @throws RangeError for an SD below 0 or an ICC above 1 */
export function measurementSdFromReliability(sd: number, reliability: number): number {
  checkReliability(sd, reliability);
  return sd * Math.sqrt(1 - reliability);
}

/** SD of a true score about its estimate. Source: Weir 2005. @throws RangeError for an SD below 0 or a reliability outside 0 to 1 */
export function estimationSd(sd: number, reliability: number): number {
  checkReliability(sd, reliability);
  if (reliability < 0) throw new RangeError("a reliability below 0 gives no estimate");
  return sd * Math.sqrt(reliability * (1 - reliability));
}

/** SD of a next measurement about the one predicted. Source: Weir 2005. @throws RangeError for an SD below 0 or a reliability outside -1 to 1 */
export function predictionSd(sd: number, reliability: number): number {
  checkReliability(sd, reliability);
  return sd * Math.sqrt(1 - reliability ** 2);
}

/**
 * The smallest difference between two single measurements that is more than their own error, in their unit.
 * @param inside share of the time that error alone stays below it; 0.95 takes 1.96 and 0.9 takes 1.645, as published tables do
 * @throws RangeError for an SD below 0 or a share outside 0 to 1
 */
export function detectableDifference(measurementSdOfOne: number, inside = 0.95): number {
  if (!(measurementSdOfOne >= 0)) throw new RangeError("an SD must be 0 or more");
  return reachOf(inside) * Math.SQRT2 * measurementSdOfOne;
}

function reachOf(inside: number): number {
  if (inside === 0.95) return Z95;
  return inside === 0.9 ? 1.645 : normalQuantile((1 + inside) / 2);
}

function checkReliability(sd: number, reliability: number): void {
  if (!(sd >= 0 && sd < Infinity)) throw new RangeError("an SD must be 0 or more");
  if (!(reliability >= -1 && reliability <= 1)) throw new RangeError(`a reliability lies between -1 and 1, not at ${reliability}`);
}
