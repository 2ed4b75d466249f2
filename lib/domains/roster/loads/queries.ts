import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { todayIn } from "@/lib/platform/clock";
import { playerIdForm } from "../schema";
import { findPlayerSubject } from "../scope";
import { countSwings } from "./policy";
import { LOG_DAYS_BACK } from "./rules";
import { readSwingLogs, readSwingSources } from "./scope";
import type { SourceView, SwingLogView } from "./view";

const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

/** What a usual week brings outside homework, and what was written down of the last two weeks. */
export const getSwingsElsewhere = defineQuery({
  name: "roster.get-swings-elsewhere",
  input: playerIdForm,
  policy: may(countSwings, playerOf),
  run: async ({ granted, db }): Promise<{ readonly today: string; readonly sources: readonly SourceView[]; readonly logs: readonly SwingLogView[] }> => {
    const { academyId, id: playerId } = granted;
    const { location } = await db.player.findUniqueOrThrow({ where: { id: playerId }, select: { location: { select: { timeZone: true } } } });
    const today = todayIn(location.timeZone);
    return { today, sources: await readSwingSources(db, academyId, playerId), logs: await readSwingLogs(db, academyId, playerId, today, LOG_DAYS_BACK) };
  },
});
