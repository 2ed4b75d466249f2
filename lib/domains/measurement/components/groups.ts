import type { Reading } from "@/lib/measure/reading";
import { effectOf, type TrustReasonId } from "@/lib/measure/trust-reasons";
import type { CheckpointToRead, ReadingSection } from "../view";

/** The ways in which readings stand, what speaks first. */
export const groupIds = ["talk-about", "watch", "cannot-tell", "fine", "no-verdict", "not-sure", "not-read"] as const;
export type GroupId = (typeof groupIds)[number];

/** Where a reading stands: by its verdict, and by why it has none. */
export function groupOf({ value, isGrey, verdict }: Reading): GroupId {
  if (value === null) return "not-read";
  if (isGrey) return "not-sure";
  return verdict ?? "no-verdict";
}

/** What has to come about before a reading can be had, the nearest first. */
export const needIds = ["points", "events", "film", "view", "rule"] as const;
export type NeedId = (typeof needIds)[number];

const NEEDS: Readonly<Partial<Record<TrustReasonId, NeedId>>> = {
  "points-missing": "points", "window-thin": "points", gap: "points", "no-scale": "points", "event-missing": "events", "time-unknown": "events",
  "view-not-declared": "view", "view-not-measured": "view", "camera-moved": "film", "out-of-frame": "film", "cut-off": "film",
};
const FAR: readonly NeedId[] = ["view", "film", "rule", "events", "points"];

/** What an unread reading waits for: of several things the one that is farthest away. */
export function needOf({ reasons }: Reading): NeedId {
  const needs = reasons.filter(({ id }) => effectOf(id) === "null").map(({ id }) => NEEDS[id] ?? "rule");
  return FAR.find((need) => needs.includes(need)) ?? "rule";
}

/** One question with the readings that answer it, what speaks first; the last one holds what no question asks for. */
export interface SectionOfReadings {
  readonly id: string;
  readonly question: string | null;
  readonly readings: readonly Reading[];
}

/** The readings that have a value, under the academy's questions. */
export function sectionsOf(sections: readonly ReadingSection[], checkpoints: readonly CheckpointToRead[], readings: readonly Reading[]): readonly SectionOfReadings[] {
  const areas = new Map(checkpoints.map((it) => [it.id, it.area]));
  const had = readings.filter((it) => groupOf(it) !== "not-read");
  const isAsked = (it: Reading, { areas: own }: ReadingSection) => own.includes(areas.get(it.checkpointId) ?? "");
  const bySpeaking = (list: readonly Reading[]) => [...list].sort((a, b) => groupIds.indexOf(groupOf(a)) - groupIds.indexOf(groupOf(b)));
  return [
    ...sections.map((section) => ({ id: section.id, question: section.question, readings: bySpeaking(had.filter((it) => isAsked(it, section))) })),
    { id: "rest", question: null, readings: bySpeaking(had.filter((it) => !sections.some((section) => isAsked(it, section)))) },
  ].filter((it) => it.readings.length > 0);
}

/** Inside which limits a reading is fine, "fine from 10 to 20"; null without limits. */
export function limitWords(reading: Reading): string | null {
  if (!reading.band) return null;
  const [low, high] = reading.band.ok;
  if (low !== null && high !== null) return `fine from ${plain(low)} to ${plain(high)}`;
  if (high !== null) return `fine up to ${plain(high)}`;
  return low !== null ? `fine from ${plain(low)} on` : null;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(3))).replace("-", "−");
}
