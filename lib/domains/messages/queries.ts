import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { sayIn } from "@/lib/core/words/catalogue";
import type { Id } from "@/lib/core/ids";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import { now, todayIn } from "@/lib/platform/clock";
import type { Database, Prisma } from "@/lib/platform/database";
import { goesOutAt, sayHour, whenWords } from "./hours/rules";
import { listUnanswered, readAsCoach, readAsFamily } from "./policy";
import { closedWords } from "./rules";
import { listUnansweredForm, playerIdForm, threadForm } from "./schema";
import {
  answeredPlayersScope, goneMessages, isMinorOn, keptMessages, MESSAGE_NOTICE, messageSelect, partOf, readPeople, readThreadPlayer, type MessageRow, type ThreadPlayer,
} from "./scope";
import { coachMessageView, messageView, type CoachThreadView, type MessageView, type ThreadView } from "./view";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = <Input extends { playerId: Id }>(input: Input, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const PAGE_ROWS = 30;

/** Everything about a thread but its messages, in a fixed number of questions. */
async function readFrame(db: Database, actor: Person, player: ThreadPlayer): Promise<Omit<ThreadView, "messages" | "next">> {
  const say = sayIn(actor.language);
  const part = partOf(actor);
  const people = await readPeople(db, player.academyId, player.id, actor.today);
  const isMinor = isMinorOn(player, todayIn(player.timeZone));
  const [instant, { opensHour, closesHour }] = [now(), player.hours];
  const goesAt = goesOutAt(instant, player.hours, player.timeZone);
  return {
    playerId: player.id,
    playerName: player.name,
    givenName: player.givenName,
    isMinor,
    people: people.map((one) => ({ name: one.name, part: one.part, isMe: one.userId === actor.userId && one.part === part })),
    closed: closedWords({ ...player, isMinor, parts: people.map((one) => one.part) }, part, say),
    hours: say("{from} to {to}", { from: sayHour(opensHour, say), to: sayHour(closesHour, say) }),
    goesAt: goesAt > instant ? whenWords(goesAt, instant, player.timeZone, say) : null,
    hasNew: (await countNew(db, actor, player)) > 0,
  };
}

const countNew = (db: Database, actor: Person, { academyId, id: playerId }: { academyId: Id; id: Id }) =>
  db.notice.count({ where: { academyId, userId: actor.userId, playerId, kind: MESSAGE_NOTICE, readAt: null } });

async function readMessages(db: Database, player: ThreadPlayer, after: Id | undefined, where: Prisma.MessageWhereInput): Promise<{ rows: MessageRow[]; next: Id | null }> {
  const found = await db.message.findMany({
    where: { AND: [where, { academyId: player.academyId, thread: { playerId: player.id } }] },
    // What still waits stands first, then what reached people last.
    orderBy: [{ goneAt: { sort: "desc", nulls: "first" } }, { writtenAt: "desc" }, { id: "asc" }],
    take: PAGE_ROWS + 1,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
    select: messageSelect,
  });
  const rows = found.slice(0, PAGE_ROWS);
  return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
}

/** A player's thread as the family reads it: what has gone, and who is in it. */
export const getThread = defineQuery({
  name: "messages.get-thread",
  input: threadForm,
  policy: may<In<typeof threadForm>, PlayerSubject, "messages.read-as-family">(readAsFamily, playerOf),
  run: async ({ actor, input, granted, db }): Promise<ThreadView> => {
    const player = await readThreadPlayer(db, granted.id);
    const reader = { userId: actor.userId, part: partOf(actor), timeZone: player.timeZone };
    const { rows, next } = await readMessages(db, player, input.after, goneMessages);
    return { ...(await readFrame(db, actor, player)), messages: rows.map((row): MessageView => messageView(row, reader)), next };
  },
});

/** The same as coaches read it, with what still waits. */
export const getThreadForCoach = defineQuery({
  name: "messages.get-thread-for-coach",
  input: threadForm,
  policy: may<In<typeof threadForm>, PlayerSubject, "messages.read-as-coach">(readAsCoach, playerOf),
  run: async ({ actor, input, granted, db }): Promise<CoachThreadView> => {
    const player = await readThreadPlayer(db, granted.id);
    const reader = { userId: actor.userId, part: partOf(actor), timeZone: player.timeZone };
    const { rows, next } = await readMessages(db, player, input.after, keptMessages);
    const messages = rows.map((row) => coachMessageView(row, reader, now()));
    return { ...(await readFrame(db, actor, player)), messages, next, isUnanswered: (await readUnanswered(db, { id: player.id, academyId: player.academyId })).length > 0 };
  },
});

/** Players whose family wrote last, and of whom nobody said that it needs no answer. An answer that still waits to go is one. */
async function readUnanswered(db: Database, players: Prisma.PlayerWhereInput): Promise<Id[]> {
  const threads = await db.messageThread.findMany({ where: { player: players }, orderBy: { id: "asc" }, select: { id: true, playerId: true, settledAt: true } });
  const last = await db.message.groupBy({ by: ["threadId", "authorPart"], where: { threadId: { in: threads.map(({ id }) => id) }, ...keptMessages }, _max: { writtenAt: true } });
  return threads.flatMap(({ id, playerId, settledAt }) => {
    const times = (isCoach: boolean) => last.filter((row) => row.threadId === id && (row.authorPart === "coach") === isCoach).map((row) => row._max.writtenAt?.getTime() ?? 0);
    return Math.max(0, ...times(false)) > Math.max(settledAt?.getTime() ?? 0, ...times(true)) ? [playerId] : [];
  });
}

/** Of these players, those whose family waits for an answer; of who is not taught by the actor, nothing. */
export const listUnansweredThreads = defineQuery({
  name: "messages.list-unanswered",
  input: listUnansweredForm,
  policy: mayInAcademy<In<typeof listUnansweredForm>, "messages.list-unanswered">(listUnanswered),
  run: async ({ actor, input, db }): Promise<Id[]> => readUnanswered(db, { AND: [answeredPlayersScope(actor), { id: { in: input.playerIds } }] }),
});

/** How many messages about a player wait for somebody of the family. */
export const countNewMessages = defineQuery({
  name: "messages.count-new",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "messages.read-as-family">(readAsFamily, playerOf),
  run: async ({ actor, granted, db }): Promise<number> => countNew(db, actor, granted),
});
