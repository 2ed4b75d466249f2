import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError } from "@/lib/core/errors";
import { sayIn } from "@/lib/core/words/catalogue";
import { newId, type Id } from "@/lib/core/ids";
import { noticeWritten } from "@/lib/domains/roster/events";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { now, todayIn } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { goesOutAt, isOpenAt, whenWords } from "./hours/rules";
import type { MessageSubject } from "./policy";
import { closedWords } from "./rules";
import { isMinorOn, MESSAGE_NOTICE, partOf, readHeadCoaches, readPeople, readThreadPlayer, type InThread, type ThreadPlayer } from "./scope";

/** The thread of a player, made at its first message and held until the transaction ends; guardianships stay as they are until then. */
async function holdThread(tx: Transaction, player: ThreadPlayer): Promise<Id> {
  const { academyId, id: playerId } = player;
  await tx.messageThread.createMany({ data: { id: newId(), academyId, playerId, startedAt: now() }, skipDuplicates: true });
  await tx.$executeRaw`SELECT 1 FROM "MessageThread" WHERE "academyId" = ${academyId}::uuid AND "playerId" = ${playerId}::uuid FOR UPDATE`;
  await tx.$executeRaw`SELECT 1 FROM "Guardianship" WHERE "academyId" = ${academyId}::uuid AND "playerId" = ${playerId}::uuid FOR SHARE`;
  return (await tx.messageThread.findUniqueOrThrow({ where: { academyId_playerId: { academyId, playerId } }, select: { id: true } })).id;
}

/** Writes down who is in the thread now: those who left are marked so, those who came (back) are in. */
async function keepPeople(tx: Transaction, academyId: Id, threadId: Id, people: readonly InThread[]): Promise<void> {
  const rows = await tx.threadPerson.findMany({ where: { academyId, threadId }, select: { userId: true, part: true, leftAt: true } });
  const isIn = (row: { userId: Id; part: string }) => people.some(({ userId, part }) => userId === row.userId && part === row.part);
  const keyOf = ({ userId, part }: { userId: Id; part: string }) => ({ academyId_threadId_userId_part: { academyId, threadId, userId, part } });
  for (const row of rows) {
    if (isIn(row) !== (row.leftAt === null)) await tx.threadPerson.update({ where: keyOf(row), data: { leftAt: isIn(row) ? null : now() } });
  }
  const known = people.filter((person) => !rows.some(({ userId, part }) => userId === person.userId && part === person.part));
  await tx.threadPerson.createMany({ data: known.map(({ userId, part }) => ({ academyId, threadId, userId, part, joinedAt: now() })), skipDuplicates: true });
}

/** Tells everybody in the thread but the author that something waits, and no word of what. Where no coach is in it, the head coach is told. */
async function ring(tx: Transaction, player: ThreadPlayer, people: readonly InThread[], message: { id: Id; authorId: Id }): Promise<void> {
  const instead = people.some(({ part }) => part === "coach") ? [] : await readHeadCoaches(tx, player.academyId, todayIn(player.houseZone));
  const userIds = [...new Set([...people.map(({ userId }) => userId), ...instead])].filter((userId) => userId !== message.authorId);
  await tx.notice.createMany({
    data: userIds.map((userId) => ({ id: newId(), academyId: player.academyId, userId, playerId: player.id, kind: MESSAGE_NOTICE, subjectId: message.id, createdAt: now() })),
    skipDuplicates: true,
  });
  for (const userId of userIds) await tell(tx, noticeWritten, { userId }, { key: `notice ${userId}` });
}

/**
 * Keeps a message of who is in the thread. What a coach writes in quiet hours waits for their end; what the family writes is there at
 * once and rings nobody until then. The same number sent again is the same message. @returns when it goes, in words; null when it has
 */
