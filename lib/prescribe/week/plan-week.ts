import type { Drill } from "../drill";
import type { Solver } from "../linear-model";
import { chooseDayCounts } from "./choose-drills";
import { cutAgainst, type DayCut } from "./day-cuts";
import { fitsOnDays, smallestUnfit } from "./fits-on-days";
import { layOutDays } from "./lay-out-days";
import { plainWeek } from "./plain-week";
import { halfOf, kindsOf, type Candidate, type DayCount, type DrillKind, type WeekRequest } from "./request";

/** A drill of the week: on which weekdays (1 = Monday), and what it is there for. */
export interface WeekDrill<D extends Drill = Drill> {
  readonly candidate: Candidate<D>;
  readonly weekdays: readonly number[];
  readonly kind: DrillKind;
}

export interface Week<D extends Drill = Drill> {
  /** The easy ones first, what carries over to the game last. Empty when nothing fits. */
  readonly drills: readonly WeekDrill<D>[];
  readonly worth: number;
  /** How far from the best week this may be at most, as a share; 0 = there is no better one. */
  readonly gap: number;
}

const KIND_ORDER: readonly DrillKind[] = ["easy", "between", "transfer"];

/** The week in the order in which it is done. */
function inOrder<D extends Drill>(request: WeekRequest<D>, counts: readonly DayCount<D>[], daysOf: (id: string) => readonly number[]): WeekDrill<D>[] {
  const kinds = kindsOf(request.candidates);
  return counts
    .map(({ candidate }) => ({ candidate, weekdays: daysOf(candidate.drill.id), kind: kinds.get(candidate.drill.id) ?? "between" }))
    .sort((a, b) => KIND_ORDER.indexOf(a.kind) - KIND_ORDER.indexOf(b.kind) || b.candidate.effect - a.candidate.effect || (a.candidate.drill.id < b.candidate.drill.id ? -1 : 1));
}

/**
 * The week of homework that serves the focus best within minutes, days and swings: drills and day counts first, then
 * days. Of each drill the library's dose or half of it is taken. A choice that lies on no days is ruled out, with all that
 * are too full for the same reason, and the next best is tried, so that the result is the best of all weeks. When the time
 * is up a week put together without the solver is given, with its distance from what was not ruled out.
 * @param seconds for all of it
 */
export async function planWeek<D extends Drill>(request: WeekRequest<D>, solver: Solver, seconds = 1): Promise<Week<D>> {
  const until = performance.now() + 1000 * seconds;
  const left = () => Math.max(0.05, (until - performance.now()) / 1000);
  const whole = [...request.candidates].sort((a, b) => (a.drill.id < b.drill.id ? -1 : 1));
  const ordered = { ...request, candidates: [...whole, ...whole.flatMap((candidate) => halfOf(candidate) ?? [])] };
  const cuts: DayCut[] = [];
  const unfit: (readonly DayCount[])[] = [];
  let bound = Infinity;
  do {
    const choice = await chooseDayCounts(ordered, { cuts, unfit }, solver, left());
    if (choice === null) break;
    if (choice.counts.length === 0 && choice.gap === 0) return { drills: [], worth: 0, gap: 0 };
    bound = Math.min(bound, choice.worth * (1 + choice.gap));
    if (fitsOnDays(ordered, choice.counts)) {
      const days = await layOutDays(ordered, choice.counts, solver, left());
      if (days === null) break;
      return { drills: inOrder(ordered, choice.counts, (id) => days.get(id) ?? []), worth: choice.worth, gap: choice.gap };
    }
    const cut = cutAgainst(ordered, choice.counts);
    if (cut) cuts.push(cut);
    else unfit.push(smallestUnfit(ordered, choice.counts));
  } while (performance.now() < until);
  const plain = plainWeek(ordered, bound);
  const weekdaysOf = new Map(plain.days.map(({ candidate, weekdays }) => [candidate.drill.id, weekdays]));
  return { drills: inOrder(ordered, plain.days.map(({ candidate, weekdays }) => ({ candidate, days: weekdays.length })), (id) => weekdaysOf.get(id) ?? []), worth: plain.worth, gap: plain.gap };
}
