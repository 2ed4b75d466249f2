import { dayIn } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Side } from "@/lib/domains/roster/rules";
import type { SeasonNow } from "@/lib/domains/roster/seasons/view";
import type { Database } from "@/lib/platform/database";
import { namesOfUsers } from "../scope";
import type { SeasonCase } from "./rules";

/** All that the season's rule is asked with for one side of a player. */
export async function readSeasonCase(db: Database, of: { readonly academyId: Id; readonly playerId: Id; readonly side: Side }, season: SeasonNow | null, timeZone: string): Promise<SeasonCase> {
  if (season === null) return { season, foci: [], yeses: [] };
  const foci = await db.focus.findMany({ where: of, orderBy: { id: "asc" }, select: { faultId: true, chosenAt: true, changedAt: true, state: true } });
  const yeses = await db.seasonYes.findMany({ where: { ...of, seasonId: season.id }, orderBy: { id: "asc" }, select: { faultId: true, reason: true, saidById: true, saidAt: true } });
  const names = await namesOfUsers(db, of.academyId, yeses.map(({ saidById }) => saidById));
  return {
    season,
    foci: foci.map(({ faultId, chosenAt, changedAt, state }) => ({ faultId, chosenOn: dayIn(chosenAt, timeZone), endedOn: state === "ended" ? dayIn(changedAt, timeZone) : null })),
    yeses: yeses.map(({ faultId, reason, saidById, saidAt }) => ({ faultId, reason, by: names.get(saidById) ?? "The head coach", on: dayIn(saidAt, timeZone) })),
  };
}
