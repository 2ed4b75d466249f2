import type { Id } from "@/lib/core/ids";

/** One thing that was done, by identifiers; the name is looked up now and gone once the person is. */
export interface AuditRow {
  readonly id: Id;
  readonly at: string;
  readonly operation: string;
  readonly actorName: string | null;
  readonly subjectId: string | null;
}

export interface AuditPage {
  readonly rows: readonly AuditRow[];
  readonly next: Id | null;
}

/** Says when an instant was, in a time zone. */
export function instantWords(instant: string, timeZone: string): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone }).format(new Date(instant));
}
