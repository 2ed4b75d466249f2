import { DateTime } from "luxon";
import { settings } from "./settings";

const startedMs = Date.now();

/** The present instant. Tests start the clock where they want it; it then runs on as usual. */
export function now(): Date {
  const start = settings().CLOCK_STARTS_AT;
  return start ? new Date(Date.parse(start) + (Date.now() - startedMs)) : new Date();
}

/** Today's date in a time zone, as YYYY-MM-DD. */
export function todayIn(timeZone: string): string {
  return DateTime.fromJSDate(now(), { zone: timeZone }).toISODate() ?? now().toISOString().slice(0, 10);
}
