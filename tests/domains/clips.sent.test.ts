import { readFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import type { Person, Role } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { addMark, cancelUpload } from "@/lib/domains/clips/actions";
import { moveSwing } from "@/lib/domains/clips/owner/actions";
import { showStill, streamSteppingCopy } from "@/lib/domains/clips/routes";
import { answerSent, beginSent } from "@/lib/domains/clips/sent/actions";
import { remindOfWaiting } from "@/lib/domains/clips/sent/jobs";
import { findFreshAnswer, findSentOf, getSending, getSent, listWaitingClips } from "@/lib/domains/clips/sent/queries";
import { eraseClip } from "@/lib/domains/clips/erasing/actions";
import { clearPauseAsCoach, clearPauseAsFamily, reportPain, withdrawConsent } from "@/lib/domains/roster/actions";
import { sendWalkthrough, takeBackWalkthrough } from "@/lib/domains/walkthroughs/actions";
import { hoursBefore } from "@/lib/domains/clips/arriving/rules";
import { now } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildClip, createBytes, facts, patchBytes, work } from "./clip-story";
import { filmRoom } from "./video-files";
import { listOver } from "./walkthrough-story";

const room = filmRoom();
afterAll(room.remove);

async function as(academyId: Id, userId: Id, role: Role): Promise<Person> {
  const actor = await findActor((await buildSession({ academyId, userId, activeRole: role })).id);
  if (actor.kind !== "person") throw new Error("nobody signed in");
  return actor;
}

/** Pia with her mother, her coach and the head coach. */
async function family() {
  const { id: playerId, academyId } = await buildPlayer({ givenName: "Pia", birthDate: "2014-05-05" });
  const made = async (role: Role) => (await buildUser({ academyId, roles: [role] })).id;
  const ids = { player: await made("player"), mother: await made("guardian"), coach: await made("coach"), head: await made("head-coach") };
  await database().player.update({ where: { id: playerId }, data: { userId: ids.player } });
  const assignment = await buildAssignment({ academyId, playerId, userId: ids.coach });
  await buildGuardianship({ academyId, playerId, userId: ids.mother });
  await buildConsent({ academyId, playerId, recordedById: ids.head, givenById: ids.mother });
  return {
    academyId, playerId, ids, assignmentId: assignment.id,
    player: await as(academyId, ids.player, "player"), mother: await as(academyId, ids.mother, "guardian"), coach: await as(academyId, ids.coach, "coach"), head: await as(academyId, ids.head, "head-coach"),
  };
}
type Family = Awaited<ReturnType<typeof family>>;

const said = { side: "right", view: "side", task: "tee", filmedRate: "as-file", words: "Is my belt first now?" } as const;
const begin = async (who: Person, playerId: Id, more: object = {}) => (await beginSent.as(who, { playerId, ...said, byteLength: 10, ...more } as never)).data as { uploadId: Id; swingId: Id | null };

/** A clip that the player sent and that is here, as rows; its film came so many hours ago. */
async function sentClip({ academyId, playerId, ids }: Family, hoursAgo = 1) {
  const clip = await buildClip({ academyId, playerId, userId: ids.player });
  const at = hoursBefore(now(), hoursAgo);
  const { id: uploadId } = await database().upload.create({ data: { id: newId(), academyId, playerId, userId: ids.player, facts, byteLength: 10n, state: "ready", clipId: clip.clipId, fileId: clip.fileId, finishedAt: at } });
  const { id: sentId } = await database().sentClip.create({ data: { id: newId(), academyId, playerId, uploadId, sentById: ids.player, words: "Look?", sentAt: at } });
  return { ...clip, uploadId, sentId };
}
const stateOf = async ({ mother, playerId }: Family, sentId: Id) => (await getSending.as(mother, { playerId })).rows.find(({ id }) => id === sentId)?.state;
const answer = (sent: { sentId: Id; clipId: Id }, more: object = {}) => ({ sentId: sent.sentId, clipId: sent.clipId, frameIndex: 7, words: "Belt first. That is it.", ...more });
const noticesOf = async (kind: string, subjectId: Id) => (await database().notice.findMany({ where: { kind, subjectId }, select: { userId: true } })).map(({ userId }) => userId).sort();
const ask = (query: string, init: RequestInit = {}) => new Request(`http://cage.test/${query}`, init);

