import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import { ageYears } from "@/lib/core/age";
import { dayOf, dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { todayIn } from "@/lib/platform/clock";
import { playersScope, spanHolds } from "../scope";
import { planSeasons } from "./policy";
import { listSeasonsForm } from "./schema";
import { saidSeasons } from "./scope";
import { seasonNow, type SeasonRow } from "./view";

const PAGE_ROWS = 50;

/** In which part of the year every player is today, by family name. */
export const listSeasons = defineQuery({
  name: "roster.list-seasons",
  input: listSeasonsForm,
  policy: mayInAcademy<z.infer<typeof listSeasonsForm>, "roster.plan-seasons">(planSeasons),
  run: async ({ actor, input, db }): Promise<{ readonly today: string; readonly rows: readonly SeasonRow[]; readonly next: Id | null }> => {
    const found = await db.player.findMany({
      where: { AND: [playersScope(actor), { leftAt: null }] },
      orderBy: [{ familyName: "asc" }, { givenName: "asc" }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: {
        id: true, givenName: true, familyName: true, birthDate: true, location: { select: { timeZone: true } },
        assignments: { where: spanHolds(dayValue(actor.today)), select: { user: { select: { displayName: true } } } },
        seasons: saidSeasons,
      },
    });
    const rows = found.slice(0, PAGE_ROWS).map((row) => {
      const today = todayIn(row.location.timeZone);
      return {
        playerId: row.id, name: `${row.givenName} ${row.familyName}`, ageYears: ageYears(dayOf(row.birthDate), today),
        coachNames: row.assignments.map(({ user }) => user.displayName), season: seasonNow(row.seasons, today),
      };
    });
    return { today: actor.today, rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.playerId ?? null) : null };
  },
});
