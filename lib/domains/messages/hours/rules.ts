import { DateTime } from "luxon";
import { english, type Say } from "@/lib/core/words/say";

/** From which hour until which hour of the day messages go out; whole hours by the location's own clock. */
export interface ContactHours {
  readonly opensHour: number;
  readonly closesHour: number;
}

/** House default; what bodies of the sport ask differs between 7 to 9 and 8 to 8 (common practice, no single source). */
export const USUAL_HOURS: ContactHours = { opensHour: 8, closesHour: 20 };

/** Whether an instant lies within the hours, by the clock of a zone. */
export function isOpenAt(instant: Date, { opensHour, closesHour }: ContactHours, timeZone: string): boolean {
  const { hour } = DateTime.fromJSDate(instant, { zone: timeZone });
  return hour >= opensHour && hour < closesHour;
}

/**
 * When something written at an instant goes out: at once within the hours, else when they next begin by the clock of the zone, whatever that
 * clock does in between. An opening that a changed clock leaves out is the first instant after it.
 */
export function goesOutAt(instant: Date, hours: ContactHours, timeZone: string): Date {
  if (isOpenAt(instant, hours, timeZone)) return instant;
  const local = DateTime.fromJSDate(instant, { zone: timeZone });
  const openingOf = (day: DateTime) => day.set({ hour: hours.opensHour, minute: 0, second: 0, millisecond: 0 });
  const today = openingOf(local);
  return (today > local ? today : openingOf(local.plus({ days: 1 }))).toJSDate();
}

/** Why these cannot be hours, as a sentence; null when they can. */
export function hoursProblem({ opensHour, closesHour }: ContactHours): string | null {
  return opensHour < closesHour ? null : "The hours must end after they begin, on the same day.";
}

/** "8 AM", "noon", "midnight". */
export const hourWords = (hour: number) => sayHour(hour, english);

/** The same in the reader's language. */
export function sayHour(hour: number, say: Say): string {
  if (hour === 12) return say("noon");
  if (hour === 0 || hour === 24) return say("midnight");
  return `${hour % 12} ${hour < 12 ? "AM" : "PM"}`;
}

/** "8:00 AM today", "8:00 AM tomorrow", else with the day's name. */
export function whenWords(instant: Date, now: Date, timeZone: string, say: Say = english): string {
  const [at, present] = [DateTime.fromJSDate(instant, { zone: timeZone }), DateTime.fromJSDate(now, { zone: timeZone })];
  const days = Math.round(at.startOf("day").diff(present.startOf("day"), "days").days);
  const day = days === 0 ? say("today") : days === 1 ? say("tomorrow") : say("on {day}", { day: say.day(at.toFormat("yyyy-MM-dd")) });
  return `${at.toFormat("h:mm a")} ${day}`;
}
