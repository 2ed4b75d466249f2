import { dayValue, daysAfter } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { swingsOfLastWeek } from "@/lib/domains/roster/loads/rules";
import { readSwingLogs } from "@/lib/domains/roster/loads/scope";
import type { SourceView } from "@/lib/domains/roster/loads/view";
import type { Database } from "@/lib/platform/database";

const DAYS = 7;

/** Full swings of the seven days that end today, of all sources: what a coming week may grow from. Counts that a later one corrects are not added. */
export async function readLastWeek(db: Database, academyId: Id, playerId: Id, today: string, usual: readonly SourceView[]): Promise<number> {
  const day = { gt: dayValue(daysAfter(today, -DAYS)), lte: dayValue(today) };
  const home = await db.practiceLog.aggregate({ where: { academyId, playerId, day, correctedBy: { none: {} } }, _sum: { swings: true } });
  return swingsOfLastWeek(home._sum.swings ?? 0, await readSwingLogs(db, academyId, playerId, today, DAYS), usual);
}
