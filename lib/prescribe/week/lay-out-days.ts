import type { Drill } from "../drill";
import { solve, type Column, type LinearModel, type Row, type Solver } from "../linear-model";
import { elsewhereOn, kindsOf, minutesOf, swingRoom, WEEKDAYS, type DayCount, type WeekRequest } from "./request";

/** On which weekdays (1 = Monday) each chosen drill is done. */
export type DayPlan = ReadonlyMap<string, readonly number[]>;

const on = (id: string, weekday: number) => `${id} @${weekday}`;
const used = (weekday: number) => `day ${weekday}`;
const swung = (weekday: number) => `swings ${weekday}`;
const together = (weekday: number) => `next to ${weekday}`;

/** Costs, largest first: two days in a row, homework swings on a day with other swings, the order of practice, late days. */
const COST = { neighbours: 400, busyDay: 100, order: 10, lateDay: 1 } as const;

/**
 * The days of a choice as a model. Blocked: the drill that carries over waits for the later days. Mixed: it is there
 * from the first day on. Source of the order: random practice helped the skilled (Percept Mot Skills 1994;78:835-841), so
 * novices begin blocked; how far apart days lie is common practice, no source.
 */
export function dayModel(request: WeekRequest, counts: readonly DayCount[]): LinearModel {
  const room = swingRoom(request);
  const kinds = kindsOf(request.candidates);
  const columns: Column[] = [];
  const rows: Row[] = [];
  for (const weekday of WEEKDAYS) {
    const busy = elsewhereOn(request.elsewhere, weekday) > 0;
    columns.push({ name: used(weekday), weight: COST.lateDay * weekday, most: 1 });
    columns.push({ name: swung(weekday), weight: busy ? COST.busyDay : 0, most: 1 });
    columns.push({ name: together(weekday), weight: COST.neighbours, most: 1 });
    const tomorrow = (weekday % 7) + 1;
    rows.push({ terms: [[1, used(weekday)], [1, used(tomorrow)], [-1, together(weekday)]], most: 1 });
  }
  for (const { candidate, days } of counts) {
    const { id, dose } = candidate.drill;
    const isLast = request.order === "blocked" && kinds.get(id) === "transfer";
    for (const weekday of WEEKDAYS) {
      columns.push({ name: on(id, weekday), weight: COST.order * (isLast ? 8 - weekday : weekday), most: 1 });
      rows.push({ terms: [[1, on(id, weekday)], [-1, used(weekday)]], most: 0 });
      if (dose.fullSwings > 0) rows.push({ terms: [[1, on(id, weekday)], [-1, swung(weekday)]], most: 0 });
    }
    rows.push({ terms: WEEKDAYS.map((weekday) => [1, on(id, weekday)] as const), least: days, most: days });
  }
  for (const weekday of WEEKDAYS) {
    rows.push({ terms: counts.map(({ candidate: { drill } }) => [minutesOf(drill), on(drill.id, weekday)] as const), most: request.minutesPerDay });
    const swings = counts.filter(({ candidate: { drill } }) => drill.dose.fullSwings > 0).map(({ candidate: { drill } }) => [drill.dose.fullSwings, on(drill.id, weekday)] as const);
    if (swings.length > 0) rows.push({ terms: swings, most: room.byDay[weekday - 1] ?? 0 });
  }
  const minutes = counts.reduce((sum, { candidate, days }) => sum + minutesOf(candidate.drill) * days, 0);
  const least = Math.max(...counts.map(({ days }) => days), Math.ceil(minutes / request.minutesPerDay));
  rows.push({ terms: WEEKDAYS.map((weekday) => [1, used(weekday)] as const), least, most: request.daysPerWeek });
  // Of seven days in a circle each day not used parts two that are: what the rows above leave open until all days are whole.
  rows.push({ terms: WEEKDAYS.flatMap((weekday) => [[1, together(weekday)], [-2, used(weekday)]] as const), least: -7 });
  const free = WEEKDAYS.filter((weekday) => !room.busyDays.includes(weekday));
  if (free.length > 0) rows.push({ terms: free.map((weekday) => [1, swung(weekday)] as const), most: room.freeSwingDays });
  return { sense: "least", columns, rows };
}

/** The days of each drill of a choice that fits on days; null when the time did not do. */
export async function layOutDays<D extends Drill>(request: WeekRequest<D>, counts: readonly DayCount<D>[], solver: Solver, seconds: number): Promise<DayPlan | null> {
  const solved = await solve(dayModel(request, counts), solver, seconds);
  if (solved.status !== "best" && solved.status !== "good") return null;
  return new Map(counts.map(({ candidate: { drill } }) => [drill.id, WEEKDAYS.filter((weekday) => solved.of(on(drill.id, weekday)) === 1)]));
}
