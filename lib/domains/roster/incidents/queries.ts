import type { z } from "zod";
import { defineQuery } from "@/lib/access/define-query";
import { mayInAcademy } from "@/lib/access/guard";
import { dayOf } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { PainPart } from "../rules";
import { playersScope } from "../scope";
import { listIncidents as mayListIncidents } from "./policy";
import type { IncidentKind } from "./rules";
import { listIncidentsForm } from "./schema";
import type { IncidentView } from "./view";

const PAGE_ROWS = 30;

/** The academy's incident notes, newest first, each with who was told and who has cleared it. */
export const listIncidents = defineQuery({
  name: "roster.list-incidents",
  input: listIncidentsForm,
  policy: mayInAcademy<z.infer<typeof listIncidentsForm>, "roster.list-incidents">(mayListIncidents),
  run: async ({ actor, input, db }): Promise<{ readonly rows: readonly IncidentView[]; readonly next: Id | null }> => {
    const { academyId } = actor;
    const found = await db.incident.findMany({
      where: { academyId, player: playersScope(actor) },
      orderBy: [{ notedAt: "desc" }, { id: "desc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      include: { player: { select: { givenName: true, familyName: true } }, pause: true },
    });
    const rows = found.slice(0, PAGE_ROWS);
    const notices = await db.notice.findMany({
      where: { academyId, kind: "incident-noted", subjectId: { in: rows.flatMap(({ pause }) => (pause ? [pause.id] : [])) } },
      orderBy: [{ user: { displayName: "asc" } }, { id: "asc" }],
      select: { subjectId: true, user: { select: { displayName: true } } },
    });
    const authors = await db.user.findMany({ where: { academyId, id: { in: rows.map(({ notedById }) => notedById) } }, select: { id: true, displayName: true } });
    return {
      rows: rows.map(({ id, playerId, player, kind, part, happenedOn, words, firstAid, notedById, pause }) => ({
        id, playerId, words, firstAid,
        playerName: `${player.givenName} ${player.familyName}`,
        kind: kind as IncidentKind,
        part: part as PainPart,
        happenedOn: dayOf(happenedOn),
        notedBy: authors.find((user) => user.id === notedById)?.displayName ?? "somebody who has left",
        told: notices.filter(({ subjectId }) => subjectId === pause?.id).map(({ user }) => user.displayName),
        isClearedByCoach: (pause?.coachClearedAt ?? null) !== null,
        isClearedByFamily: (pause?.familyClearedAt ?? null) !== null,
        clinicianSaidOn: pause?.clinicianSaidOn ? dayOf(pause.clinicianSaidOn) : null,
      })),
      next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null,
    };
  },
});
