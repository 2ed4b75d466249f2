import type { Drill } from "../drill";
import { solve, type Column, type Row, type Solver } from "../linear-model";
import type { DayCut } from "./day-cuts";
import { kindsOf, minutesOf, swingRoom, type Candidate, type DayCount, type WeekRequest } from "./request";

/** Having an easy drill, and one that carries over, is worth more than any effect. */
const KIND_WORTH = 100;
/** Each further day of the same drill is worth this much of the day before. House rule, no source. */
const NEXT_DAY_SHARE = 0.8;

/** What so many days of a drill are worth. */
export function worthOf(effect: number, days: number): number {
  return (effect * (1 - NEXT_DAY_SHARE ** days)) / (1 - NEXT_DAY_SHARE);
}

/** What a whole choice is worth: an easy and a transfer drill first, then the effects with their days. */
export function worthOfChoice(choice: readonly DayCount[], request: WeekRequest): number {
  const kinds = kindsOf(request.candidates);
  const has = (kind: string) => choice.some(({ candidate, days }) => days > 0 && kinds.get(candidate.drill.id) === kind);
  return choice.reduce((sum, { candidate, days }) => sum + worthOf(candidate.effect, days), 0) + KIND_WORTH * (Number(has("easy")) + Number(has("transfer")));
}

const columnOf = ({ drill, isHalf }: Candidate, days: number) => `${drill.id}${isHalf ? " half" : ""} on ${days}`;

/** On how many days a drill can be done at all: its own limit, the plan's days, and days with room for its minutes and swings. */
export function mostDays(request: WeekRequest, drill: Drill): number {
  if (minutesOf(drill) > request.minutesPerDay) return 0;
  const own = Math.min(request.daysPerWeek, request.mostDaysOf?.[drill.id] ?? 7, 7);
  const swings = drill.dose.fullSwings;
  if (swings === 0) return own;
  const room = swingRoom(request);
  const busy = room.busyDays.filter((weekday) => (room.byDay[weekday - 1] ?? 0) >= swings).length;
  const free = room.byDay.filter((left, index) => left >= swings && !room.busyDays.includes(index + 1)).length;
  return Math.min(own, busy + Math.min(free, room.freeSwingDays), Math.floor(room.week / swings));
}

/** The most swings that days with room can hold together: busy days, the roomiest free days, and the week's own cap. */
function mostSwings(request: WeekRequest): number {
  const room = swingRoom(request);
  const isBusy = (index: number) => room.busyDays.includes(index + 1);
  const free = room.byDay.filter((_, index) => !isBusy(index)).sort((a, b) => b - a).slice(0, room.freeSwingDays);
  const days = [...room.byDay.filter((_, index) => isBusy(index)), ...free].sort((a, b) => b - a).slice(0, request.daysPerWeek);
  return Math.min(room.week, days.reduce((sum, left) => sum + left, 0));
}

type Cell = { readonly candidate: Candidate; readonly days: number; readonly name: string };

/** Two drills that fit on no day together share the days out between them. */
function neverTogether(request: WeekRequest, cells: readonly Cell[]): Row[] {
  const { byDay, busyDays, freeSwingDays } = swingRoom(request);
  const roomiest = Math.max(0, ...byDay);
  const swingDays = Math.min(request.daysPerWeek, busyDays.length + freeSwingDays);
  const drills = [...new Set(cells.map(({ candidate }) => candidate.drill))];
  const daysOf = (drill: Drill) => cells.filter(({ candidate }) => candidate.drill === drill).map(({ days, name }) => [days, name] as const);
  return drills.flatMap((one, index) =>
    drills.slice(index + 1).flatMap((other): Row[] => {
      // Two doses of one drill are never in a week at all.
      if (one.id === other.id) return [];
      const terms = [...daysOf(one), ...daysOf(other)];
      if (minutesOf(one) + minutesOf(other) > request.minutesPerDay) return [{ terms, most: request.daysPerWeek }];
      const both = Math.min(one.dose.fullSwings, other.dose.fullSwings) > 0 && one.dose.fullSwings + other.dose.fullSwings > roomiest;
      return both ? [{ terms, most: swingDays }] : [];
    }),
  );
}

