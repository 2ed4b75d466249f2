import { afterEach, describe, expect, test, vi } from "vitest";
import type { Person } from "@/lib/access/actor";
import { isMinor, ageYears } from "@/lib/core/age";
import { dayValue } from "@/lib/core/days";
import { newId, type Id } from "@/lib/core/ids";
import { lookAtThread, sendMessage, settleThread, takeBackMessage } from "@/lib/domains/messages/actions";
import { setHoursOfLocation } from "@/lib/domains/messages/hours/actions";
import { sendDueMessages } from "@/lib/domains/messages/jobs";
import { countNewMessages, getThread, getThreadForCoach, listUnansweredThreads } from "@/lib/domains/messages/queries";
import { tellThatSomethingWaits } from "@/lib/domains/roster/jobs";
import { database, inTransaction, type Database } from "@/lib/platform/database";
import { keptLetters } from "@/lib/platform/mail";
import { buildAssignment, buildGuardianship, buildUser } from "@/seed/builders/people";
import { buildThread } from "@/seed/builders/messages";
import { actorOf, CANARY, family } from "./practice-story";

/** Nine in the morning in Chicago, midnight in Tokyo. */
const START = Date.parse("2026-11-25T15:00:00Z");
const QUIET = "Asia/Tokyo";
/** Lets the house's clock stand so many hours later. */
const later = (hours: number) => vi.useFakeTimers({ toFake: ["Date"], now: Date.now() + hours * 3_600_000 });
afterEach(() => void vi.useRealTimers());

const write = (who: Person, playerId: Id, words: string, messageId: Id = newId()) => sendMessage.as(who, { playerId, messageId, words });
const wordsFor = async (who: Person, playerId: Id) =>
  (who.role === "coach" || who.role === "head-coach" ? await getThreadForCoach.as(who, { playerId }) : await getThread.as(who, { playerId })).messages.map(({ words }) => words);
const rungFor = (userId: Id) => database().notice.count({ where: { userId, kind: "message-waits" } });
const endAllGuardianships = (playerId: Id) => database().guardianship.updateMany({ where: { playerId }, data: { until: dayValue("2026-11-25") } });
const goOut = () => sendDueMessages.perform({}, false);

