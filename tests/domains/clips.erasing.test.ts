import { existsSync, readdirSync } from "node:fs";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { newId, type Id } from "@/lib/core/ids";
import { addMark, beginUpload, markPointUnseen, placePoint, setEvent } from "@/lib/domains/clips/actions";
import { eraseClip } from "@/lib/domains/clips/erasing/actions";
import { dropFileBytes } from "@/lib/domains/clips/erasing/jobs";
import { listSwings } from "@/lib/domains/clips/queries";
import { showPoster, showStill } from "@/lib/domains/clips/routes";
import { cutStillsOfSwing } from "@/lib/domains/clips/stills/jobs";
import { database, inTransaction } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildPlayer } from "@/seed/builders/people";
import { coachWithPlayer, facts, sendFile, signIn, work } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;
const filesOf = (academyId: Id) => {
  const folder = path.join(process.env.BLOB_DIR ?? "", academyId);
  return existsSync(folder) ? readdirSync(folder, { recursive: true, withFileTypes: true }).filter((it) => it.isFile()).map(({ name }) => name) : [];
};

/** Every column by which a table of the database names a clip, a swing or a file. */
async function namingColumns(target: "Clip" | "Swing" | "MediaFile"): Promise<{ table: string; column: string }[]> {
  const own = { Clip: "clipId", Swing: "swingId", MediaFile: "fileId" }[target];
  return database().$queryRaw`
    SELECT DISTINCT c.conrelid::regclass::text AS "table", a.attname AS "column" FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = ANY (c.conkey)
    WHERE c.contype = 'f' AND c.confrelid = ${`"${target}"`}::regclass AND a.attname = ${own} ORDER BY 1`;
}

async function rowsNaming(target: "Clip" | "Swing" | "MediaFile", id: Id): Promise<Record<string, number>> {
  const counts: Record<string, number> = {};
  for (const { table, column } of await namingColumns(target)) {
    const [row] = await database().$queryRawUnsafe<{ count: number }[]>(`SELECT count(*)::int AS count FROM ${table} WHERE "${column}" = '${id}'::uuid`);
    counts[table] = row?.count ?? 0;
  }
  return counts;
}

/** Rows that others keep of a clip; only their names of it matter here, so what they rest on is not built. */
async function keepFarRows({ academyId, playerId, userId }: Story, clip: { id: Id; swingId: Id; fileId: Id }): Promise<Id> {
  const noteId = newId();
  await inTransaction(async (tx) => {
    await tx.$executeRaw`SET LOCAL session_replication_role = replica`;
    const said = { academyId, clipId: clip.id, swingId: clip.swingId };
    await tx.reading.create({ data: { ...said, checkpointId: "x", formulaId: "x", formulaVersion: 1, editionId: newId(), inputsHash: "x", isGrey: false, body: {} } });
    await tx.ownBest.create({ data: { id: newId(), ...said, playerId, side: "right", view: "side", keptById: userId } });
    await tx.observation.create({ data: { id: newId(), ...said, faultId: "x", state: "seen", source: "both", frameIndex: 3, reading: { value: 1 }, editionId: newId(), calledById: userId } });
    await tx.sentClip.create({ data: { id: newId(), academyId, playerId, uploadId: newId(), sentById: userId, words: "", answer: "Look.", answeredAt: new Date(), answeredById: userId, clipId: clip.id, frameIndex: 3 } });
    await tx.fileSwings.upsert({ where: { academyId_fileId: { academyId, fileId: clip.fileId } }, create: { academyId, fileId: clip.fileId, found: {} }, update: {} });
    await tx.suggestingRun.create({ data: { academyId, clipId: clip.id, outcome: "done", basis: "x" } });
    await tx.suggestedFrame.create({ data: { academyId, clipId: clip.id, frameIndex: 3, model: "x", modelVersion: "1" } });
    const model = { label: "Old Oak", sport: "baseball", level: "u12", isAdult: false, task: "tee", pitchHeight: "belt", pitchSide: "middle", rightHolder: "x", rightBasis: "written-consent", rightNote: "", recordedById: userId };
    const days = { rightUntil: new Date("2026-01-01"), recordedAt: new Date("2025-06-01"), withdrawnAt: new Date("2025-07-01"), withdrawnById: userId };
    await tx.modelSwing.create({ data: { id: newId(), academyId, playerId, swingId: clip.swingId, ...model, ...days } });
    const words = { keptWell: "x", oneThing: "x", why: "x", cue: "x", forFamily: "Stay tall." };
    await tx.note.create({ data: { id: noteId, academyId, playerId, side: "right", planId: newId(), authorId: userId, ...words, nextCheckOn: new Date("2026-12-01"), clipId: clip.id, frameIndex: 3, marks: [], editionId: newId(), sentAt: new Date() } });
  });
  return noteId;
}

