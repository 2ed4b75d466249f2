import { afterAll, describe, expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { findActor } from "@/lib/access/session";
import { newId, type Id } from "@/lib/core/ids";
import { addMark, beginUpload, placePoint, setEvent } from "@/lib/domains/clips/actions";
import { listLessonPlayers, listOwnUploads } from "@/lib/domains/clips/lesson/queries";
import { joinSwings, moveSwing, moveUpload, partClip } from "@/lib/domains/clips/owner/actions";
import { getSwingToSort } from "@/lib/domains/clips/owner/queries";
import { getSwing, listSwings, listUploads } from "@/lib/domains/clips/queries";
import { showPoster } from "@/lib/domains/clips/routes";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildAssignment, buildConsent, buildGuardianship, buildPlayer, buildSession, buildUser } from "@/seed/builders/people";
import { buildClip, facts, sendFile, work } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** Pia, who bats right, and Ned, who bats left; one coach teaches both, another only Pia. */
async function twoPlayers(given: { nedMayBeFilmed?: boolean } = {}) {
  const { id: pia, academyId, locationId } = await buildPlayer({ givenName: "Pia", bats: "right" });
  const { id: ned } = await buildPlayer({ academyId, locationId, givenName: "Ned", bats: "left" });
  const [both, onlyPia, guardian] = [await buildUser({ academyId, roles: ["coach"] }), await buildUser({ academyId, roles: ["coach"] }), await buildUser({ academyId, roles: ["guardian"] })];
  for (const playerId of [pia, ned]) await buildAssignment({ academyId, playerId, userId: both.id });
  await buildAssignment({ academyId, playerId: pia, userId: onlyPia.id });
  await buildGuardianship({ academyId, playerId: pia, userId: guardian.id });
  await buildConsent({ academyId, playerId: pia, recordedById: both.id });
  if (given.nedMayBeFilmed ?? true) await buildConsent({ academyId, playerId: ned, recordedById: both.id });
  const sign = async (userId: Id, activeRole: "coach" | "guardian") => (await findActor((await buildSession({ academyId, userId, activeRole })).id)) as Person;
  return { academyId, pia, ned, userId: both.id, coach: await sign(both.id, "coach"), piasCoach: await sign(onlyPia.id, "coach"), piasGuardian: await sign(guardian.id, "guardian") };
}
type Story = Awaited<ReturnType<typeof twoPlayers>>;

/** A swing at Pia's with everything that can hang on one. */
async function fullSwing({ academyId, pia, userId, coach }: Story) {
  const clip = await buildClip({ academyId, playerId: pia, userId });
  await setEvent.as(coach, { clipId: clip.clipId, event: "contact", frameIndex: 200 });
  await placePoint.as(coach, { clipId: clip.clipId, frameIndex: 200, point: "hip_f", x: 5, y: 6 });
  await addMark.as(coach, { clipId: clip.clipId, frameIndex: 200, shape: { v: 1, kind: "words", x: 1, y: 1, text: "here" } });
  const { id: editionId } = await buildLibrary(academyId);
  await database().observation.create({ data: { id: newId(), academyId, swingId: clip.swingId, faultId: "barrel-drag", state: "seen", source: "eye", editionId, calledById: userId } });
  await database().ownBest.create({ data: { id: newId(), academyId, playerId: pia, side: "right", view: "side", swingId: clip.swingId, clipId: clip.clipId, keptById: userId } });
  return clip;
}
const posterFor = async (actor: Person, clipId: Id) => (await showPoster.as(actor, new Request("http://cage.test/"), { clipId })).status;

