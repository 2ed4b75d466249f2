import { isPerson, type Actor } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import { clipAddress } from "@/lib/domains/clips/schema";
import { permittedOn } from "@/lib/domains/clips/scope";
import { openPause, playersScope } from "@/lib/domains/roster/scope";
import type { Database, Prisma } from "@/lib/platform/database";
import type { HomeworkSubject } from "./policy";

/** The players whose counts the actor may see in a list: those whom the actor teaches. */
export function countedPlayersScope(actor: Actor): Prisma.PlayerWhereInput {
  const isCoach = isPerson(actor) && (actor.role === "coach" || actor.role === "head-coach");
  return isCoach ? playersScope(actor) : { id: { in: [] } };
}

/** Rows that hold: those that no later row corrects. */
export const inForce = { correctedBy: { none: {} } } satisfies Prisma.PracticeLogWhereInput;

export async function findHomeworkSubject(db: Database, academyId: Id, planDrillId: Id): Promise<HomeworkSubject | null> {
  const found = await db.planDrill.findFirst({ where: { id: planDrillId, academyId }, select: { id: true, academyId: true, plan: { select: { playerId: true, state: true } } } });
  return found && { id: found.id, academyId: found.academyId, playerId: found.plan.playerId, isSent: found.plan.state !== "draft" };
}

/** The player as the family's pages need one. */
export const familyPlayerSelect = {
  id: true, academyId: true, givenName: true, familyName: true, birthDate: true, hasLeftSchool: true,
  location: { select: { timeZone: true } },
  pauses: {
    where: openPause,
    orderBy: [{ startedAt: "desc" }, { id: "asc" }],
    select: {
      id: true, startedAt: true, coachClearedAt: true, familyClearedAt: true,
      painReport: { select: { part: true, reportedById: true } },
      incident: { select: { kind: true, part: true, words: true, firstAid: true, notedById: true } },
    },
  },
} satisfies Prisma.PlayerSelect;
export type FamilyPlayerRow = Prisma.PlayerGetPayload<{ select: typeof familyPlayerSelect }>;

/** A clip that the family sent, and that shows a drill done right. */
export interface DoneRight {
  readonly filmUrl: string;
  readonly posterUrl: string;
}

/** The newest clips that a coach said show drills done right, by the place of the drill in a plan; none while filming is not permitted. */
export async function readDoneRight(db: Database, academyId: Id, playerId: Id, planDrillIds: readonly Id[], today: string): Promise<ReadonlyMap<Id, DoneRight>> {
  const drills = await db.planDrill.findMany({ where: { academyId, id: { in: [...planDrillIds] } }, select: { id: true, drillId: true } });
  const rows = await db.sentClip.findMany({
    where: { academyId, playerId, drillId: { in: drills.map(({ drillId }) => drillId) }, upload: { state: "ready", clipId: { not: null }, player: permittedOn(today) } },
    orderBy: [{ answeredAt: "asc" }, { id: "asc" }],
    select: { drillId: true, upload: { select: { clipId: true } } },
  });
  const newest = new Map(rows.flatMap(({ drillId, upload: { clipId } }) => (clipId ? [[drillId, { filmUrl: clipAddress.stepping(clipId), posterUrl: clipAddress.poster(clipId) }] as const] : [])));
  return new Map(
    drills.flatMap(({ id, drillId }): [Id, DoneRight][] => {
      const found = newest.get(drillId);
      return found ? [[id, found]] : [];
    }),
  );
}

/** Who was told of pauses, by name, in the order of the names. */
export async function readTold(db: Database, academyId: Id, pauseIds: readonly Id[]): Promise<{ readonly pauseId: Id; readonly name: string }[]> {
  const rows = await db.notice.findMany({
    where: { academyId, kind: { in: ["pain-reported", "incident-noted"] }, subjectId: { in: [...pauseIds] } },
    orderBy: [{ user: { displayName: "asc" } }, { id: "asc" }],
    select: { subjectId: true, user: { select: { displayName: true } } },
  });
  return rows.map(({ subjectId, user }) => ({ pauseId: subjectId, name: user.displayName }));
}

/** Drills of plans that were counted on some day. */
export async function readEverDone(db: Database, academyId: Id, planDrillIds: readonly Id[]): Promise<ReadonlySet<Id>> {
  const rows = await db.practiceLog.groupBy({ by: ["planDrillId"], where: { academyId, planDrillId: { in: [...planDrillIds] }, times: { gt: 0 }, ...inForce } });
  return new Set(rows.map(({ planDrillId }) => planDrillId));
}

/** Days and names shown to a parent at once. */
const WATCHERS_SHOWN = 60;

/** Who of the staff looked at a player's clips, on which day of a time zone; newest day first. */
export async function readWatchers(db: Database, academyId: Id, playerId: Id, timeZone: string): Promise<{ readonly day: string; readonly name: string }[]> {
  return db.$queryRaw<{ day: string; name: string }[]>`
    SELECT DISTINCT to_char(r."quarter" AT TIME ZONE ${timeZone}, 'YYYY-MM-DD') AS "day", u."displayName" AS "name"
    FROM "MediaRead" r
    JOIN "Clip" c ON c."academyId" = r."academyId" AND c."id" = r."clipId"
    JOIN "Session" s ON s."id" = r."sessionId"
    JOIN "User" u ON u."id" = s."userId"
    WHERE r."academyId" = ${academyId}::uuid AND c."playerId" = ${playerId}::uuid
      AND EXISTS (SELECT 1 FROM "RoleGrant" g WHERE g."userId" = u."id" AND g."role" IN ('admin', 'head-coach', 'coach'))
    ORDER BY "day" DESC, "name" ASC
    LIMIT ${WATCHERS_SHOWN}`;
}