/** Choices that lie on no days, and how many others they rule out. */
export interface RuledOut {
  readonly cuts: readonly DayCut[];
  /** These drills, each on so many days or more, are never in a week together. */
  readonly unfit: readonly (readonly DayCount[])[];
}

/** As much as a part of a choice or more: the same drill on as many days with no smaller dose. */
const isAsMuch = (cell: Cell, { candidate: { drill }, days }: DayCount) =>
  cell.candidate.drill.id === drill.id && cell.days >= days && minutesOf(cell.candidate.drill) >= minutesOf(drill) && cell.candidate.drill.dose.fullSwings >= drill.dose.fullSwings;

/** A drill's days as columns: one yes or no for each count of days, so that what a further day is worth may fall. */
export function choiceModel(request: WeekRequest, { cuts, unfit }: RuledOut = { cuts: [], unfit: [] }): { columns: Column[]; rows: Row[] } {
  const { candidates, minutesPerDay, daysPerWeek, mostDrills } = request;
  const kinds = kindsOf(candidates);
  const cells: Cell[] = candidates.flatMap((candidate) =>
    Array.from({ length: mostDays(request, candidate.drill) }, (_, index) => ({ candidate, days: index + 1, name: columnOf(candidate, index + 1) })),
  );
  const sum = (factor: (cell: Cell) => number) => cells.map((cell) => [factor(cell), cell.name] as const).filter(([size]) => size !== 0);
  const ids = [...new Set(candidates.map(({ drill }) => drill.id))];
  const rows: Row[] = ids.map((id) => ({ terms: sum((cell) => Number(cell.candidate.drill.id === id)), most: 1 })).filter(({ terms }) => terms.length > 0);
  if (cells.length > 0) {
    rows.push({ terms: sum(() => 1), most: mostDrills });
    rows.push({ terms: sum(({ candidate, days }) => minutesOf(candidate.drill) * days), most: minutesPerDay * daysPerWeek });
    const swings = sum(({ candidate, days }) => candidate.drill.dose.fullSwings * days);
    if (swings.length > 0) rows.push({ terms: swings, most: mostSwings(request) });
    rows.push(...neverTogether(request, cells));
  }
  const columns: Column[] = cells.map(({ candidate, days, name }) => ({ name, weight: worthOf(candidate.effect, days), most: 1 }));
  for (const kind of ["easy", "transfer"] as const) {
    columns.push({ name: `has ${kind}`, weight: KIND_WORTH, most: 1 });
    rows.push({ terms: [[1, `has ${kind}`], ...sum((cell) => -Number(kinds.get(cell.candidate.drill.id) === kind))], most: 0 });
  }
  for (const { weights, most } of cuts) rows.push({ terms: sum(({ candidate, days }) => (weights.get(candidate) ?? 0) * days), most });
  for (const part of unfit) rows.push({ terms: sum((cell) => Number(part.some((one) => isAsMuch(cell, one)))), most: part.length - 1 });
  return { columns, rows };
}

export interface Choice<D extends Drill = Drill> {
  readonly counts: readonly DayCount<D>[];
  readonly worth: number;
  /** Relative distance to the best choice that is not ruled out; 0 = this is the best. */
  readonly gap: number;
}

/** The best drills and their days, without asking yet on which days they lie; null when the solver had no time for any. */
export async function chooseDayCounts<D extends Drill>(request: WeekRequest<D>, ruledOut: RuledOut, solver: Solver, seconds: number): Promise<Choice<D> | null> {
  const model = choiceModel(request, ruledOut);
  const solved = await solve({ sense: "most", ...model }, solver, seconds);
  if (solved.status !== "best" && solved.status !== "good") return null;
  const counts = request.candidates.flatMap((candidate) => {
    const days = Array.from({ length: mostDays(request, candidate.drill) }, (_, index) => index + 1).find((one) => solved.of(columnOf(candidate, one)) === 1);
    return days === undefined ? [] : [{ candidate, days }];
  });
  return { counts, worth: solved.value, gap: solved.gap };
}