describe("a swing at the wrong player", () => {
  test("moves with its points, events, drawings and calls, and nothing of it stays at the first one", async () => {
    const story = await twoPlayers();
    const { coach, piasCoach, piasGuardian, pia, ned, academyId } = story;
    const { swingId, clipId } = await fullSwing(story);
    const moved = await moveSwing.as(coach, { swingId, toPlayerId: ned });
    expect(moved.data).toEqual({ swingId, fromPlayerId: pia, fromSide: "right" });
    const swing = await getSwing.as(coach, { swingId });
    expect(swing).toMatchObject({ playerId: ned, side: "left" });
    expect(swing.clips[0]?.clip).toMatchObject({ playerId: ned, points: [{ point: "hip_f" }], marks: [{}], events: [{ event: "contact", frameIndex: 200 }] });
    expect(await database().observation.count({ where: { swingId } })).toBe(1);
    expect((await listSwings.as(coach, { playerId: pia })).rows).toEqual([]);
    expect((await listSwings.as(coach, { playerId: ned })).rows).toHaveLength(1);
    expect(await database().ownBest.count({ where: { academyId } })).toBe(0);
    await expect(getSwing.as(piasCoach, { swingId })).rejects.toThrow("no such");
    for (const actor of [piasCoach, piasGuardian]) expect(await posterFor(actor, clipId)).toBe(404);
    const audit = await database().auditEntry.findMany({ where: { academyId, operation: { startsWith: "clips.swing-moved" } }, orderBy: { operation: "asc" } });
    expect(audit.map(({ operation, subjectId }) => [operation, subjectId])).toEqual([["clips.swing-moved-from", pia], ["clips.swing-moved-to", ned]]);
  });

  test("comes back with all that was placed when that is undone, from the side it was taken from", async () => {
    const story = await twoPlayers();
    const { swingId } = await fullSwing(story);
    await moveSwing.as(story.coach, { swingId, toPlayerId: story.ned });
    await moveSwing.as(story.coach, { swingId, toPlayerId: story.pia, toSide: "right" });
    expect(await getSwing.as(story.coach, { swingId })).toMatchObject({ playerId: story.pia, side: "right", clips: [{ clip: { points: [{ point: "hip_f" }] } }] });
  });

  test("a still of it in a note of the first player is gone from the note, also from one that was sent", async () => {
    const story = await twoPlayers();
    const { academyId, pia, coach, userId } = story;
    const { swingId, clipId } = await fullSwing(story);
    const { id: editionId } = await database().edition.findFirstOrThrow({ where: { academyId } });
    const side = { academyId, playerId: pia, side: "right" };
    const focus = await database().focus.create({ data: { id: newId(), ...side, faultId: "barrel-drag", state: "active", slot: 1, editionId, chosenById: userId } });
    const day = new Date("2026-11-25T00:00:00Z");
    const plan = await database().plan.create({
      data: { id: newId(), ...side, focusId: focus.id, editionId, level: "u12", minutesPerDay: 10, daysPerWeek: 3, startsOn: day, endsOn: day, cue: "x", state: "sent", createdById: userId, sentAt: day },
    });
    const note = await database().note.create({
      data: { id: newId(), ...side, planId: plan.id, authorId: userId, keptWell: "a", oneThing: "b", why: "c", cue: "d", forFamily: "e", nextCheckOn: day, clipId, frameIndex: 200, marks: [], editionId, sentAt: day },
    });
    await moveSwing.as(coach, { swingId, toPlayerId: story.ned });
    expect(await database().note.findUnique({ where: { id: note.id } })).toMatchObject({ clipId: null, oneThing: "b" });
  });

  test("is not moved to a player who may not be filmed, to one whom the coach does not teach, or while it is a model", async () => {
    const story = await twoPlayers({ nedMayBeFilmed: false });
    const { swingId, clipId } = await fullSwing(story);
    await expect(moveSwing.as(story.coach, { swingId, toPlayerId: story.ned })).rejects.toThrow(/No consent to film Ned .* Nothing was changed/);
    await expect(moveSwing.as(story.piasCoach, { swingId, toPlayerId: story.ned })).rejects.toThrow("no such");
    expect(await database().clip.findUnique({ where: { id: clipId } })).toMatchObject({ playerId: story.pia });
    expect(await database().ownBest.count({ where: { swingId } })).toBe(1);
    await buildConsent({ academyId: story.academyId, playerId: story.ned, recordedById: story.userId });
    await database().modelSwing.create({
      data: {
        id: newId(), academyId: story.academyId, playerId: story.pia, swingId, label: "Heron", sport: "softball", level: "u12", isAdult: false, task: "tee", pitchHeight: "belt", pitchSide: "middle", rightHolder: "x",
        rightBasis: "written-consent", rightUntil: new Date("2027-01-01"), rightNote: "", recordedById: story.userId, recordedAt: new Date(),
      },
    });
    await expect(moveSwing.as(story.coach, { swingId, toPlayerId: story.ned })).rejects.toThrow("kept as a model");
  });
});