/** A clip of a film with everything that can be kept of one. */
async function fullClip(story: Story, file: string, given: object = {}) {
  const uploadId = await sendFile(story.coach, story.playerId, file, given);
  await work(uploadId);
  const upload = await database().upload.findUniqueOrThrow({ where: { id: uploadId }, include: { clip: { include: { file: true } } } });
  if (!upload.clip) throw new Error("no clip");
  const { id: clipId, swingId } = upload.clip;
  await setEvent.as(story.coach, { clipId, event: "contact", frameIndex: 12 });
  await placePoint.as(story.coach, { clipId, frameIndex: 12, point: "hip_f", x: 10, y: 10 });
  await markPointUnseen.as(story.coach, { clipId, frameIndex: 12, point: "hip_b" });
  await addMark.as(story.coach, { clipId, frameIndex: 12, shape: { v: 1, kind: "words", x: 1, y: 1, text: "here" } });
  await cutStillsOfSwing.perform({ swingId }, false);
  for (const show of [() => showPoster.as(story.coach, new Request("http://cage.test/x"), { clipId }), () => showStill.as(story.coach, new Request("http://cage.test/x"), { clipId, frameIndex: "5" })]) expect((await show()).status).toBe(200);
  return upload.clip;
}

const dropBytes = async (academyId: Id) => {
  const rows = await database().$queryRaw<{ payload: { academyId: string; contentHash: string } }[]>`
    SELECT j.payload FROM graphile_worker._private_jobs j JOIN graphile_worker._private_tasks t ON t.id = j.task_id WHERE t.identifier = 'clips.file-dropped' AND j.payload->>'academyId' = ${academyId}`;
  return Promise.all(rows.map(({ payload }) => dropFileBytes.perform(payload, false)));
};

