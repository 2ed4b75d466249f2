import { isPerson, type Actor, type Person } from "@/lib/access/actor";
import { ageYears, isMinor } from "@/lib/core/age";
import { dayOf, dayValue } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import { playersScope, spanHolds } from "@/lib/domains/roster/scope";
import type { Database, Prisma } from "@/lib/platform/database";
import type { ContactHours } from "./hours/rules";
import { hoursOf } from "./hours/scope";
import type { MessageSubject } from "./policy";
import type { Part } from "./rules";

/** What the notice of a message is called. */
export const MESSAGE_NOTICE = "message-waits";

/** Messages that the family may read: those that have gone. */
export const goneMessages = { goneAt: { not: null }, takenBackAt: null } satisfies Prisma.MessageWhereInput;
/** Messages that coaches may read: also those that still wait. */
export const keptMessages = { takenBackAt: null } satisfies Prisma.MessageWhereInput;

/** The players whose threads the actor answers. */
export function answeredPlayersScope(actor: Actor): Prisma.PlayerWhereInput {
  const isCoach = isPerson(actor) && (actor.role === "coach" || actor.role === "head-coach");
  return isCoach ? playersScope(actor) : { id: { in: [] } };
}

/** As what somebody acts in a thread. */
export function partOf(person: Person): Part {
  return person.role === "player" || person.role === "guardian" ? person.role : "coach";
}

/** What a thread needs to know of its player. */
export interface ThreadPlayer {
  readonly id: Id;
  readonly academyId: Id;
  readonly givenName: string;
  readonly name: string;
  readonly hasLeft: boolean;
  readonly birthDate: string;
  /** Where the player trains; the academy's own zone, in which spans of days are judged. */
  readonly timeZone: string;
  readonly houseZone: string;
  readonly hours: ContactHours;
}

export async function readThreadPlayer(db: Database, playerId: Id): Promise<ThreadPlayer> {
  const { location, birthDate, leftAt, familyName, ...row } = await db.player.findUniqueOrThrow({
    where: { id: playerId },
    select: {
      id: true, academyId: true, givenName: true, familyName: true, birthDate: true, leftAt: true,
      location: { select: { timeZone: true, contactHours: { select: { opensHour: true, closesHour: true } }, academy: { select: { timeZone: true } } } },
    },
  });
  return {
    ...row, name: `${row.givenName} ${familyName}`, hasLeft: leftAt !== null, birthDate: dayOf(birthDate),
    timeZone: location.timeZone, houseZone: location.academy.timeZone, hours: hoursOf(location.contactHours),
  };
}

/** Whether the player is a minor on a day at the location: worked out each time, kept nowhere. */
export function isMinorOn(player: ThreadPlayer, day: string): boolean {
  return isMinor(ageYears(player.birthDate, day));
}

export interface InThread {
  readonly userId: Id;
  readonly name: string;
  readonly part: Part;
}

/**
 * Who is in a player's thread on a day (of the academy's zone): the player with a sign-in, guardians and coaches in force, and a head coach who wrote in it. Nobody
 * whose sign-in is closed or who no longer holds the role.
 */
export async function readPeople(db: Database, academyId: Id, playerId: Id, day: string): Promise<InThread[]> {
  const holds = spanHolds(dayValue(day));
  const inRole = (...roles: string[]) => ({ roles: { some: { role: { in: roles }, ...holds } } });
  const player = { player: { id: playerId }, ...inRole("player") };
  const guardian = { guardianships: { some: { playerId, ...holds } }, ...inRole("guardian") };
  const coach = {
    OR: [
      { assignments: { some: { playerId, ...holds } }, ...inRole("coach", "head-coach") },
      { threadParts: { some: { part: "coach", thread: { playerId } } }, ...inRole("head-coach") },
    ],
  };
  const found = async (part: Part, where: Prisma.UserWhereInput) =>
    (await db.user.findMany({ where: { academyId, deactivatedAt: null, AND: [where] }, orderBy: [{ displayName: "asc" }, { id: "asc" }], select: { id: true, displayName: true } }))
      .map(({ id, displayName }) => ({ userId: id, name: displayName, part }));
  return [...(await found("player", player)), ...(await found("guardian", guardian)), ...(await found("coach", coach))];
}

export async function readHeadCoaches(db: Database, academyId: Id, day: string): Promise<Id[]> {
  const rows = await db.user.findMany({ where: { academyId, deactivatedAt: null, roles: { some: { role: "head-coach", ...spanHolds(dayValue(day)) } } }, orderBy: { id: "asc" }, select: { id: true } });
  return rows.map(({ id }) => id);
}

export async function findMessageSubject(db: Database, academyId: Id, messageId: Id): Promise<MessageSubject | null> {
  const found = await db.message.findFirst({
    where: { id: messageId, academyId, ...keptMessages },
    select: { id: true, academyId: true, threadId: true, authorId: true, authorPart: true, thread: { select: { playerId: true } } },
  });
  if (!found) return null;
  const { thread, authorPart, ...message } = found;
  return { ...message, playerId: thread.playerId, authorPart: authorPart as Part };
}

/** Messages of all academies for which it is time, the longest waiting first. */
export async function readDue(db: Database, instant: Date): Promise<MessageSubject[]> {
  const rows = await db.message.findMany({
    where: { ...keptMessages, rungAt: null, dueAt: { lte: instant } },
    orderBy: [{ dueAt: "asc" }, { id: "asc" }],
    take: 500,
    select: { id: true, academyId: true, threadId: true, authorId: true, authorPart: true, thread: { select: { playerId: true } } },
  });
  return rows.map(({ thread, authorPart, ...message }) => ({ ...message, playerId: thread.playerId, authorPart: authorPart as Part }));
}

/** What a message's view is made from. */
export const messageSelect = {
  id: true, authorId: true, authorPart: true, words: true, writtenAt: true, dueAt: true, goneAt: true,
  author: { select: { user: { select: { displayName: true } } } },
} satisfies Prisma.MessageSelect;
export type MessageRow = Prisma.MessageGetPayload<{ select: typeof messageSelect }>;
