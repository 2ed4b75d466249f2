import { minutesOf, swingRoom, WEEKDAYS, type DayCount, type WeekRequest } from "./request";

/** Weekdays that hold the same: so many swings, and other swings already or none. */
interface AlikeDays {
  readonly swings: number;
  readonly isBusy: boolean;
  readonly days: number;
}

function alikeDays(request: WeekRequest): AlikeDays[] {
  const { byDay, busyDays } = swingRoom(request);
  const alike = new Map<string, AlikeDays>();
  for (const weekday of WEEKDAYS) {
    const [swings, isBusy] = [byDay[weekday - 1] ?? 0, busyDays.includes(weekday)];
    const key = `${swings} ${isBusy}`;
    alike.set(key, { swings, isBusy, days: (alike.get(key)?.days ?? 0) + 1 });
  }
  return [...alike.values()];
}

/**
 * Whether drills with their counts of days lie on any days of the week, by trying: days that hold the same are taken one after the
 * other, each as full as it gets, since what fits with one drill more fits without it. A few drills take well under a millisecond.
 */
export function fitsOnDays(request: WeekRequest, choice: readonly DayCount[]): boolean {
  const { minutesPerDay, daysPerWeek } = request;
  const needs = choice.map(({ candidate: { drill }, days }) => ({ minutes: minutesOf(drill), swings: drill.dose.fullSwings, days }));
  if (needs.reduce((sum, { minutes, days }) => sum + minutes * days, 0) > minutesPerDay * daysPerWeek) return false;
  const alike = alikeDays(request);
  const swingers = needs.reduce((set, { swings }, index) => (swings > 0 ? set | (1 << index) : set), 0);
  // Sets of drills are bits; what a set takes of a day.
  const taken = Array.from({ length: 1 << needs.length }, (_, set) =>
    needs.reduce((sum, { minutes, swings }, index) => (set & (1 << index) ? { minutes: sum.minutes + minutes, swings: sum.swings + swings } : sum), { minutes: 0, swings: 0 }),
  );
  const holds = (set: number, swings: number) => (taken[set]?.minutes ?? 0) <= minutesPerDay && (taken[set]?.swings ?? 0) <= swings;
  /** A free day with no swing yet is not full of drills without swings only because one with swings would fit. */
  const isFull = (set: number, open: number, day: AlikeDays) => {
    const more = day.isBusy || set & swingers ? open & ~set : open & ~set & ~swingers;
    return needs.every((_, index) => !(more & (1 << index)) || !holds(set | (1 << index), day.swings));
  };
  const hopeless = new Set<string>();

  const place = (group: number, daysInGroup: number, left: readonly number[], planDays: number, freeSwingDays: number): boolean => {
    if (left.every((days) => days === 0)) return true;
    const day = alike[group];
    if (!day || Math.max(...left) > planDays) return false;
    const further = () => place(group + 1, alike[group + 1]?.days ?? 0, left, planDays, freeSwingDays);
    if (daysInGroup === 0) return further();
    const key = `${group} ${daysInGroup} ${left.join()} ${planDays} ${freeSwingDays}`;
    if (hopeless.has(key)) return false;
    const wanted = left.reduce((set, days, index) => (days > 0 ? set | (1 << index) : set), 0);
    const open = day.isBusy || freeSwingDays > 0 ? wanted : wanted & ~swingers;
    for (let set = open; set > 0; set = (set - 1) & open) {
      if (!holds(set, day.swings) || !isFull(set, open, day)) continue;
      const rest = left.map((days, index) => (set & (1 << index) ? days - 1 : days));
      if (place(group, daysInGroup - 1, rest, planDays - 1, freeSwingDays - Number(!day.isBusy && (set & swingers) > 0))) return true;
    }
    if (further()) return true;
    hopeless.add(key);
    return false;
  };
  return place(0, alike[0]?.days ?? 0, needs.map(({ days }) => days), daysPerWeek, swingRoom(request).freeSwingDays);
}

/** The smallest part of a choice that still lies on no days, with as few days of each drill as that takes: it rules out the most. */
export function smallestUnfit<D extends DayCount>(request: WeekRequest, choice: readonly D[]): D[] {
  let part = [...choice];
  for (const one of choice) {
    const without = part.filter((other) => other !== one);
    if (!fitsOnDays(request, without)) part = without;
  }
  for (let index = 0; index < part.length; index++) {
    for (;;) {
      const less = part.map((one, at) => (at === index ? { ...one, days: one.days - 1 } : one));
      if (fitsOnDays(request, less)) break;
      part = less;
    }
  }
  return part;
}
