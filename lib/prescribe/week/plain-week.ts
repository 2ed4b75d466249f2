import type { Drill } from "../drill";
import { mostDays, worthOf, worthOfChoice } from "./choose-drills";
import { kindsOf, minutesOf, swingRoom, WEEKDAYS, type Candidate, type DayCount, type WeekRequest } from "./request";

/** A week put together drill by drill, and how far from the best it may be at most. */
export interface PlainWeek<D extends Drill = Drill> {
  readonly days: readonly { readonly candidate: Candidate<D>; readonly weekdays: readonly number[] }[];
  readonly worth: number;
  readonly gap: number;
}

/** Days as far apart as a week allows, for plans of few days. Common practice, no source. */
const SPREAD = [1, 4, 6, 2, 3, 5, 7] as const;

/** More than any week can be worth: every kind had, the worthiest drills on all the days they could have. */
function bound(request: WeekRequest): number {
  const best = request.candidates.map(({ drill, effect }) => worthOf(effect, mostDays(request, drill))).sort((a, b) => b - a);
  const kinds = new Set(kindsOf(request.candidates).values());
  return best.slice(0, request.mostDrills).reduce((sum, worth) => sum + worth, 0) + 100 * (Number(kinds.has("easy")) + Number(kinds.has("transfer")));
}

/**
 * A week that keeps every rule, without a solver: the best easy drill, the best that carries over, then by effect, each on
 * every day that still holds it. For when the solver has no time; its distance from the best is bounded, not proved small.
 * @param proved no week is worth more, as far as the solver came
 */
export function plainWeek<D extends Drill>(request: WeekRequest<D>, proved = Infinity): PlainWeek<D> {
  const kinds = kindsOf(request.candidates);
  const room = swingRoom(request);
  const byEffect = [...request.candidates].sort((a, b) => b.effect - a.effect || (a.drill.id < b.drill.id ? -1 : 1));
  const firstOf = (kind: string) => byEffect.find(({ drill }) => kinds.get(drill.id) === kind && mostDays(request, drill) > 0);
  const order = [...new Set([firstOf("easy"), firstOf("transfer"), ...byEffect].filter((one) => one !== undefined))];
  const days: { candidate: Candidate<D>; weekdays: number[] }[] = [];
  const usedOn = (weekday: number, of: (drill: Drill) => number) => days.filter(({ weekdays }) => weekdays.includes(weekday)).reduce((sum, { candidate }) => sum + of(candidate.drill), 0);
  const swingsOn = (weekday: number) => usedOn(weekday, ({ dose }) => dose.fullSwings);

  const holds = (drill: Drill, weekday: number, own: readonly number[]): boolean => {
    const planDays = new Set([...days.flatMap(({ weekdays }) => weekdays), ...own]);
    if (!planDays.has(weekday) && planDays.size >= request.daysPerWeek) return false;
    if (usedOn(weekday, minutesOf) + minutesOf(drill) > request.minutesPerDay) return false;
    const swings = drill.dose.fullSwings;
    if (swings === 0) return true;
    const week = WEEKDAYS.reduce((sum, one) => sum + swingsOn(one), 0) + own.length * swings;
    if (week + swings > room.week || swingsOn(weekday) + swings > (room.byDay[weekday - 1] ?? 0)) return false;
    const isSwingDay = (one: number) => room.busyDays.includes(one) || swingsOn(one) > 0 || own.includes(one);
    const free = WEEKDAYS.filter((one) => isSwingDay(one) && !room.busyDays.includes(one)).length;
    return isSwingDay(weekday) || free < room.freeSwingDays;
  };

  for (const candidate of order) {
    if (days.length >= request.mostDrills) break;
    if (days.some((one) => one.candidate.drill.id === candidate.drill.id)) continue;
    const most = mostDays(request, candidate.drill);
    const weekdays: number[] = [];
    for (const weekday of SPREAD) if (weekdays.length < most && holds(candidate.drill, weekday, weekdays)) weekdays.push(weekday);
    if (weekdays.length > 0) days.push({ candidate, weekdays: weekdays.sort() });
  }
  const counts: DayCount[] = days.map(({ candidate, weekdays }) => ({ candidate, days: weekdays.length }));
  const worth = worthOfChoice(counts, request);
  const most = Math.min(proved, bound(request));
  return { days, worth, gap: most > worth ? (most - worth) / most : 0 };
}
