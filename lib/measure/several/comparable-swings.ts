import { likeForLike, type SwingTaken, type TakenFact, type Unlikeness } from "@/lib/measure/several/like-for-like";

/** Which swings may stand beside each other: the library's rule. */
export interface ComparableRule {
  readonly same: readonly TakenFact[];
  readonly withinDays: number;
}

/** Source: terms `comparableRule`. */
export const STARTER_COMPARABLE: ComparableRule = { same: ["side", "swingKind", "task", "pitchHeight", "pitchSide", "batClass"], withinDays: 60 };

export interface SwingOnDay extends SwingTaken {
  readonly id: string;
  /** YYYY-MM-DD */
  readonly day: string;
}

/** Swings that were not taken alike, gathered by their first difference. */
export interface LeftOut {
  readonly count: number;
  readonly unlike: Unlikeness;
}

export interface Comparable<S extends SwingOnDay> {
  /** This swing among those like it, newest first. */
  readonly alike: readonly S[];
  /** Of the same time and not alike, most frequent first. */
  readonly leftOut: readonly LeftOut[];
  /** Facts that agree only in that nobody noted them. */
  readonly notNoted: readonly TakenFact[];
}

const DAY_MS = 86_400_000;

/**
 * The swings that may be compared with one of them: taken alike, from its day back as many days as the rule says. Swings
 * older or later than that are neither compared nor left out with a word.
 * @param newestFirst swings of one player; the swing itself need not be among them
 * @param most how many alike ones at most, this swing always among them @throws RangeError for a most below 1 or days below 0
 */
export function comparableSwings<S extends SwingOnDay>(swing: S, newestFirst: readonly S[], rule: ComparableRule, most: number): Comparable<S> {
  if (!(most >= 1) || !(rule.withinDays >= 0)) throw new RangeError("at least one swing, from 0 days back on");
  const daysBefore = (it: S) => (Date.parse(swing.day) - Date.parse(it.day)) / DAY_MS;
  const near = newestFirst.filter((it) => it.id !== swing.id && daysBefore(it) >= 0 && daysBefore(it) <= rule.withinDays);
  const compared = near.map((it) => ({ it, likeness: likeForLike(it, swing, rule.same) }));
  const kept = new Set(compared.filter(({ likeness }) => likeness.isAlike).slice(0, most - 1).map(({ it }) => it.id));
  const isInList = newestFirst.some(({ id }) => id === swing.id);
  const alike = (isInList ? newestFirst : [swing, ...newestFirst]).filter(({ id }) => id === swing.id || kept.has(id));
  const byWords = new Map<string, LeftOut>();
  for (const { likeness } of compared) {
    const [unlike] = likeness.unlike;
    if (!unlike) continue;
    const key = `${unlike.fact} ${unlike.theirs}`;
    byWords.set(key, { unlike, count: (byWords.get(key)?.count ?? 0) + 1 });
  }
  return { alike, leftOut: [...byWords.values()].sort((a, b) => b.count - a.count), notNoted: likeForLike(swing, swing, rule.same).notNoted };
}
