import type { Season } from "@/lib/prescribe/drill";
import { daysBetween, holdsOn } from "../rules";

/** The parts of a player's year: change, carry over, keep, rest. */
export const SEASONS = ["off-season", "pre-season", "in-season", "break"] as const satisfies readonly Season[];

/** What each part of the year is for, as coaches say it. Source: the library's list of seasons. */
export const SEASON_WORDS: Readonly<Record<Season, string>> = {
  "off-season": "Off-season: change things",
  "pre-season": "Pre-season: carry it over",
  "in-season": "In season: keep and compete",
  break: "Break: no swings",
};

/** A season lasts a year at most. */
export const SEASON_MOST_DAYS = 365;
/** A season may be said for days that lie back so far, or ahead. */
const MOST_DAYS_AWAY = 365;

/** A season of a player as it was said. */
export interface SaidSeason {
  readonly season: Season;
  readonly from: string;
  /** First day on which it no longer holds; null while nobody knows. */
  readonly until: string | null;
  readonly firstGameOn: string | null;
}

/** The season of a day: of those that hold, the one that was said last. `said` stands newest first. */
export function seasonOn<Said extends SaidSeason>(said: readonly Said[], day: string): Said | null {
  return said.find((one) => holdsOn(one, day)) ?? null;
}

/** Why a season cannot be so, as a sentence with its field; null when it can. */
export function seasonProblem(given: SaidSeason, today: string): { readonly field: "from" | "until" | "firstGameOn"; readonly words: string } | null {
  const { from, until, firstGameOn } = given;
  if (Math.abs(daysBetween(today, from)) > MOST_DAYS_AWAY) return { field: "from", words: "A season begins within a year of today. Check the year." };
  if (until !== null && until <= from) return { field: "until", words: "It must end after the day on which it begins." };
  if (until !== null && daysBetween(from, until) > SEASON_MOST_DAYS) return { field: "until", words: "A season lasts a year at most. Check the year." };
  if (firstGameOn !== null && Math.abs(daysBetween(from, firstGameOn)) > SEASON_MOST_DAYS) return { field: "firstGameOn", words: "The first game lies more than a year away from that. Check the year." };
  return null;
}
