import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Season } from "@/lib/prescribe/drill";
import { daysBetween } from "../rules";
import { seasonOn, type SaidSeason } from "./rules";

/** The season that holds for a player today. */
export interface SeasonNow extends SaidSeason {
  /** The row that says so: a yes of the head coach belongs to it. */
  readonly id: Id;
  /** Whole days to the first game; null when nobody said, or when it was played. */
  readonly daysToFirstGame: number | null;
}

/** One line of the head coach's overview. */
export interface SeasonRow {
  readonly playerId: Id;
  readonly name: string;
  readonly ageYears: number;
  readonly coachNames: readonly string[];
  readonly season: SeasonNow | null;
}

/** A season as the database holds it. */
export interface SeasonRecord {
  readonly id: Id;
  readonly season: string;
  readonly from: Date;
  readonly until: Date | null;
  readonly firstGameOn: Date | null;
}

/** The season of today out of what was said, newest first; null while nobody said. */
export function seasonNow(rows: readonly SeasonRecord[], today: string): SeasonNow | null {
  const said = rows.map(({ id, season, from, until, firstGameOn }) => ({
    id, season: season as Season, from: dayOf(from), until: until && dayOf(until), firstGameOn: firstGameOn && dayOf(firstGameOn),
  }));
  const found = seasonOn(said, today);
  if (!found) return null;
  const days = found.firstGameOn === null ? null : daysBetween(today, found.firstGameOn);
  return { ...found, daysToFirstGame: days !== null && days >= 0 ? days : null };
}
