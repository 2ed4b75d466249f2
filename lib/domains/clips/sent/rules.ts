import { english, type Say } from "@/lib/core/words/say";

/** Letters of what a family asks, and of an answer. */
export const MOST_WORDS = 300;
export const MOST_ANSWER = 900;
/** So many clips of a player in seven days: what a coach can look at with care. House rule, common practice, no source. */
export const MOST_A_WEEK = 5;
export const WEEK_DAYS = 7;
/** A phone writes some seconds of a swing well below this; more is a whole practice. */
export const MOST_SENT_BYTES = 300_000_000;
/** After so many hours without an answer the coach is reminded, once. */
export const REMIND_AFTER_HOURS = 48;

/** How far a clip is, as the family reads it. */
export type SentState = "on-its-way" | "received" | "looked-at" | "answered" | "refused";

export interface SentFacts {
  /** Of the upload: receiving, checking, ready, refused. */
  readonly uploadState: string;
  readonly lookedAt: Date | null;
  readonly answeredAt: Date | null;
}

/** The furthest of what has happened. Nothing is looked at or answered before it is here. */
export function sentState({ uploadState, lookedAt, answeredAt }: SentFacts): SentState {
  if (uploadState === "refused") return "refused";
  if (uploadState !== "ready") return "on-its-way";
  if (answeredAt) return "answered";
  return lookedAt ? "looked-at" : "received";
}

/** Why a family can send nothing of a player now, in words for a child; null when it can. */
export function whyNothingIsSent(player: { readonly givenName: string; readonly leftAt: Date | null; readonly isPermitted: boolean; readonly isPaused: boolean }, say: Say = english): string | null {
  if (player.leftAt) return say("{name} has left the academy.", { name: player.givenName });
  if (player.isPaused) return say("It hurts: no swings until a coach and the family have both cleared it. Nobody is cross.");
  if (!player.isPermitted) return say("There is no yes to filming now, so no clip can be sent and none is shown. A parent can give one.");
  return null;
}

/** The instant so many days before another. */
export const daysBefore = (instant: Date, days: number) => new Date(instant.getTime() - days * 86_400_000);

/** "3 hours", "2 days": how long something waits, whole and rounded down. */
export function waitedWords(since: Date, now: Date): string {
  const hours = Math.max(0, Math.floor((now.getTime() - since.getTime()) / 3_600_000));
  if (hours < 1) return "less than an hour";
  if (hours < 48) return hours === 1 ? "1 hour" : `${hours} hours`;
  return `${Math.floor(hours / 24)} days`;
}