describe("one thread between the coaches and the family", () => {
  test("is read by the player, both guardians, the coach and the head coach, and everybody but the author is rung", async () => {
    const { player, odile, coach, head, playerId, users } = await family();
    const bastien = await actorOf(users.bastien, "guardian");
    expect(await write(coach, playerId, "Lesson at four tomorrow?")).toMatchObject({ message: "Sent." });
    for (const who of [player, odile, bastien, coach, head]) expect(await wordsFor(who, playerId)).toEqual(["Lesson at four tomorrow?"]);
    for (const user of [users.player, users.odile, users.bastien]) expect(await rungFor(user.id)).toBe(1);
    expect(await rungFor(users.coach.id)).toBe(0);
    const { people } = await getThread.as(player, { playerId });
    expect(people.map(({ name, part }) => `${name}, ${part}`)).toEqual(["Ines Corvane, player", "Bastien Corvane, guardian", "Odile Corvane, guardian", "Marlow Tessen, coach"]);
    await write(player, playerId, "Yes!");
    expect(await rungFor(users.odile.id)).toBe(2);
    await write(head, playerId, "I will be there too.");
    expect((await getThread.as(odile, { playerId })).people).toContainEqual({ name: "Adair Linsky", part: "coach", isMe: false });
    expect(await wordsFor(odile, playerId)).toEqual(["I will be there too.", "Yes!", "Lesson at four tomorrow?"]);
    expect(await database().threadPerson.count({ where: { thread: { playerId }, part: "guardian", leftAt: null } })).toBe(2);
  });

  test("keeps a text as it was typed, once, and says how long one may be", async () => {
    const { player, coach, playerId } = await family();
    const script = "<script>alert(1)</script> & \"so\"\n\tnext line";
    const messageId = newId();
    await write(coach, playerId, `  ${script}\n`, messageId);
    await write(coach, playerId, script, messageId);
    expect(await wordsFor(player, playerId)).toEqual([script]);
    await expect(write(coach, playerId, "another text under the same number", messageId)).rejects.toThrow("send it once more");
    await expect(write(coach, playerId, "x".repeat(2001))).rejects.toThrow("This has 2001 letters; 2000 go into one message.");
    await expect(write(coach, playerId, " \n ")).rejects.toThrow("Write something first.");
    await expect(write(coach, playerId, "a\0b")).rejects.toThrow("cannot be kept");
    await write(coach, playerId, "🥎".repeat(2000));
    expect(await database().message.count({ where: { thread: { playerId } } })).toBe(2);
  });

  test("holds no private word, no birth date, and its letter no word at all", async () => {
    const { player, odile, coach, playerId, users } = await family();
    await write(coach, playerId, "Bring the thin glove.");
    const text = JSON.stringify([await getThread.as(player, { playerId }), await getThread.as(odile, { playerId })]);
    expect(text).toContain("Bring the thin glove.");
    for (const never of [CANARY, "2014-05-05"]) expect(text).not.toContain(never);
    expect(await database().privateNote.count({ where: { words: CANARY } })).toBeGreaterThan(0);
    await tellThatSomethingWaits.perform({ userId: users.odile.id }, false);
    const letter = (await keptLetters(50)).find(({ to }) => to === users.odile.email);
    expect(letter?.text).toContain("Something new waits for you");
    for (const never of ["glove", "Ines", "Corvane", "Marlow"]) expect(`${letter?.subject} ${letter?.text}`).not.toContain(never);
  });

  test("waits for an answer until a coach writes or says that none is needed; who looked is told of nothing more", async () => {
    const { odile, coach, playerId, users } = await family();
    const unanswered = () => listUnansweredThreads.as(coach, { playerIds: [playerId] });
    expect(await unanswered()).toEqual([]);
    await database().assignment.updateMany({ where: { playerId }, data: { until: dayValue("2026-11-25") } });
    await write(odile, playerId, "May she rest today?");
    // Nobody teaches her today: the head coach is told.
    expect(await rungFor(users.head.id)).toBe(1);
    await database().assignment.updateMany({ where: { playerId }, data: { until: null } });
    expect(await unanswered()).toEqual([playerId]);
    await write(coach, playerId, "Of course.");
    expect(await unanswered()).toEqual([]);
    await write(odile, playerId, "Thanks.");
    await settleThread.as(coach, { playerId });
    expect(await unanswered()).toEqual([]);
    expect(await countNewMessages.as(odile, { playerId })).toBe(0);
    await write(coach, playerId, "See you.");
    expect(await countNewMessages.as(odile, { playerId })).toBe(1);
    await lookAtThread.as(odile, { playerId });
    expect(await countNewMessages.as(odile, { playerId })).toBe(0);
  });

  test("is asked for in as many questions for thirty messages as for two", async () => {
    const { player, coach, academyId, playerId, users } = await family();
    const people = [{ userId: users.odile.id, part: "guardian" }, { userId: users.coach.id, part: "coach" }] as const;
    const some = (count: number) => Array.from({ length: count }, (_, n) => ({ by: users.coach.id, words: `Number ${n}`, at: new Date(START - (n + 1) * 60_000).toISOString() }));
    const asked = async () => {
      let count = 0;
      const db = database().$extends({ query: { $allOperations: ({ args, query }) => (count++, query(args)) } }) as unknown as Database;
      await getThread.as(player, { playerId }, db);
      await getThreadForCoach.as(coach, { playerId }, db);
      return count;
    };
    await buildThread({ academyId, playerId, people, messages: some(2) });
    const few = await asked();
    await buildThread({ academyId, playerId, people, messages: some(40) });
    expect(await asked()).toBe(few);
    const first = await getThread.as(player, { playerId });
    const second = await getThread.as(player, { playerId, after: first.next ?? undefined });
    expect([first.messages.length, second.messages.length, second.next]).toEqual([30, 12, null]);
  });
});

