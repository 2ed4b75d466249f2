import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";

/** When several swings make a habit: the library's rule. */
export interface HabitRule {
  readonly seenAtLeast: number;
  readonly ofLast: number;
}

/** Source: terms `habitRule`. */
export const STARTER_HABIT: HabitRule = { seenAtLeast: 3, ofLast: 5 };

/** In how many of the last swings a checkpoint was one to talk about. */
export interface SeenCount {
  readonly seen: number;
  /** Swings that could be judged, at most as many as the rule looks at. */
  readonly judged: number;
  /** Swings of the same stretch that could not: unknown, grey, or cannot tell. Never counted as "not seen". */
  readonly unknown: number;
  /** Beyond which end of the band; null when it was not seen. Low and high are two things and never added up. */
  readonly side: "low" | "high" | null;
  /** Never from one swing or two. */
  readonly isHabit: boolean;
}

/**
 * k of n, newest swings first.
 * @throws RangeError for a rule that would call fewer than three swings a habit, or looks at fewer than it asks for
 */
export function seenCount(newestFirst: readonly RepeatedReading[], rule: HabitRule = STARTER_HABIT): SeenCount {
  if (!(rule.seenAtLeast >= 3 && rule.ofLast >= rule.seenAtLeast)) throw new RangeError("a habit needs three swings or more");
  const judged: RepeatedReading[] = [];
  let [unknown, waiting] = [0, 0];
  for (const reading of newestFirst) {
    if (judged.length === rule.ofLast) break;
    if (reading.isGrey || reading.verdict === null || reading.verdict === "cannot-tell") {
      waiting++;
      continue;
    }
    judged.push(reading);
    unknown += waiting;
    waiting = 0;
  }
  // After the last that could be judged the stretch ends, unless there were too few.
  if (judged.length < rule.ofLast) unknown += waiting;
  const on = (side: "low" | "high" | null) => judged.filter(({ verdict, deviation }) => verdict === "talk-about" && deviation === side).length;
  const counts = (["low", "high", null] as const).map((side) => ({ side, seen: on(side) }));
  const most = counts.reduce((best, one) => (one.seen > best.seen ? one : best));
  return { seen: most.seen, judged: judged.length, unknown, side: most.seen > 0 ? most.side : null, isHabit: most.seen >= rule.seenAtLeast };
}

/** "3 of 5 swings"; "a habit" is said only where it is one. */
export function seenWords({ seen, judged, isHabit }: SeenCount): string {
  if (judged === 0) return "No swing could be judged";
  const count = `${seen} of ${judged} ${judged === 1 ? "swing" : "swings"}`;
  return isHabit ? `${count}: a habit` : count;
}
