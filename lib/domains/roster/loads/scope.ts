import { dayOf, dayValue, daysAfter } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { SwingSourceId } from "./rules";
import type { SourceView, SwingLogView } from "./view";

/** What a usual week brings outside homework, by source; a source that was not asked for is not among them. */
export async function readSwingSources(db: Database, academyId: Id, playerId: Id): Promise<SourceView[]> {
  const rows = await db.swingSource.findMany({ where: { academyId, playerId }, orderBy: { source: "asc" }, select: { source: true, weekdays: true, swingsEach: true } });
  return rows.map(({ source, ...row }) => ({ ...row, source: source as SwingSourceId }));
}

/** What was written down of the last so many days, the newest first. */
export async function readSwingLogs(db: Database, academyId: Id, playerId: Id, today: string, days: number): Promise<SwingLogView[]> {
  const rows = await db.swingLog.findMany({
    where: { academyId, playerId, takenBackAt: null, day: { gt: dayValue(daysAfter(today, -days)), lte: dayValue(today) } },
    orderBy: [{ day: "desc" }, { loggedAt: "desc" }, { id: "asc" }],
    take: 100,
    select: { id: true, day: true, source: true, swings: true, isGuess: true },
  });
  return rows.map(({ day, source, ...row }) => ({ ...row, day: dayOf(day), source: source as SwingSourceId }));
}