describe("a video given to another player on its way", () => {
  test("becomes the other's clip, whether it was looked at before or after", async () => {
    const { coach, pia, ned } = await twoPlayers();
    const early = await sendFile(coach, pia, room.plain("early.mp4", { seed: 1 }));
    await moveUpload.as(coach, { uploadId: early, toPlayerId: ned });
    expect(await work(early)).toEqual({ is: "done" });
    const late = await sendFile(coach, pia, room.plain("late.mp4", { seed: 2 }));
    await work(late);
    await moveUpload.as(coach, { uploadId: late, toPlayerId: ned });
    expect(await database().clip.count({ where: { playerId: pia } })).toBe(0);
    expect((await listSwings.as(coach, { playerId: ned })).rows.map(({ side }) => side)).toEqual(["left", "left"]);
    expect(await listUploads.as(coach, { playerId: pia })).toEqual([]);
    expect((await listOwnUploads.as(coach, {})).map(({ playerId, state }) => [playerId, state])).toEqual([[ned, "ready"], [ned, "ready"]]);
  });

  test("while the worker looks at it, it still becomes the other's", async () => {
    const { coach, pia, ned, academyId } = await twoPlayers();
    const uploadId = await sendFile(coach, pia, room.plain("between.mp4", { seed: 3 }));
    // The clip's row is refused once, after all was made; meanwhile the coach changes the owner.
    await database().$executeRaw`ALTER TABLE "Clip" ADD CONSTRAINT "no_clip_now" CHECK (false) NOT VALID`;
    await expect(work(uploadId)).rejects.toThrow();
    await moveUpload.as(coach, { uploadId, toPlayerId: ned });
    await database().$executeRaw`ALTER TABLE "Clip" DROP CONSTRAINT "no_clip_now"`;
    await work(uploadId);
    expect(await database().clip.findMany({ where: { academyId }, select: { playerId: true } })).toEqual([{ playerId: ned }]);
  });

  test("is refused for one whom another coach sent", async () => {
    const { coach, piasCoach, pia, ned } = await twoPlayers();
    const begun = await beginUpload.as(coach, { playerId: pia, ...facts, byteLength: 9 });
    await expect(moveUpload.as(piasCoach, { uploadId: (begun.data as { uploadId: Id }).uploadId, toPlayerId: ned })).rejects.toThrow("no such");
  });
});

test("the board of a group lesson offers those whom a coach teaches, and says who may not be filmed", async () => {
  const { coach, piasCoach } = await twoPlayers({ nedMayBeFilmed: false });
  expect((await listLessonPlayers.as(coach, {})).map(({ name, sides, mayBeFilmed }) => [name.split(" ")[0], sides, mayBeFilmed])).toEqual([["Ned", ["left"], false], ["Pia", ["right"], true]]);
  expect(await listLessonPlayers.as(piasCoach, {})).toHaveLength(1);
});

