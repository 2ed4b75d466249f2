import { rootMeanSquare, typicalErrorOfSets } from "@/lib/measure/several/typical-error";
import type { SpeakingReading } from "@/lib/measure/several/repeated-reading";

/** A player's spread from swing to swing, in the unit. */
export interface UsualSpread {
  readonly sd: number;
  readonly freedom: number;
  /** The swings differ no more than the readings' own doubt: the spread shown is that doubt. */
  readonly isOwnDoubt: boolean;
}

/**
 * SD of comparable swings about their set's mean, pooled over the sets; at least the root mean square of the readings'
 * own SDs (without the camera's part, which the swings of a set-up share). Null when no set has two swings.
 * Source: terms `changeRule.sW`.
 */
export function usualSpread(sets: readonly (readonly SpeakingReading[])[]): UsualSpread | null {
  const pooled = typicalErrorOfSets(sets.map((set) => set.map(({ value }) => value)));
  if ("unknown" in pooled) return null;
  const own = rootMeanSquare(sets.flat().map(({ sd }) => sd)) ?? 0;
  return { sd: Math.max(pooled.sd, own), freedom: pooled.freedom, isOwnDoubt: pooled.sd <= own };
}
