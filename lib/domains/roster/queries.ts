import { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy, signedIn } from "@/lib/access/guard";
import { ageYears } from "@/lib/core/age";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { dayOf, dayValue } from "@/lib/core/days";
import { todayIn } from "@/lib/platform/clock";
import type { Database, Prisma } from "@/lib/platform/database";
import { editPlayer, listRoster, manageRoster, seeConsents, seeCoaches, seePlayer, switchPlayer } from "./policy";
import { holdsOn, type Bats, type BodyPart, type ConsentUse, type Sport } from "./rules";
import { listNoticesForm, listPlayersForm, playerIdForm } from "./schema";
import { findPlayerSubject, openPause, playerSelect, playersScope, spanHolds, type PlayerRowForView } from "./scope";
import {
  homeView, playerFacts, playerView,
  type CoachOption, type ConsentView, type FamilyPlayer, type NoticeView, type PlayerFacts, type PlayerPage, type PlayerRecord, type PlayerView,
} from "./view";

const PAGE_ROWS = 50;
const nothing = z.object({});
const subjectOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

async function readPlayer(db: Database, playerId: Id): Promise<PlayerRowForView> {
  const row = await db.player.findUnique({ where: { id: playerId }, select: playerSelect });
  if (!row) throw new NotFoundError("player");
  return row;
}

async function namesOf(db: Database, academyId: Id, userIds: readonly (Id | null)[]): Promise<Map<Id, string>> {
  const ids = [...new Set(userIds.filter((id) => id !== null))];
  const users = await db.user.findMany({ where: { academyId, id: { in: ids } }, select: { id: true, displayName: true } });
  return new Map(users.map((user) => [user.id, user.displayName]));
}

async function viewOf(db: Database, actor: Person, playerId: Id): Promise<{ row: PlayerRowForView; view: PlayerView }> {
  const row = await readPlayer(db, playerId);
  const names = await namesOf(db, row.academyId, row.pauses.map(({ painReport, incident }) => painReport?.reportedById ?? incident?.notedById ?? null));
  return { row, view: playerView(row, actor, todayIn(row.location.timeZone), names) };
}

/** One player, as everybody who may know of the player sees one. */
export const getPlayer = defineQuery({
  name: "roster.get-player",
  input: playerIdForm,
  policy: may(seePlayer, subjectOf),
  run: async ({ actor, granted, db }): Promise<PlayerView> => (await viewOf(db, actor, granted.id)).view,
});

/** What drills, bands and limits depend on, today at the player's location. */
export const getPlayerFacts = defineQuery({
  name: "roster.get-player-facts",
  input: playerIdForm,
  policy: may(seePlayer, subjectOf),
  run: async ({ granted, db }): Promise<PlayerFacts> => {
    const row = await readPlayer(db, granted.id);
    return playerFacts(row, todayIn(row.location.timeZone));
  },
});

/** Whether swings stop for this player now. */
export const isPaused = defineQuery({
  name: "roster.is-paused",
  input: playerIdForm,
  policy: may(seePlayer, subjectOf),
  run: async ({ granted, db }): Promise<boolean> =>
    (await db.pause.count({ where: { academyId: granted.academyId, playerId: granted.id, ...openPause } })) > 0,
});

function searchWhere(search: string): Prisma.PlayerWhereInput {
  // What stands for "anything" in the database's patterns stands for itself here.
  const words = search.split(/\s+/).filter(Boolean).map((word) => word.replace(/[\\%_]/g, "\\$&"));
  return {
    AND: words.map((word) => ({
      OR: [{ givenName: { contains: word, mode: "insensitive" as const } }, { familyName: { contains: word, mode: "insensitive" as const } }],
    })),
  };
}