describe("a clip that a family sends", () => {
  test("goes the way of every film, and is on its way, received, looked at when a coach opens the film, and answered", async () => {
    const all = await family();
    const bytes = new Uint8Array(readFileSync(room.plain("sent.mp4")));
    const { uploadId } = await begin(all.player, all.playerId, { byteLength: bytes.length });
    const { id: sentId } = await database().sentClip.findUniqueOrThrow({ where: { uploadId } });
    expect(await stateOf(all, sentId)).toBe("on-its-way");
    expect((await createBytes(all.player, uploadId, bytes.length)).status).toBe(201);
    expect((await patchBytes(all.mother, uploadId, 0, bytes)).status, "another of the family is not who sends").toBe(404);
    expect((await patchBytes(all.player, uploadId, 0, bytes)).status).toBe(204);
    expect(await work(uploadId)).toEqual({ is: "done" });
    expect(await stateOf(all, sentId)).toBe("received");
    const [waiting] = await listWaitingClips.as(all.coach, {});
    expect(waiting).toMatchObject({ id: sentId, playerName: expect.stringContaining("Pia"), words: "Is my belt first now?", isLookedAt: false });
    const clipId = waiting!.clipId;
    // The family looks at its own clip, and the coach at a picture of it in a list: neither has opened it for an answer.
    await streamSteppingCopy.as(all.mother, ask("x"), { clipId });
    await showStill.as(all.coach, ask("x"), { clipId, frameIndex: "3" });
    expect(await stateOf(all, sentId)).toBe("received");
    expect((await streamSteppingCopy.as(all.coach, ask("x", { headers: { range: "bytes=0-9" } }), { clipId })).status).toBe(206);
    expect(await stateOf(all, sentId)).toBe("looked-at");
    await addMark.as(all.coach, { clipId, frameIndex: 7, shape: { v: 1, kind: "ring", cx: 9, cy: 9, rx: 4, ry: 4 } });
    const { message } = await answerSent.as(all.coach, answer({ sentId, clipId }));
    expect(message).toMatch(/^Sent to /);
    const view = await getSent.as(all.player, { sentId });
    expect(view).toMatchObject({ state: "answered", answer: "Belt first. That is it.", still: { clipId, frameIndex: 7, marks: [{ kind: "ring" }] } });
    expect((await showStill.as(all.player, ask("x"), { clipId, frameIndex: "7" })).status).toBe(200);
    expect(await noticesOf("clip-answered", sentId)).toEqual([all.ids.player, all.ids.mother].sort());
    expect(await listWaitingClips.as(all.coach, {})).toEqual([]);
  });

  test("is refused while it hurts, kindly, and can be sent once both have cleared it", async () => {
    const all = await family();
    await reportPain.as(all.player, { playerId: all.playerId, part: "knee", level: 3, words: "" } as never);
    await expect(begin(all.player, all.playerId)).rejects.toThrow(/^It hurts: no swings until .* Nobody is cross\. Nothing was sent\.$/);
    expect((await getSending.as(all.player, { playerId: all.playerId })).whyNot).toMatch(/^It hurts/);
    const pause = await database().pause.findFirstOrThrow({ where: { playerId: all.playerId } });
    await clearPauseAsCoach.as(all.coach, { playerId: all.playerId, pauseId: pause.id });
    await expect(begin(all.player, all.playerId)).rejects.toThrow("It hurts");
    await clearPauseAsFamily.as(all.mother, { playerId: all.playerId, pauseId: pause.id });
    await begin(all.player, all.playerId);
  });

  test("is not begun, not taken in and not shown without a consent in force", async () => {
    const all = await family();
    const file = room.plain("consent.mp4", { seed: 4 });
    const bytes = new Uint8Array(readFileSync(file));
    const { uploadId } = await begin(all.mother, all.playerId, { byteLength: bytes.length });
    await createBytes(all.mother, uploadId, bytes.length);
    await patchBytes(all.mother, uploadId, 0, bytes);
    const sent = await sentClip(all);
    await answerSent.as(all.coach, answer(sent));
    const other = await sentClip(all);
    await withdrawConsent.as(all.mother, { playerId: all.playerId, use: "lesson" });
    await work(uploadId);
    expect(await database().upload.findUniqueOrThrow({ where: { id: uploadId } })).toMatchObject({ state: "refused", clipId: null, refusal: expect.stringContaining("ended while the video was on its way. Nothing of it was kept") });
    await expect(begin(all.mother, all.playerId)).rejects.toThrow("There is no yes to filming now");
    const view = await getSent.as(all.mother, { sentId: sent.sentId });
    expect([view.posterUrl, view.filmUrl, view.still?.url]).toEqual([null, null, null]);
    expect((await streamSteppingCopy.as(all.mother, ask("x"), { clipId: sent.clipId })).status).toBe(404);
    expect(await listWaitingClips.as(all.coach, {})).toEqual([]);
    await expect(answerSent.as(all.coach, answer(other))).rejects.toThrow("no such");
  });

  test("is one of five in seven days, is not too large, and is sent once", async () => {
    const all = await family();
    const bytes = 10;
    const contentHash = "a".repeat(64);
    const clip = await buildClip({ ...all, userId: all.ids.coach, contentHash });
    expect((await begin(all.player, all.playerId, { contentHash })).swingId).toBe(clip.swingId);
    await expect(begin(all.mother, all.playerId, { contentHash })).rejects.toThrow("you sent it before");
    await expect(begin(all.player, all.playerId, { byteLength: 300_000_001 })).rejects.toThrow("larger than 300 MB. Nothing was sent. Film one swing");
    for (let i = 1; i < 5; i++) await begin(all.player, all.playerId, { byteLength: bytes + i });
    await expect(begin(all.mother, all.playerId, { byteLength: 99 })).rejects.toThrow("5 clips in seven days are the most");
    expect(await database().sentClip.count({ where: { playerId: all.playerId } })).toBe(5);
    const last = await database().sentClip.findFirstOrThrow({ where: { playerId: all.playerId, upload: { state: "receiving" } } });
    await expect(cancelUpload.as(all.mother, { uploadId: last.uploadId }), "who did not send it does not take it back").rejects.toThrow("no such");
    await cancelUpload.as(all.player, { uploadId: last.uploadId });
    await begin(all.mother, all.playerId, { byteLength: 99 });
  });

  test("is nothing to another family, to a coach who is no longer assigned, and to a model's watcher", async () => {
    const [all, others] = [await family(), await family()];
    const sent = await sentClip(all);
    await expect(getSent.as(others.mother, { sentId: sent.sentId })).rejects.toThrow("no such");
    await expect(getSending.as(others.mother, { playerId: all.playerId })).rejects.toThrow("no such");
    expect(await listWaitingClips.as(others.coach, {})).toEqual([]);
    await database().assignment.update({ where: { id: all.assignmentId }, data: { until: new Date("2026-11-24") } });
    const former = await as(all.academyId, all.ids.coach, "coach");
    expect(await listWaitingClips.as(former, {})).toEqual([]);
    await expect(answerSent.as(former, answer(sent))).rejects.toThrow("no such");
    expect(await listWaitingClips.as(all.head, {})).toHaveLength(1);
  });
});

