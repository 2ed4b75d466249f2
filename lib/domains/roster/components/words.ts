import { SEASON_WORDS } from "../seasons/rules";
import type { SeasonNow } from "../seasons/view";
import type { AdultAtHome, Bats, BodyPart, ConsentUse, PainPart, Sport } from "../rules";

/** Parts of the body as people say them. */
export const PART_WORDS: Readonly<Record<PainPart, string>> = {
  knee: "knee", hip: "hip", groin: "groin", back: "back", side: "side of the belly", shoulder: "shoulder", elbow: "elbow", wrist: "wrist", hand: "hand",
  neck: "neck", head: "head", ankle: "ankle", foot: "foot", elsewhere: "somewhere else",
};
export const partWords = (part: BodyPart | PainPart) => PART_WORDS[part];

export const USE_WORDS: Readonly<Record<ConsentUse, string>> = {
  lesson: "Filming for lessons",
  "staff-training": "Showing clips to coaches in training",
  public: "Showing clips in public",
};

export const SPORT_WORDS: Readonly<Record<Sport, string>> = { baseball: "baseball", softball: "softball" };
export const BATS_WORDS: Readonly<Record<Bats, string>> = { right: "right", left: "left", both: "both sides" };

export const ADULT_WORDS: Readonly<Record<AdultAtHome, string>> = {
  none: "Nobody",
  nearby: "Within call",
  "in-charge": "Runs it",
  operates: "Throws or works the machine",
};

/** A day (YYYY-MM-DD) as people say it. */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** The season of today in one line. */
export function seasonWords(season: SeasonNow): string {
  const firstGame = season.daysToFirstGame === null || season.firstGameOn === null ? "" : ` First game ${dayWords(season.firstGameOn)}.`;
  return `${SEASON_WORDS[season.season]}, ${spanWords(season)}.${firstGame}`;
}

/** From one day to another, or since one. `until` is the first day on which it no longer holds. */
export function spanWords(span: { readonly from: string; readonly until: string | null }): string {
  return span.until ? `${dayWords(span.from)} until ${dayWords(span.until)}` : `since ${dayWords(span.from)}`;
}