/** The roster, by family name: the players whom the actor may know of. */
export const listPlayers = defineQuery({
  name: "roster.list-players",
  input: listPlayersForm,
  policy: mayInAcademy<z.infer<typeof listPlayersForm>, "roster.list">(listRoster),
  run: async ({ actor, input, db }): Promise<PlayerPage> => {
    const holds = spanHolds(dayValue(actor.today));
    const found = await db.player.findMany({
      where: { AND: [playersScope(actor), searchWhere(input.search), { leftAt: input.hasLeft ? { not: null } : null }] },
      orderBy: [{ familyName: "asc" }, { givenName: "asc" }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: {
        id: true, givenName: true, familyName: true, birthDate: true, sport: true, bats: true,
        location: { select: { timeZone: true } },
        assignments: { where: holds, select: { user: { select: { displayName: true } } } },
        permits: { where: { use: "lesson" }, select: { validUntil: true } },
        _count: { select: { guardianships: { where: holds }, pauses: { where: openPause } } },
      },
    });
    const rows = found.slice(0, PAGE_ROWS).map((row) => {
      const today = todayIn(row.location.timeZone);
      return {
        id: row.id,
        name: `${row.givenName} ${row.familyName}`,
        ageYears: ageYears(dayOf(row.birthDate), today),
        sport: row.sport as Sport,
        bats: row.bats as Bats,
        coachNames: row.assignments.map(({ user }) => user.displayName),
        guardianCount: row._count.guardianships,
        isPaused: row._count.pauses > 0,
        mayBeFilmed: row.permits.some((permit) => dayOf(permit.validUntil) > today),
      };
    });
    return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});

/** The players between whom the portal of this login switches: a guardian's children, or a player's own record. */
export const getFamilyPlayers = defineQuery({
  name: "roster.get-family-players",
  input: nothing,
  policy: mayInAcademy(switchPlayer),
  run: async ({ actor, db }): Promise<FamilyPlayer[]> => {
    const rows = await db.player.findMany({
      where: playersScope(actor),
      orderBy: [{ givenName: "asc" }, { id: "asc" }],
      select: { id: true, givenName: true, familyName: true },
    });
    return rows.map((row) => ({ id: row.id, givenName: row.givenName, name: `${row.givenName} ${row.familyName}` }));
  },
});

async function readConsents(db: Database, academyId: Id, playerId: Id, today: string): Promise<ConsentView[]> {
  const rows = await db.consent.findMany({ where: { academyId, playerId }, orderBy: [{ givenOn: "desc" }, { id: "asc" }], take: 100 });
  const names = await namesOf(db, academyId, rows.map((row) => row.givenById));
  return rows.map((row) => ({
    id: row.id,
    use: row.use as ConsentUse,
    givenOn: dayOf(row.givenOn),
    validUntil: dayOf(row.validUntil),
    givenBy: row.givenById ? (names.get(row.givenById) ?? null) : null,
    method: row.method === "paper" ? "paper" : "signed-in",
    isWithdrawn: row.withdrawnAt !== null,
    isValid: row.withdrawnAt === null && dayOf(row.validUntil) > today,
  }));
}

/** Everything that was said yes to for a player, newest first. */
export const listConsents = defineQuery({
  name: "roster.list-consents",
  input: playerIdForm,
  policy: may(seeConsents, subjectOf),
  run: async ({ granted, db }): Promise<ConsentView[]> => {
    const { location } = await readPlayer(db, granted.id);
    return readConsents(db, granted.academyId, granted.id, todayIn(location.timeZone));
  },
});

/** The office's page of one player. */
export const getPlayerRecord = defineQuery({
  name: "roster.get-player-record",
  input: playerIdForm,
  policy: may(editPlayer, subjectOf),
  run: async ({ actor, granted, db }): Promise<PlayerRecord> => {
    const { row, view } = await viewOf(db, actor, granted.id);
    const related = await db.player.findUniqueOrThrow({
      where: { id: granted.id },
      select: {
        user: { select: { email: true, userName: true } },
        guardianships: { orderBy: [{ from: "desc" }, { id: "asc" }], include: { user: { select: { displayName: true, email: true, passwordHash: true } } } },
        assignments: { orderBy: [{ from: "desc" }, { id: "asc" }], include: { user: { select: { displayName: true } } } },
        complaints: { where: { until: null }, orderBy: [{ since: "asc" }, { id: "asc" }] },
      },
    });
    const span = (found: { id: Id; userId: Id; from: Date; until: Date | null; user: { displayName: string } }) => {
      const days = { from: dayOf(found.from), until: found.until ? dayOf(found.until) : null };
      return { id: found.id, userId: found.userId, name: found.user.displayName, ...days, isNow: holdsOn(days, actor.today) };
    };
    return {
      player: view,
      familyName: row.familyName,
      birthDate: dayOf(row.birthDate),
      hasLeftSchool: row.hasLeftSchool,
      login: related.user ? { email: related.user.email, userName: related.user.userName } : null,
      guardians: related.guardianships.map((found) => ({
        ...span(found), relation: found.relation, email: found.user.email, hasSignedUp: found.user.passwordHash !== null,
      })),
      coaches: related.assignments.map(span),
      consents: await readConsents(db, granted.academyId, granted.id, todayIn(row.location.timeZone)),
      complaints: related.complaints.map((found) => ({ id: found.id, part: found.part as BodyPart, since: dayOf(found.since) })),
      home: homeView(row.homeSetup),
    };
  },
});

/** Who coaches today, with how many players: to assign and to hand over. */
export const listCoaches = defineQuery({
  name: "roster.list-coaches",
  input: nothing,
  policy: mayInAcademy(seeCoaches),
  run: async ({ actor, db }): Promise<CoachOption[]> => {
    const holds = spanHolds(dayValue(actor.today));
    const users = await db.user.findMany({
      where: { academyId: actor.academyId, deactivatedAt: null, roles: { some: { role: { in: ["coach", "head-coach"] }, ...holds } } },
      orderBy: [{ displayName: "asc" }, { id: "asc" }],
      select: { id: true, displayName: true, _count: { select: { assignments: { where: holds } } } },
    });
    return users.map((user) => ({ userId: user.id, name: user.displayName, playerCount: user._count.assignments }));
  },
});

/** The places where players train. */
export const listLocations = defineQuery({
  name: "roster.list-locations",
  input: nothing,
  policy: mayInAcademy(manageRoster),
  run: async ({ actor, db }): Promise<{ id: Id; name: string }[]> =>
    db.location.findMany({ where: { academyId: actor.academyId }, orderBy: [{ name: "asc" }, { id: "asc" }], select: { id: true, name: true } }),
});

/** What waits for the person who is signed in, newest first; of a player whom the person no longer sees, nothing. */
export const listNotices = defineQuery({
  name: "roster.list-notices",
  input: listNoticesForm,
  policy: signedIn<z.infer<typeof listNoticesForm>>("everybody reads the notices that are addressed to them"),
  run: async ({ actor, input, db }): Promise<{ rows: NoticeView[]; next: Id | null }> => {
    const found = await db.notice.findMany({
      where: { academyId: actor.academyId, userId: actor.userId, player: playersScope(actor) },
      orderBy: [{ createdAt: "desc" }, { id: "desc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      include: { player: { select: { givenName: true, familyName: true } } },
    });
    const rows = found.slice(0, PAGE_ROWS).map((row) => ({
      id: row.id,
      kind: row.kind,
      playerId: row.playerId,
      playerName: `${row.player.givenName} ${row.player.familyName}`,
      subjectId: row.subjectId,
      at: row.createdAt.toISOString(),
      isRead: row.readAt !== null,
    }));
    return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});
