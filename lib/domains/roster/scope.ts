import { isPerson, type Actor } from "@/lib/access/actor";
import { dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { Database, Prisma } from "@/lib/platform/database";
import type { PlayerSubject } from "./policy";
import { saidSeasons } from "./seasons/scope";

const NO_ROW: Prisma.PlayerWhereInput = { id: { in: [] } };

/** The players whom this actor may know of: the same answer as the ability "player.see", as a condition on rows. */
export function playersScope(actor: Actor): Prisma.PlayerWhereInput {
  if (!isPerson(actor)) return NO_ROW;
  const { academyId } = actor;
  switch (actor.role) {
    case "admin":
    case "head-coach":
      return { academyId };
    case "coach":
      return { academyId, id: { in: [...actor.coachedPlayerIds] } };
    case "guardian":
      return { academyId, id: { in: [...actor.wardIds] } };
    case "player":
      return actor.ownPlayerId ? { academyId, id: actor.ownPlayerId } : NO_ROW;
    default:
      return NO_ROW;
  }
}

/** Spans of days (assignments, guardianships, roles) that hold on a day. */
export function spanHolds(day: Date): { from: { lte: Date }; OR: ({ until: null } | { until: { gt: Date } })[] } {
  return { from: { lte: day }, OR: [{ until: null }, { until: { gt: day } }] };
}

/** A pause that holds. */
export const openPause = { endedAt: null } satisfies Prisma.PauseWhereInput;

/** The player of the actor's academy as the policies need to know one, or null. */
export async function findPlayerSubject(db: Database, academyId: Id, playerId: Id): Promise<PlayerSubject | null> {
  const found = await db.player.findFirst({
    where: { id: playerId, academyId },
    select: { id: true, academyId: true, birthDate: true, leftAt: true },
  });
  if (!found) return null;
  return { id: found.id, academyId: found.academyId, birthDate: found.birthDate.toISOString().slice(0, 10), hasLeft: found.leftAt !== null };
}

/** Who gets what is sent to a family: the player with a sign-in, and every guardian of today. */
export async function readReceivers(db: Database, academyId: Id, playerId: Id, today: string): Promise<{ readonly id: Id; readonly name: string; readonly isGuardian: boolean }[]> {
  const guardian = { guardianships: { some: { playerId, ...spanHolds(dayValue(today)) } } };
  const rows = await db.user.findMany({
    where: { academyId, deactivatedAt: null, OR: [guardian, { player: { id: playerId } }] },
    orderBy: [{ displayName: "asc" }, { id: "asc" }],
    select: { id: true, displayName: true, player: { select: { id: true } } },
  });
  return rows.map((row) => ({ id: row.id, name: row.displayName, isGuardian: row.player?.id !== playerId })).sort((a, b) => Number(a.isGuardian) - Number(b.isGuardian));
}

/** What a view of a player is made from. */
export const playerSelect = {
  id: true, academyId: true, givenName: true, familyName: true, birthDate: true, sport: true, bats: true, heightM: true,
  hasLeftSchool: true, leftAt: true,
  location: { select: { name: true, timeZone: true } },
  sides: { select: { side: true, isSlapper: true }, orderBy: { side: "desc" } },
  complaints: { where: { until: null }, select: { part: true }, orderBy: { since: "asc" } },
  permits: { select: { use: true, validUntil: true } },
  pauses: {
    where: openPause,
    orderBy: { startedAt: "desc" },
    select: {
      id: true, startedAt: true, coachClearedAt: true, familyClearedAt: true, clinicianSaidOn: true,
      painReport: { select: { part: true, level: true, words: true, reportedById: true } },
      incident: { select: { kind: true, part: true, words: true, firstAid: true, notedById: true } },
    },
  },
  seasons: saidSeasons,
  homeSetup: true,
} satisfies Prisma.PlayerSelect;

export type PlayerRowForView = Prisma.PlayerGetPayload<{ select: typeof playerSelect }>;
