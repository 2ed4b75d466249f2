import type { PlainSentence } from "@/lib/core/words/say";
import type { Scene, SceneProp } from "@/lib/prescribe/scene";

/** More than this of one drill on one day is not counted. */
export const MOST_A_DAY = 500;
/** Below this age the family's pages hold no numbers but counts to do. */
const NUMBERS_FROM_YEARS = 11;
/** Said to whoever counts more. */
export const MOST_A_DAY_WORDS: PlainSentence = "Up to 500 can be counted for one day. Count again, or tell your coach.";
const DAY_MS = 86_400_000;

const dayMs = (day: string) => Date.parse(`${day}T00:00:00Z`);
const dayAt = (ms: number) => new Date(ms).toISOString().slice(0, 10);

/** Drills that need no swing and no bat: they go on while swings are paused. */
export function isBodyWork(setup: string): boolean {
  return setup === "strength" || setup === "mobility";
}

export function showsNumbers(ageYears: number): boolean {
  return ageYears >= NUMBERS_FROM_YEARS;
}

/** The seven days, Monday to Sunday, in which a day lies. */
export function weekOf(day: string): readonly string[] {
  const sinceMonday = (new Date(dayMs(day)).getUTCDay() + 6) % 7;
  return Array.from({ length: 7 }, (_, index) => dayAt(dayMs(day) + (index - sinceMonday) * DAY_MS));
}

/** 1 = Monday to 7 = Sunday. */
export function weekdayOf(day: string): number {
  return ((new Date(dayMs(day)).getUTCDay() + 6) % 7) + 1;
}

/** Days on which a plan asks for homework, from its first day to its last, both counted. */
export function plannedDays(span: { startsOn: string; endsOn: string; daysPerWeek: number }): number {
  const days = Math.max(0, Math.round((dayMs(span.endsOn) - dayMs(span.startsOn)) / DAY_MS) + 1);
  return Math.floor(days / 7) * span.daysPerWeek + Math.min(span.daysPerWeek, days % 7);
}

/** Swings that so many times of a drill count for, by what the plan says of it; never fewer than the share. */
export function swingsFor(drill: { timesPerDay: number; swingsPerDay: number }, times: number): number {
  return Math.ceil((times * drill.swingsPerDay) / drill.timesPerDay);
}

/** What is in force for one drill on one day. */
export interface CountedDay {
  readonly day: string;
  readonly times: number;
  readonly swings: number;
}

export interface Totals {
  /** Days on which anything was done. */
  readonly days: number;
  readonly times: number;
  readonly swings: number;
}

/** Adds up rows in force between two days, both counted. A row taken back holds nothing and makes no day. */
export function totalsOf(rows: readonly CountedDay[], from: string, to: string): Totals {
  const inside = rows.filter(({ day, times }) => day >= from && day <= to && times > 0);
  return {
    days: new Set(inside.map(({ day }) => day)).size,
    times: inside.reduce((sum, { times }) => sum + times, 0),
    swings: inside.reduce((sum, { swings }) => sum + swings, 0),
  };
}

/** The homework that a count is for, on the day on which it is written. */
export interface CountAsked {
  readonly day: string;
  readonly today: string;
  readonly plan: { readonly startsOn: string; readonly endsOn: string; readonly state: string };
  readonly hasPlayerLeft: boolean;
  readonly isPaused: boolean;
  readonly isSwing: boolean;
  /** What is in force for the day now, and what shall be. */
  readonly timesBefore: number;
  readonly times: number;
  readonly swings: number;
}

/** Why this cannot be counted, as a sentence; null when it can. */
export function countProblem(asked: CountAsked): PlainSentence | null {
  const { day, today, plan, times, swings } = asked;
  if (asked.hasPlayerLeft) return "This player has left the academy. Nothing more is counted.";
  if (plan.state !== "sent") return "A newer plan has come since. Open today's page again.";
  if (day > today) return "That day is still to come. Count it when it is done.";
  if (day < plan.startsOn) return "This plan had not begun on that day. Nothing was counted.";
  if (day > plan.endsOn) return "This plan has ended. Your coach makes the next one.";
  if (times > MOST_A_DAY || swings > MOST_A_DAY) return MOST_A_DAY_WORDS;
  // A count may be set right downwards while swings are paused; nothing may be added to it.
  if (asked.isPaused && asked.isSwing && times > asked.timesBefore) {
    return "Swings are paused for now. Rest is the homework today. Strength and mobility may go on.";
  }
  return null;
}

/** A rectangle in pixels of a picture. */
export interface Crop {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const CROP_SHAPE = 4 / 3;
/** The drawn part fills about half of what is shown, and never less than this share of the picture's height is. */
const ROOM_ROUND_MARKS = 2;
const LEAST_SHARE = 0.5;

/** The part of a still, 4 to 3, that shows what is drawn on it with room around; its middle when nothing is drawn. */
export function cropAround(spots: readonly { readonly x: number; readonly y: number }[], widthPx: number, heightPx: number): Crop {
  const most = Math.min(heightPx, widthPx / CROP_SHAPE);
  const [xs, ys] = [spots.map(({ x }) => x), spots.map(({ y }) => y)];
  const [left, right] = spots.length > 0 ? [Math.min(...xs), Math.max(...xs)] : [0, widthPx];
  const [top, bottom] = spots.length > 0 ? [Math.min(...ys), Math.max(...ys)] : [0, heightPx];
  const needed = ROOM_ROUND_MARKS * Math.max(bottom - top, (right - left) / CROP_SHAPE);
  const height = Math.min(most, Math.max(needed, most * LEAST_SHARE));
  const width = height * CROP_SHAPE;
  const place = (middle: number, size: number, whole: number) => Math.max(0, Math.min(whole - size, middle - size / 2));
  return { x: place((left + right) / 2, width, widthPx), y: place((top + bottom) / 2, height, heightPx), width, height };
}

/** How somebody at home can help with a drill, and what stays with the coach. Common practice, no source. */
export function helpWith({ scene, isSwing }: { readonly scene: Scene | null; readonly isSwing: boolean }): { readonly help: readonly PlainSentence[]; readonly leave: PlainSentence } {
  const has = (prop: SceneProp) => scene?.props.includes(prop) ?? false;
  return {
    help: [
      ...(has("tosser") ? (["Feed the balls from where the picture shows you, and only when the bat is still."] as const) : []),
      ...(has("thrower") || has("machine") ? (["Feed the balls as the drill says, from behind the screen where there is one."] as const) : []),
      ...(has("tee") && !has("tosser") ? (["Put the next ball on the tee when the bat is still. Then step out of the circle."] as const) : []),
      ...(scene?.hasAdult ? (["Stay near until it is done."] as const) : []),
      isSwing ? "Count each swing out loud, hit or miss." : "Count out loud, and keep it slow.",
      "Film one, if they like. You can send it to the coach.",
    ],
    leave: "Please leave how it looks to the coach. You can ask for the cue; that is enough.",
  };
}
