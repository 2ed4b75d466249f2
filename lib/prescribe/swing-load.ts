import { LEVELS, type Level } from "@/lib/core/age";
import type { Dose } from "./drill";

/** A row of the academy's swing limits: full swings per session, day and any seven days, and at home per day. */
export interface SwingRow {
  readonly level: Level;
  readonly perSession: number;
  readonly perDay: number;
  readonly perWeek: number;
  /** The usual lower and the highest number of home swings in a day. */
  readonly homePerDay: readonly [number, number];
}

/** The swing limits in force: a row per level, and how many days of seven stay without a swing. */
export interface SwingLimits {
  readonly rows: readonly SwingRow[];
  readonly noSwingDaysPerWeek: number;
}

/** Caps of one player today, in full swings. */
export interface SwingCaps {
  readonly perSession: number;
  readonly perDay: number;
  readonly perWeek: number;
  readonly homePerDay: number;
  readonly noSwingDaysPerWeek: number;
}

/** One day of a home plan: what it is called for people, and its drills. */
export interface PlannedDay {
  readonly name: string;
  readonly drills: readonly { readonly name: string; readonly dose: Dose }[];
}

/**
 * The caps for a level and an age today. Under 8 years half of the youngest row (rounded down); while swings are
 * paused after a report of pain or an incident all are 0. A minor never gets an adult's row, an adult level or not.
 * @throws RangeError when the limits have no row for the level
 */
export function swingCaps(level: Level, years: number, limits: SwingLimits, isPaused = false): SwingCaps {
  const safeLevel = level === "adult" && years < 18 ? "15-18" : level;
  const row = limits.rows.find((candidate) => candidate.level === safeLevel);
  if (!row) throw new RangeError(`no swing limits for level ${safeLevel}; there are ${LEVELS.join(", ")}`);
  const share = isPaused ? 0 : years < 8 ? 0.5 : 1;
  const part = (swings: number) => Math.floor(swings * share);
  return {
    perSession: part(row.perSession),
    perDay: part(row.perDay),
    perWeek: part(row.perWeek),
    homePerDay: part(row.homePerDay[1]),
    noSwingDaysPerWeek: limits.noSwingDaysPerWeek,
  };
}

/**
 * Full swings that the coming week may hold, of all sources: at most so many per cent more than the last, once above half
 * the weekly cap, and never above the cap. A rule of thumb with weak evidence. Source: the library's rule of growth.
 * @param lastWeek full swings of the last seven days, of all sources
 */
export function mostAfter(lastWeek: number, caps: Pick<SwingCaps, "perWeek">, percent: number): number {
  return Math.min(caps.perWeek, Math.max(Math.floor(caps.perWeek / 2), Math.floor((lastWeek * (100 + percent)) / 100)));
}

/** Full swings of a list of drills done once each, as the drills' doses count them. */
export function swingsOf(drills: readonly { readonly dose: Dose }[]): number {
  return drills.reduce((sum, { dose }) => sum + dose.fullSwings, 0);
}

/** A planned week: swings of each day, their sum, and a sentence for each cap it would pass (empty = it may be sent). */
export interface PlannedSwings {
  readonly byDay: readonly { readonly name: string; readonly swings: number }[];
  readonly total: number;
  readonly refusals: readonly string[];
}

/**
 * Adds up the swings of at most seven days of home drills and holds them against the caps. A refusal names the day,
 * the sum by drill and the cap. Swings elsewhere (team, lessons, games) are added through `elsewhere`, by source.
 * @throws RangeError for more than seven days
 */
export function plannedSwings(
  days: readonly PlannedDay[],
  caps: SwingCaps,
  elsewhere: readonly { readonly name: string; readonly swingsPerWeek: number }[] = [],
): PlannedSwings {
  if (days.length > 7) throw new RangeError(`a week has seven days, not ${days.length}`);
  const byDay = days.map(({ name, drills }) => ({ name, swings: swingsOf(drills) }));
  const home = byDay.reduce((sum, { swings }) => sum + swings, 0);
  const total = elsewhere.reduce((sum, { swingsPerWeek }) => sum + swingsPerWeek, home);
  const refusals: string[] = [];
  days.forEach(({ name, drills }, index) => {
    const swings = byDay[index]?.swings ?? 0;
    if (swings <= caps.homePerDay) return;
    const sum = drills.filter(({ dose }) => dose.fullSwings > 0).map((drill) => `${drill.name} ${drill.dose.fullSwings}`);
    refusals.push(`${name} has ${swings} swings (${sum.join(" + ")}). The home limit is ${caps.homePerDay} a day.`);
  });
  if (total > caps.perWeek) {
    const sum = [`home ${home}`, ...elsewhere.map(({ name, swingsPerWeek }) => `${name} ${swingsPerWeek}`)];
    refusals.push(`The week has ${total} swings (${sum.join(" + ")}). The limit is ${caps.perWeek} a week.`);
  }
  const swingDays = byDay.filter(({ swings }) => swings > 0).length;
  if (swingDays > 7 - caps.noSwingDaysPerWeek) {
    refusals.push(`${swingDays} days have swings. At least ${caps.noSwingDaysPerWeek} days of the week stay without.`);
  }
  return { byDay, total, refusals };
}