export async function writeMessage(tx: Transaction, actor: Person, granted: Granted<PlayerSubject, "messages.write">, given: { messageId: Id; words: string }): Promise<string | null> {
  const player = await readThreadPlayer(tx, granted.id);
  const { academyId } = player;
  const threadId = await holdThread(tx, player);
  const part = partOf(actor);
  const writtenAt = now();
  const dueAt = goesOutAt(writtenAt, player.hours, player.timeZone);
  const isHeld = part === "coach" && dueAt > writtenAt;
  const goes = isHeld ? whenWords(dueAt, writtenAt, player.timeZone) : null;
  const before = await tx.message.findUnique({ where: { id: given.messageId }, select: { threadId: true, authorId: true, words: true } });
  if (before?.threadId === threadId && before.authorId === actor.userId && before.words === given.words) return goes;
  if (before) throw new ConflictError("The last message from this page was kept already. Your new text stands below: send it once more.");
  const inForce = await readPeople(tx, academyId, player.id, actor.today);
  const isIn = inForce.some((one) => one.userId === actor.userId && one.part === part);
  const people = isIn || actor.role !== "head-coach" ? inForce : [...inForce, { userId: actor.userId, name: actor.name, part }];
  if (!isIn && actor.role !== "head-coach") throw new ConflictError(NOT_IN_THREAD);
  const parts = people.map((one) => one.part);
  const say = sayIn(actor.language);
  const closed = closedWords({ ...player, isMinor: isMinorOn(player, todayIn(player.timeZone)), parts }, part, say);
  if (closed) throw new ConflictError(`${closed} ${say("Your text was not sent; it stands below.")}`);
  await keepPeople(tx, academyId, threadId, people);
  const message = { id: given.messageId, authorId: actor.userId };
  const isRung = dueAt <= writtenAt;
  await tx.message.create({
    data: { ...message, academyId, threadId, authorPart: part, words: given.words, writtenAt, dueAt, goneAt: isHeld ? null : writtenAt, rungAt: isRung ? writtenAt : null },
  });
  if (isRung) await ring(tx, player, people, message);
  await markLooked(tx, actor, granted);
  return goes;
}

/** Said to everybody who may not write (any more), so that who was in the thread a moment ago understands. */
export const NOT_IN_THREAD = "Nothing was sent: you are not in this thread now. If that is a mistake, ask the academy. Your text still stands below.";

/** Takes back what has not gone yet. It is shown to nobody then, and the row stays. */
export async function takeBackMessage(tx: Transaction, message: Granted<MessageSubject, "messages.take-back">): Promise<void> {
  const taken = await tx.message.updateMany({ where: { id: message.id, goneAt: null, takenBackAt: null }, data: { takenBackAt: now() } });
  if (taken.count === 0) throw new ConflictError("It has gone already, so it cannot be taken back. Nothing was changed.");
}

/** What the family wrote until now needs no answer. */
export async function settleThread(tx: Transaction, player: Granted<PlayerSubject, "messages.settle">): Promise<void> {
  const { academyId, id: playerId } = player;
  await tx.messageThread.updateMany({ where: { academyId, playerId }, data: { settledAt: now() } });
}

/** The actor has looked at the thread: nothing in it waits for them any more. */
export async function markLooked(tx: Transaction, actor: Person, player: { readonly academyId: Id; readonly id: Id }): Promise<void> {
  await tx.notice.updateMany({ where: { academyId: player.academyId, userId: actor.userId, playerId: player.id, kind: MESSAGE_NOTICE, readAt: null }, data: { readAt: now() } });
}

/**
 * Lets go what waited for the hours, if it is not quiet now. What a coach wrote goes only while a guardian is in a minor's thread, else
 * it waits on; it is taken back when its coach, or the player, is gone meanwhile. @returns whether anything became of it
 */
export async function sendDueMessage(tx: Transaction, subject: Granted<MessageSubject, "messages.send-due">): Promise<boolean> {
  const player = await readThreadPlayer(tx, subject.playerId);
  const threadId = await holdThread(tx, player);
  const message = await tx.message.findFirst({ where: { id: subject.id, takenBackAt: null, rungAt: null } });
  const instant = now();
  if (!message || !isOpenAt(instant, player.hours, player.timeZone)) return false;
  const people = await readPeople(tx, player.academyId, player.id, todayIn(player.houseZone));
  const parts = people.map(({ part }) => part);
  if (message.goneAt === null) {
    const isCoachIn = people.some(({ userId, part }) => userId === message.authorId && part === "coach");
    if (!isCoachIn || player.hasLeft) {
      await tx.message.update({ where: { id: message.id }, data: { takenBackAt: instant } });
      return true;
    }
    if (closedWords({ ...player, isMinor: isMinorOn(player, todayIn(player.timeZone)), parts }, "coach")) return false;
  }
  await keepPeople(tx, player.academyId, threadId, people);
  await tx.message.update({ where: { id: message.id }, data: { rungAt: instant, ...(message.goneAt === null ? { goneAt: instant } : {}) } });
  await ring(tx, player, people, message);
  return true;
}