describe("an answer", () => {
  test("opens on a frame of the clip that was sent and of no other, and a later one takes its place", async () => {
    const all = await family();
    const [sent, other] = [await sentClip(all), await sentClip(all)];
    await expect(answerSent.as(all.coach, answer({ sentId: sent.sentId, clipId: other.clipId }))).rejects.toThrow("no such");
    await expect(answerSent.as(all.coach, answer(sent, { frameIndex: 480 }))).rejects.toThrow("does not belong to the clip");
    await expect(answerSent.as(all.coach, answer(sent, { planDrillId: newId() }))).rejects.toThrow("in no plan of this player");
    await expect(answerSent.as(all.coach, answer(sent, { words: "You are lazy with the back leg." }))).rejects.toThrow("“lazy”");
    expect(await stateOf(all, sent.sentId)).toBe("received");
    expect(await findFreshAnswer.as(all.player, { playerId: all.playerId })).toBeNull();
    await answerSent.as(all.coach, answer(sent));
    expect(await findFreshAnswer.as(all.player, { playerId: all.playerId })).toMatchObject({ sentId: sent.sentId });
    await answerSent.as(all.head, answer(sent, { frameIndex: 9, words: "Even better here." }));
    expect(await getSent.as(all.mother, { sentId: sent.sentId })).toMatchObject({ answer: "Even better here.", still: { frameIndex: 9 } });
    expect(await findSentOf.as(all.coach, { swingId: sent.swingId })).toMatchObject({ answer: "Even better here.", words: "Look?" });
  });

  test("may be a walkthrough over the clip, and waits again when that is taken back", async () => {
    const all = await family();
    const sent = await sentClip(all);
    const [walkthroughId, takeId] = [newId(), newId()];
    const { academyId, playerId, ids } = all;
    const list = listOver([sent.clipId]);
    await database().walkthrough.create({ data: { id: walkthroughId, academyId, playerId, side: "right", title: "Your clip", createdById: ids.coach } });
    await database().walkthroughTake.create({ data: { id: takeId, academyId, walkthroughId, list: list as object, durationMs: list.durationMs, voiceState: "none", cues: [], recordedById: ids.coach } });
    await database().walkthroughChapter.create({ data: { id: newId(), academyId, walkthroughId, takeId, position: 0, fromMs: 0, toMs: list.durationMs, title: "Opening" } });
    await database().walkthroughClip.create({ data: { academyId, walkthroughId, clipId: sent.clipId } });
    await sendWalkthrough.as(all.coach, { walkthroughId });
    expect(await getSent.as(all.player, { sentId: sent.sentId })).toMatchObject({ state: "answered", walkthroughId, answer: null, still: null });
    await takeBackWalkthrough.as(all.coach, { walkthroughId });
    expect(await getSent.as(all.player, { sentId: sent.sentId })).toMatchObject({ state: "looked-at", walkthroughId: null });
    expect(await listWaitingClips.as(all.coach, {})).toHaveLength(1);
  });

  test("goes with the clip when it is erased, and when the swing is given to another player", async () => {
    const all = await family();
    const [erased, moved] = [await sentClip(all), await sentClip(all)];
    for (const it of [erased, moved]) await answerSent.as(all.coach, answer(it));
    await eraseClip.as(all.coach, { clipId: erased.clipId });
    const { id: toPlayerId } = await buildPlayer({ academyId: all.academyId, givenName: "Ned" });
    await buildConsent({ academyId: all.academyId, playerId: toPlayerId, recordedById: all.ids.head });
    await moveSwing.as(all.head, { swingId: moved.swingId, toPlayerId });
    expect(await database().sentClip.count({ where: { academyId: all.academyId } })).toBe(0);
    expect((await getSending.as(all.mother, { playerId: all.playerId })).rows).toEqual([]);
  });
});