describe("a minor’s guardian is always in it", () => {
  /** Puts a message and who is in its thread into the database by plain SQL, in the order that a careless program might choose. */
  const bySql = async (given: { academyId: Id; playerId: Id; authorId: Id; part: string; people: readonly (readonly [Id, string])[] }) => {
    const { academyId, playerId, authorId, part, people } = given;
    let reachedTheEnd = false;
    const done = inTransaction(async (tx) => {
      const threadId = newId();
      await tx.$executeRaw`INSERT INTO "MessageThread" ("id", "academyId", "playerId") VALUES (${threadId}::uuid, ${academyId}::uuid, ${playerId}::uuid)`;
      for (const [userId, as] of people) await tx.$executeRaw`INSERT INTO "ThreadPerson" ("academyId", "threadId", "userId", "part") VALUES (${academyId}::uuid, ${threadId}::uuid, ${userId}::uuid, ${as})`;
      await tx.$executeRaw`INSERT INTO "Message" ("id", "academyId", "threadId", "authorId", "authorPart", "words", "writtenAt", "dueAt", "goneAt") VALUES (${newId()}::uuid, ${academyId}::uuid, ${threadId}::uuid, ${authorId}::uuid, ${part}, 'psst', '2026-11-25T15:00:00Z', '2026-11-25T15:00:00Z', '2026-11-25T15:00:00Z')`;
      reachedTheEnd = true;
    });
    const refusal = await done.then(() => null, (error: unknown) => String(error instanceof Error ? error.message : error));
    return { reachedTheEnd, refusal };
  };

  test("by plain SQL too: without one in force the transaction is refused at its end, from the coach as from the child", async () => {
    const { academyId, playerId, users } = await family();
    const [coach, child, odile] = [[users.coach.id, "coach"], [users.player.id, "player"], [users.odile.id, "guardian"]] as const;
    const given = { academyId, playerId, authorId: users.coach.id, part: "coach" };
    const needs = { reachedTheEnd: true, refusal: expect.stringContaining("needs a guardian in it") as string };
    expect(await bySql({ ...given, people: [coach, child] })).toEqual(needs);
    expect(await bySql({ ...given, authorId: users.player.id, part: "player", people: [coach, child] })).toEqual(needs);
    // A stranger called a guardian is none.
    const stranger = await buildUser({ academyId, roles: ["guardian"] });
    expect(await bySql({ ...given, people: [coach, [stranger.id, "guardian"]] })).toEqual(needs);
    await database().user.update({ where: { id: users.odile.id }, data: { deactivatedAt: new Date(START) } });
    expect(await bySql({ ...given, people: [coach, odile] })).toEqual(needs);
    await database().user.update({ where: { id: users.odile.id }, data: { deactivatedAt: null } });
    await database().guardianship.updateMany({ where: { playerId, userId: users.odile.id }, data: { until: dayValue("2026-11-25") } });
    expect(await bySql({ ...given, people: [coach, odile] })).toEqual(needs);
    await database().guardianship.updateMany({ where: { playerId, userId: users.odile.id }, data: { until: null } });
    expect(await bySql({ ...given, people: [coach, odile] })).toEqual({ reachedTheEnd: true, refusal: null });
  });

  test("an adult’s thread may do without; who is not in a thread writes in none, and nothing written is edited", async () => {
    const adult = await family({ birthDate: "2000-01-01" });
    const { academyId, playerId, users } = adult;
    const coach = [users.coach.id, "coach"] as const;
    expect(await bySql({ academyId, playerId, authorId: users.coach.id, part: "coach", people: [coach] })).toMatchObject({ refusal: null });
    const { threadId } = await database().message.findFirstOrThrow({ where: { thread: { playerId } }, select: { threadId: true } });
    await database().threadPerson.updateMany({ where: { threadId, part: "coach" }, data: { leftAt: new Date(START) } });
    const again = buildThread({ academyId, playerId, people: [{ userId: users.coach.id, part: "coach" }], messages: [{ by: users.coach.id, words: "still me", at: "2026-11-25T15:00:00Z" }] });
    await expect(again).rejects.toThrow("who writes a message is in its thread");
    await expect(database().message.updateMany({ where: { threadId }, data: { words: "something else" } })).rejects.toThrow("a message is never edited");
    await expect(database().message.updateMany({ where: { threadId }, data: { goneAt: new Date(START + 1) } })).rejects.toThrow("a message is never edited");
  });

  test("the database counts birthdays as the program does", async () => {
    const days = ["2026-02-27", "2026-02-28", "2026-03-01", "2028-02-28", "2028-02-29", "2028-03-01", "2026-11-24", "2026-11-25", "2026-11-26"];
    const births = ["2008-02-28", "2008-02-29", "2008-03-01", "2010-02-28", "2010-03-01", "2008-11-25", "2008-11-26", "2000-12-31"];
    for (const birth of births) {
      for (const day of days) {
        const [row] = await database().$queryRaw<{ is: boolean }[]>`SELECT is_minor_on(${birth}::date, ${day}::date) AS "is"`;
        expect(row?.is, `${birth} on ${day}`).toBe(isMinor(ageYears(birth, day)));
      }
    }
  });

  test("the day before the eighteenth birthday it needs one, on the birthday it does not, and nobody had to write that down", async () => {
    const eve = await family({ birthDate: "2008-11-26" });
    await endAllGuardianships(eve.playerId);
    await expect(write(eve.coach, eve.playerId, "Hello")).rejects.toThrow("No guardian of Ines is linked now");
    const day = await family({ birthDate: "2008-11-25" });
    await endAllGuardianships(day.playerId);
    await write(day.coach, day.playerId, "Happy birthday!");
    expect(await wordsFor(day.player, day.playerId)).toEqual(["Happy birthday!"]);
  });

  test("when the last one leaves, nothing is sent any more, what was written stays, and it opens when one is linked", async () => {
    const { academyId, player, coach, playerId, users } = await family();
    await write(coach, playerId, "See you Thursday.");
    await database().guardianship.updateMany({ where: { playerId, userId: users.bastien.id }, data: { until: dayValue("2026-11-25") } });
    await write(player, playerId, "See you!");
    await database().user.update({ where: { id: users.odile.id }, data: { deactivatedAt: new Date(START) } });
    await expect(write(coach, playerId, "And bring a bat.")).rejects.toThrow(/No guardian of Ines is linked now.*Your text was not sent/);
    await expect(write(player, playerId, "Which bat?")).rejects.toThrow(/Please tell one at home/);
    expect(await getThread.as(player, { playerId })).toMatchObject({ closed: expect.stringContaining("What was written stays"), messages: [{ words: "See you!" }, { words: "See you Thursday." }] });
    expect((await getThreadForCoach.as(coach, { playerId })).closed).toContain("it opens by itself");
    const kim = await buildUser({ academyId, roles: ["guardian"], displayName: "Kim" });
    await buildGuardianship({ academyId, playerId, userId: kim.id });
    await write(coach, playerId, "Welcome, Kim.");
    expect(await wordsFor(await actorOf(kim, "guardian"), playerId)).toHaveLength(3);
    const left = await database().threadPerson.findMany({ where: { thread: { playerId }, leftAt: { not: null } }, select: { userId: true } });
    expect(left.map(({ userId }) => userId).sort()).toEqual([users.bastien.id, users.odile.id].sort());
  });

  test("a guardian who was removed while typing hears that nothing was sent, in the same words as any stranger", async () => {
    const { odile, playerId, users } = await family();
    await database().guardianship.updateMany({ where: { playerId, userId: users.odile.id }, data: { until: dayValue("2026-11-25") } });
    // As her page knew her, and as the next request does.
    for (const who of [odile, await actorOf(users.odile, "guardian")]) await expect(write(who, playerId, "Can we move it?")).rejects.toThrow(/you are not in this thread now.*Your text still stands below/);
    expect(await database().message.count({ where: { thread: { playerId } } })).toBe(0);
  });
});

