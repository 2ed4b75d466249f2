import type { Band } from "@/lib/measure/checkpoint-definition";
import { changeBetween, LEAST_SWINGS, type Change } from "@/lib/measure/several/change";
import { middleAndSpread } from "@/lib/measure/several/middle-and-spread";
import { speaks, type RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { seenCount, type HabitRule, type SeenCount } from "@/lib/measure/several/seen-count";
import { twoSets, type TwoSets } from "@/lib/measure/several/two-sets";
import { isUnknown } from "@/lib/measure/several/unknown";
import { usualSpread } from "@/lib/measure/several/usual-spread";

/** How one checkpoint reads over several comparable swings of one player. */
export interface SeveralSwings {
  /** Swings with a number that can be compared, and all that were looked at. */
  readonly readCount: number;
  readonly swingCount: number;
  /** Of all of them, or after a change of those since; null without a reading. */
  readonly median: number | null;
  /** Spread from swing to swing, plain SD, at least the readings' own doubt; null under three swings. */
  readonly spread: number | null;
  /** The spread without the swings that stand apart; null under three swings. */
  readonly robustSpread: number | null;
  readonly standsApart: boolean;
  readonly isOwnDoubt: boolean;
  readonly seen: SeenCount;
  readonly change: Change;
  readonly by: TwoSets["by"];
}

/**
 * @param newestFirst readings of comparable swings, one for each swing
 * @throws RangeError for a habit rule that cannot be
 */
export function severalSwings(newestFirst: readonly RepeatedReading[], options: { readonly band: Band | null; readonly habit?: HabitRule }): SeveralSwings {
  const spoken = newestFirst.filter(speaks);
  const sets = twoSets(newestFirst);
  const change = changeBetween(sets.before, sets.after, { band: options.band });
  // After a change the swings before it no longer tell how it reads now.
  const now = change.word === "changed" ? sets.after : spoken;
  const middle = middleAndSpread(now.map(({ value }) => value));
  const spread = now.length >= LEAST_SWINGS ? usualSpread([now]) : null;
  const isKnown = !isUnknown(middle);
  return {
    readCount: spoken.length,
    swingCount: newestFirst.length,
    median: isKnown ? middle.median : (spoken[0]?.value ?? null),
    spread: spread?.sd ?? null,
    robustSpread: spread && isKnown ? middle.robustSd : null,
    standsApart: isKnown && middle.standsApart,
    isOwnDoubt: spread?.isOwnDoubt ?? false,
    seen: seenCount(newestFirst, options.habit),
    change,
    by: sets.by,
  };
}