describe("a clip that waits", () => {
  const remind = () => remindOfWaiting.perform({}, false);

  test("is reminded of after 48 hours, once, to the coaches of today", async () => {
    const all = await family();
    const [early, late] = [await sentClip(all, 47), await sentClip(all, 49)];
    await remind();
    await remind();
    expect(await noticesOf("clip-waits", early.sentId)).toEqual([]);
    expect(await noticesOf("clip-waits", late.sentId)).toEqual([all.ids.coach]);
    const letters = await database().$queryRaw<{ key: string }[]>`SELECT key FROM graphile_worker.jobs WHERE key = ${`notice ${all.ids.coach}`}`;
    expect(letters).toHaveLength(1);
    const { remindedAt } = await database().sentClip.findUniqueOrThrow({ where: { id: late.sentId } });
    expect(remindedAt).not.toBeNull();
  });

  test("is the head coach's when nobody is assigned, and nobody's while it is answered or may not be watched", async () => {
    const [left, answered, withdrawn] = [await family(), await family(), await family()];
    await database().assignment.update({ where: { id: left.assignmentId }, data: { until: new Date("2026-11-24") } });
    const [a, b, c] = [await sentClip(left, 50), await sentClip(answered, 50), await sentClip(withdrawn, 50)];
    await answerSent.as(answered.coach, answer(b));
    await withdrawConsent.as(withdrawn.mother, { playerId: withdrawn.playerId, use: "lesson" });
    await remind();
    expect(await noticesOf("clip-waits", a.sentId)).toEqual([left.ids.head]);
    expect(await noticesOf("clip-waits", b.sentId)).toEqual([]);
    expect(await noticesOf("clip-waits", c.sentId)).toEqual([]);
  });
});
