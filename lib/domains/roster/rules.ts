import { ADULT_FROM_YEARS, ageYears } from "@/lib/core/age";

/** Parts of the body that a complaint can name; a drill that loads one is ruled out while it lasts. */
export const BODY_PARTS = ["knee", "hip", "groin", "back", "side", "shoulder", "elbow", "wrist", "hand"] as const;
export type BodyPart = (typeof BODY_PARTS)[number];

/** Where it can hurt: the same parts, and those no drill is sorted by. */
export const PAIN_PARTS = [...BODY_PARTS, "neck", "head", "ankle", "foot", "elsewhere"] as const;
export type PainPart = (typeof PAIN_PARTS)[number];

export const CONSENT_USES = ["lesson", "staff-training", "public"] as const;
export type ConsentUse = (typeof CONSENT_USES)[number];

export const SPORTS = ["baseball", "softball"] as const;
export type Sport = (typeof SPORTS)[number];

export const BATS = ["right", "left", "both"] as const;
export type Bats = (typeof BATS)[number];
export type Side = "right" | "left";

/** Which grown-up is there at home, least first. */
export const ADULTS_AT_HOME = ["none", "nearby", "in-charge", "operates"] as const;
export type AdultAtHome = (typeof ADULTS_AT_HOME)[number];

export const RELATIONS = ["parent", "grandparent", "other guardian"] as const;

/** A consent holds at most this many days after the day it was given. */
export const CONSENT_MOST_DAYS = 365;
/** The words that a family says yes to now; a change of them is a new version. */
export const CONSENT_WORDS_VERSION = "1";

const OLDEST_YEARS = 100;
const YOUNGEST_YEARS = 4;

/** The sides a player bats from: who bats both has two records. */
export function sidesOf(bats: Bats): readonly Side[] {
  return bats === "both" ? ["right", "left"] : [bats];
}

/** Whether a person born on that day is of age on a day. */
export function isAdultOn(birthDate: string, day: string): boolean {
  return ageYears(birthDate, day) >= ADULT_FROM_YEARS;
}

/** Why a birth date cannot be one, as a sentence; null when it can. */
export function birthDateProblem(birthDate: string, today: string): string | null {
  if (birthDate > today) return `This birth date lies in the future. Today is ${today}.`;
  let years: number;
  try {
    years = ageYears(birthDate, today);
  } catch {
    return "There is no such day. Write the birth date as year, month, day, such as 2014-05-31.";
  }
  if (years > OLDEST_YEARS) return `This birth date is more than ${OLDEST_YEARS} years ago. Check the year.`;
  if (years < YOUNGEST_YEARS) return `Players are at least ${YOUNGEST_YEARS} years old. Check the year.`;
  return null;
}

/** Why a consent cannot last from one day to another, as a sentence; null when it can. */
export function consentDaysProblem(givenOn: string, validUntil: string, today: string): string | null {
  if (givenOn > today) return `A consent cannot be given in the future. Today is ${today}.`;
  if (validUntil <= givenOn) return "It must end after the day on which it was given.";
  if (daysBetween(givenOn, validUntil) > CONSENT_MOST_DAYS) {
    return `A consent holds at most ${CONSENT_MOST_DAYS} days: until ${dayAfter(givenOn, CONSENT_MOST_DAYS)} at the latest.`;
  }
  return null;
}

/** Whole days from one day to another. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}

function dayAfter(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** Whether a span of days holds on a day; `until` is the first day on which it no longer does. */
export function holdsOn(span: { from: string; until: string | null }, day: string): boolean {
  return span.from <= day && (span.until === null || span.until > day);
}

/** A pause ends when both sides have cleared it. */
export function isCleared(pause: { coachClearedAt: Date | null; familyClearedAt: Date | null }): boolean {
  return pause.coachClearedAt !== null && pause.familyClearedAt !== null;
}