describe("erasing a clip", () => {
  test("leaves no row that names it, its swing or its file, no blob of it, and the words of a note that was sent", async () => {
    const story = await coachWithPlayer();
    const clip = await fullClip(story, room.crack("whole.mp4"));
    const noteId = await keepFarRows(story, clip);
    await setEvent.as(story.coach, { clipId: clip.id, event: "plant", frameIndex: 10 });
    const other = (await beginUpload.as(story.coach, { playerId: story.playerId, ...facts, byteLength: 99, swingId: clip.swingId, view: "rear" })).data as { uploadId: Id };

    for (const [table, count] of Object.entries(await rowsNaming("Clip", clip.id))) expect(count, `a ${table} of the clip, or the test says nothing of that table`).toBeGreaterThan(0);
    for (const [table, count] of Object.entries(await rowsNaming("Swing", clip.swingId))) expect(count, `a ${table} of the swing`).toBeGreaterThan(0);
    for (const [table, count] of Object.entries(await rowsNaming("MediaFile", clip.fileId))) expect(count, `a ${table} of the file`).toBeGreaterThan(0);
    expect(filesOf(story.academyId).sort()).toEqual(["12.jpg", "5.jpg", "original", "poster.jpg", "stepping.mp4"]);

    await eraseClip.as(story.coach, { clipId: clip.id });
    expect(await dropBytes(story.academyId)).toEqual([{ is: "done" }]);

    const left = [await rowsNaming("Clip", clip.id), await rowsNaming("Swing", clip.swingId), await rowsNaming("MediaFile", clip.fileId)];
    expect(left.flatMap((counts) => Object.entries(counts).filter(([, count]) => count > 0))).toEqual([]);
    expect(filesOf(story.academyId)).toEqual([]);
    expect(await database().observation.count({ where: { swingId: clip.swingId } })).toBe(0);
    expect(await database().note.findUnique({ where: { id: noteId } })).toMatchObject({ clipId: null, forFamily: "Stay tall." });
    expect(await database().upload.findUnique({ where: { id: other.uploadId } })).toMatchObject({ swingId: null, state: "receiving" });
    expect((await listSwings.as(story.coach, { playerId: story.playerId })).rows).toEqual([]);
    expect((await showPoster.as(story.coach, new Request("http://cage.test/x"), { clipId: clip.id })).status).toBe(404);
    await expect(eraseClip.as(story.coach, { clipId: clip.id })).rejects.toThrow("no such");
  });

  test("of a swing with another camera leaves the swing, its calls and the other clip", async () => {
    const story = await coachWithPlayer();
    const side = await fullClip(story, room.plain("side.mp4"));
    const rear = await fullClip(story, room.plain("rear.mp4", { seed: 4 }), { swingId: side.swingId, view: "rear" });
    const noteId = await keepFarRows(story, side);
    await eraseClip.as(story.coach, { clipId: side.id });
    await dropBytes(story.academyId);
    expect((await database().clip.findMany({ where: { swingId: side.swingId } })).map(({ id }) => id)).toEqual([rear.id]);
    expect(await database().observation.findMany({ where: { swingId: side.swingId } })).toMatchObject([{ state: "seen", clipId: null, frameIndex: null, reading: null }]);
    expect(await database().note.count({ where: { id: noteId, clipId: null } })).toBe(1);
    expect(filesOf(story.academyId).filter((name) => name === "original")).toHaveLength(1);
  });

  test("leaves the bytes while another player's clip rests on them", async () => {
    const story = await coachWithPlayer();
    const { academyId, userId } = story;
    const other = await buildPlayer({ academyId, givenName: "Otto" });
    await buildAssignment({ academyId, playerId: other.id, userId });
    await buildConsent({ academyId, playerId: other.id, recordedById: userId });
    const both = { ...story, coach: await signIn(academyId, userId) };
    const mine = await fullClip(both, room.plain("shared.mp4"));
    const theirs = await fullClip({ ...both, playerId: other.id }, room.plain("shared.mp4"));
    await eraseClip.as(both.coach, { clipId: mine.id });
    expect(await dropBytes(academyId)).toEqual([]);
    expect((await showPoster.as(both.coach, new Request("http://cage.test/x"), { clipId: theirs.id })).status).toBe(200);
    await eraseClip.as(both.coach, { clipId: theirs.id });
    await dropBytes(academyId);
    expect(filesOf(academyId)).toEqual([]);
  });

  test("and sending the same film anew before its bytes were gone keeps the new one whole", async () => {
    const story = await coachWithPlayer();
    const file = room.plain("anew.mp4");
    const clip = await fullClip(story, file);
    await eraseClip.as(story.coach, { clipId: clip.id });
    await work(await sendFile(story.coach, story.playerId, file));
    expect(await dropBytes(story.academyId)).toEqual([{ is: "skipped", because: "the file was sent anew" }]);
    expect(filesOf(story.academyId)).toContain("original");
  });

  test("is refused while the swing is shown as a model, with a sentence, and nothing is lost", async () => {
    const story = await coachWithPlayer();
    const clip = await fullClip(story, room.plain("model.mp4"));
    await keepFarRows(story, clip);
    await database().modelSwing.updateMany({ where: { swingId: clip.swingId }, data: { withdrawnAt: null, withdrawnById: null, rightUntil: new Date("2030-01-01") } });
    for (const use of ["lesson", "staff-training"]) await buildConsent({ academyId: story.academyId, playerId: story.playerId, recordedById: story.userId, use } as never);
    await expect(eraseClip.as(story.coach, { clipId: clip.id })).rejects.toThrow("shown as a model. Nothing was erased.");
    expect(await database().clipPoint.count({ where: { clipId: clip.id } })).toBe(1);
  });

  test("is possible when the consent to show it has ended", async () => {
    const story = await coachWithPlayer();
    const clip = await fullClip(story, room.plain("ended.mp4"));
    await database().consent.updateMany({ where: { playerId: story.playerId }, data: { withdrawnAt: new Date() } });
    await eraseClip.as(story.coach, { clipId: clip.id });
    expect(await database().clip.count({ where: { id: clip.id } })).toBe(0);
  });
});