describe("two clips that are one swing", () => {
  const twoSwings = async () => {
    const story = await twoPlayers();
    const { academyId, pia: playerId, userId, coach } = story;
    const side = await buildClip({ academyId, playerId, userId });
    const rear = await buildClip({ academyId, playerId, userId, view: "rear" });
    for (const clip of [side, rear]) for (const [event, frameIndex] of [["contact", 200], ["plant", 150]] as const) await setEvent.as(coach, { clipId: clip.clipId, event, frameIndex });
    await setEvent.as(coach, { clipId: rear.clipId, event: "load", frameIndex: 90 });
    return { ...story, side, rear };
  };
  const placedOf = async (swingId: Id) =>
    (await database().swingEvent.findMany({ where: { swingId, source: "placed" }, orderBy: [{ event: "asc" }, { frameIndex: "asc" }], select: { event: true, clipId: true } })).map(({ event, clipId }) => `${event} ${clipId}`);

  test("are joined: each keeps its contact, the mark of the swing joined stands where both have one, others are shared", async () => {
    const { coach, side, rear, pia } = await twoSwings();
    await joinSwings.as(coach, { swingId: rear.swingId, intoSwingId: side.swingId });
    const swing = await getSwing.as(coach, { swingId: side.swingId });
    expect(swing.clips.map(({ clip }) => clip.view)).toEqual(["side", "rear"]);
    expect(await placedOf(side.swingId)).toEqual([`contact ${side.clipId}`, `contact ${rear.clipId}`, `load ${rear.clipId}`, `plant ${side.clipId}`].sort((a, b) => (a.split(" ")[0] ?? "").localeCompare(b.split(" ")[0] ?? "")));
    expect((await listSwings.as(coach, { playerId: pia })).rows).toHaveLength(1);
    await expect(getSwing.as(coach, { swingId: rear.swingId })).rejects.toThrow("no such");
  });

  test("and parted again: the clip has its own marks back, also the one that gave way", async () => {
    const { coach, side, rear } = await twoSwings();
    await joinSwings.as(coach, { swingId: rear.swingId, intoSwingId: side.swingId });
    const { swingId } = (await partClip.as(coach, { swingId: side.swingId, clipId: rear.clipId })).data as { swingId: Id };
    expect(await placedOf(swingId)).toEqual([`contact ${rear.clipId}`, `load ${rear.clipId}`, `plant ${rear.clipId}`]);
    expect(await placedOf(side.swingId)).toEqual([`contact ${side.clipId}`, `plant ${side.clipId}`]);
    expect(await getSwing.as(coach, { swingId })).toMatchObject({ side: "right", facts: { task: "tee" }, clips: [{ clip: { id: rear.clipId } }] });
  });

  test("a fault that one coach called on both has the later call in force, the other is kept as replaced", async () => {
    const { coach, side, rear, academyId, userId } = await twoSwings();
    const { id: editionId } = await buildLibrary(academyId);
    const call = (swingId: Id, state: string, hour: number) =>
      database().observation.create({ data: { id: newId(), academyId, swingId, faultId: "barrel-drag", state, source: "eye", editionId, calledById: userId, calledAt: new Date(Date.UTC(2026, 10, 25, hour)) } });
    await call(side.swingId, "not-seen", 9);
    await call(rear.swingId, "seen", 10);
    await joinSwings.as(coach, { swingId: rear.swingId, intoSwingId: side.swingId });
    const calls = await database().observation.findMany({ where: { swingId: side.swingId }, orderBy: { calledAt: "asc" } });
    expect(calls.map(({ state, replacedAt }) => [state, replacedAt === null])).toEqual([["not-seen", false], ["seen", true]]);
  });

  test("of two players, or more clips than a swing can have, are refused, and the only clip is not parted", async () => {
    const { coach, side, rear, academyId, ned, userId, pia } = await twoSwings();
    const other = await buildClip({ academyId, playerId: ned, userId, side: "left" });
    await expect(joinSwings.as(coach, { swingId: other.swingId, intoSwingId: side.swingId })).rejects.toThrow("Only swings of one player");
    for (let i = 0; i < 3; i++) await buildClip({ academyId, playerId: pia, userId, swingId: side.swingId });
    await expect(joinSwings.as(coach, { swingId: rear.swingId, intoSwingId: side.swingId })).rejects.toThrow("more than 4 clips");
    await expect(partClip.as(coach, { swingId: rear.swingId, clipId: rear.clipId })).rejects.toThrow("only clip");
    const sorted = await getSwingToSort.as(coach, { swingId: rear.swingId });
    expect(sorted.others.map(({ id, views }) => [id, views.length])).toEqual([[side.swingId, 4]]);
  });
});
