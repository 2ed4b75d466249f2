/** A day (YYYY-MM-DD) as the database's date value: midnight UTC of that day. */
export function dayValue(day: string): Date {
  return new Date(`${day}T00:00:00Z`);
}

/** The day of a database date value, as YYYY-MM-DD. */
export function dayOf(value: Date): string {
  return value.toISOString().slice(0, 10);
}

/** The day so many days after (or, negative, before) a day. */
export function daysAfter(day: string, days: number): string {
  return dayOf(new Date(dayValue(day).getTime() + days * 86_400_000));
}

/** The time of day of an instant in a zone, "3:12 PM". */
export function timeOfDay(instant: Date, timeZone: string): string {
  return new Intl.DateTimeFormat("en-US", { hour: "numeric", minute: "2-digit", timeZone }).format(instant);
}

/** The day of an instant in a time zone, as YYYY-MM-DD. */
export function dayIn(instant: Date, timeZone: string): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" }).format(instant);
}