describe("in quiet hours", () => {
  test("what a coach writes waits for their end and can be taken back until then; the family sees nothing of it before", async () => {
    const { coach, head, player, odile, playerId, users } = await family({ timeZone: QUIET });
    const [first, second] = [newId(), newId()];
    expect(await write(coach, playerId, "Good morning.", first)).toMatchObject({ message: expect.stringContaining("it goes at 8:00 AM today") });
    await write(coach, playerId, "Forget the above.", second);
    expect((await getThreadForCoach.as(head, { playerId })).messages).toMatchObject([{ waits: "Goes at 8:00 AM today", mayTakeBack: false }, { waits: "Goes at 8:00 AM today" }]);
    await takeBackMessage.as(coach, { messageId: second });
    await goOut();
    for (const who of [player, odile]) expect(await wordsFor(who, playerId)).toEqual([]);
    expect(await rungFor(users.odile.id)).toBe(0);
    later(8.1);
    await goOut();
    await goOut();
    for (const who of [player, odile, coach]) expect(await wordsFor(who, playerId)).toEqual(["Good morning."]);
    expect((await getThread.as(odile, { playerId })).messages[0]?.time).toMatch(/^8:0\d AM$/);
    expect(await rungFor(users.odile.id)).toBe(1);
    await expect(takeBackMessage.as(coach, { messageId: first })).rejects.toThrow("It has gone already");
  });

  test("what the family writes is there at once and rings nobody before they end", async () => {
    const { coach, odile, player, playerId, users } = await family({ timeZone: QUIET });
    await write(player, playerId, "I cannot sleep.");
    for (const who of [coach, odile]) expect(await wordsFor(who, playerId)).toEqual(["I cannot sleep."]);
    await goOut();
    expect(await rungFor(users.coach.id) + (await rungFor(users.odile.id))).toBe(0);
    later(8.1);
    await goOut();
    expect([await rungFor(users.coach.id), await rungFor(users.odile.id), await rungFor(users.player.id)]).toEqual([1, 1, 0]);
  });

  test("what waits does not go while no guardian is linked, and never when its coach is gone meanwhile", async () => {
    const { academyId, coach, player, playerId, users } = await family({ timeZone: QUIET });
    const vesna = await buildUser({ academyId, roles: ["coach"], displayName: "Vesna" });
    const { id: assignmentId } = await buildAssignment({ academyId, playerId, userId: vesna.id });
    await write(coach, playerId, "See you at four.");
    await write(await actorOf(vesna, "coach"), playerId, "From Vesna.");
    await database().assignment.update({ where: { id: assignmentId }, data: { until: dayValue("2026-11-25") } });
    await endAllGuardianships(playerId);
    later(8.1);
    await goOut();
    expect(await wordsFor(player, playerId)).toEqual([]);
    expect((await getThreadForCoach.as(coach, { playerId })).messages).toMatchObject([{ words: "See you at four.", waits: "Waits: nobody of the family can get it now" }]);
    // Whoever tried to let it go by hand is refused too.
    await expect(database().message.updateMany({ where: { thread: { playerId }, authorId: users.coach.id }, data: { goneAt: new Date() } })).rejects.toThrow("needs a guardian in it");
    await database().guardianship.updateMany({ where: { playerId, userId: users.odile.id }, data: { until: null } });
    await goOut();
    expect(await wordsFor(player, playerId)).toEqual(["See you at four."]);
  });

  test("they are what the office says for a location", async () => {
    const { academyId, coach, odile, playerId } = await family({ timeZone: QUIET });
    const office = await actorOf(await buildUser({ academyId, roles: ["admin"] }), "admin");
    const { locationId } = await database().player.findUniqueOrThrow({ where: { id: playerId } });
    await expect(setHoursOfLocation.as(office, { locationId, opensHour: 9, closesHour: 9 })).rejects.toThrow("must end after they begin");
    await setHoursOfLocation.as(office, { locationId, opensHour: 0, closesHour: 24 });
    expect(await write(coach, playerId, "Up late?")).toMatchObject({ message: "Sent." });
    expect(await getThread.as(odile, { playerId })).toMatchObject({ hours: "midnight to midnight", goesAt: null, messages: [{ words: "Up late?" }] });
  });
});
