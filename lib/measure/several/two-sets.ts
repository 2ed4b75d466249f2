import { LEAST_SWINGS } from "@/lib/measure/several/change";
import { speaks, type RepeatedReading, type SpeakingReading } from "@/lib/measure/several/repeated-reading";

/** Two sets of swings to compare, each oldest first, and what the first of them is. */
export interface TwoSets {
  readonly before: readonly SpeakingReading[];
  readonly after: readonly SpeakingReading[];
  /** `last-check`: the last day before with enough swings; `earlier-days`: all of them; `earlier-half` of all swings. */
  readonly by: "last-check" | "earlier-days" | "earlier-half";
}

/**
 * What the swings now are compared with. With three swings or more on the newest day: the last day that had as many, else
 * all earlier days together. Otherwise the later half of all against the earlier half. Sets may be too small to tell.
 * @param newestFirst readings of comparable swings
 */
export function twoSets(newestFirst: readonly RepeatedReading[]): TwoSets {
  const oldestFirst = newestFirst.filter(speaks).reverse();
  const newest = oldestFirst.at(-1)?.day;
  const after = oldestFirst.filter(({ day }) => day === newest);
  const earlier = oldestFirst.filter(({ day }) => day !== newest);
  if (after.length >= LEAST_SWINGS && earlier.length >= LEAST_SWINGS) {
    const days = [...new Set(earlier.map(({ day }) => day))].reverse();
    const check = days.map((day) => earlier.filter((it) => it.day === day)).find((set) => set.length >= LEAST_SWINGS);
    return check ? { before: check, after, by: "last-check" } : { before: earlier, after, by: "earlier-days" };
  }
  const half = Math.floor(oldestFirst.length / 2);
  return { before: oldestFirst.slice(0, half), after: oldestFirst.slice(half), by: "earlier-half" };
}
