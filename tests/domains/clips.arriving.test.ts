import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { newId } from "@/lib/core/ids";
import { beginUpload } from "@/lib/domains/clips/actions";
import { retryUpload } from "@/lib/domains/clips/arriving/actions";
import { tidyLeftovers } from "@/lib/domains/clips/arriving/jobs";
import { showArrivingPoster } from "@/lib/domains/clips/arriving/routes";
import { listUploads } from "@/lib/domains/clips/queries";
import { sendUploadBytes, streamSteppingCopy } from "@/lib/domains/clips/routes";
import { database } from "@/lib/platform/database";
import { askOffset, coachWithPlayer, createBytes, facts, patchBytes, sendFile, work } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

const store = () => process.env.BLOB_DIR ?? "";
const hashOf = (file: string) => createHash("sha256").update(readFileSync(file)).digest("hex");
const lying = () => ["incoming", "received", "work"].flatMap((name) => (existsSync(path.join(store(), name)) ? readdirSync(path.join(store(), name)) : []));
const rowOf = (id: string) => database().upload.findUniqueOrThrow({ where: { id } });
const told = (uploadId: string) => database().$queryRaw<{ attempts: number }[]>`SELECT attempts FROM graphile_worker.jobs WHERE key = ${`check ${uploadId}`}`;
const tidy = () => tidyLeftovers.perform({}, false);
const DAY_MS = 86_400_000;

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;
const begin = async ({ coach, playerId }: Story, file: string, more: object = {}) => {
  const bytes = new Uint8Array(readFileSync(file));
  const { data } = await beginUpload.as(coach, { playerId, ...facts, byteLength: bytes.length, ...more } as never);
  return { ...(data as { uploadId: string; isResumed: boolean }), bytes };
};

/** A film whose last byte reached the disk, and then the house fell before anybody was told. */
async function arrivedUnheard(story: Story, file: string): Promise<string> {
  const { uploadId, bytes } = await begin(story, file);
  await createBytes(story.coach, uploadId, bytes.length);
  writeFileSync(path.join(store(), "incoming", uploadId), bytes);
  return uploadId;
}

/** A film over which our own side failed until the last try: a folder stands where a copy should. */
async function failedOnOurSide(story: Story, file: string): Promise<{ uploadId: string; repair: () => void }> {
  const uploadId = await sendFile(story.coach, story.playerId, file);
  const inTheWay = path.join(store(), story.academyId, hashOf(file), "stepping.mp4");
  mkdirSync(path.join(inTheWay, "x"), { recursive: true });
  return { uploadId, repair: () => rmSync(inTheWay, { recursive: true }) };
}

describe("bytes that arrived when nobody could be told", () => {
  test("are taken over when the sender asks how far it is, once, and the sender learns that all are here", async () => {
    const story = await coachWithPlayer();
    const uploadId = await arrivedUnheard(story, room.plain("unheard.mp4"));
    for (let i = 0; i < 2; i++) {
      const answer = await askOffset(story.coach, uploadId);
      expect([answer.status, answer.headers.get("upload-offset")]).toEqual([200, String((await rowOf(uploadId)).byteLength)]);
      expect(await told(uploadId)).toHaveLength(1);
    }
    expect(await work(uploadId)).toEqual({ is: "done" });
    expect(await rowOf(uploadId)).toMatchObject({ state: "ready", contentHash: hashOf(room.at("unheard.mp4")) });
    expect((await askOffset(story.coach, uploadId)).headers.get("upload-offset")).toBe(String((await rowOf(uploadId)).byteLength));
  });

  test("are taken over within the hour when nobody asks", async () => {
    const story = await coachWithPlayer();
    const uploadId = await arrivedUnheard(story, room.plain("unheard2.mp4"));
    await tidy();
    expect(await rowOf(uploadId)).toMatchObject({ state: "checking" });
    expect(await told(uploadId)).toHaveLength(1);
  });

  test("are not sent again while they are looked at: the same hash goes on with the same sending", async () => {
    const story = await coachWithPlayer();
    const file = room.plain("same.mp4");
    const contentHash = hashOf(file);
    const first = await begin(story, file, { contentHash });
    await createBytes(story.coach, first.uploadId, first.bytes.length);
    await patchBytes(story.coach, first.uploadId, 0, first.bytes);
    const second = await begin(story, file, { contentHash });
    expect(second).toMatchObject({ uploadId: first.uploadId, isResumed: true });
    expect((await askOffset(story.coach, second.uploadId)).headers.get("upload-offset")).toBe(String(first.bytes.length));
    expect(await told(first.uploadId)).toHaveLength(1);
  });

  test("two windows that send the same film at once leave its own bytes and one clip", async () => {
    const story = await coachWithPlayer();
    const file = room.crack("windows.mp4");
    const { uploadId, bytes } = await begin(story, file);
    await createBytes(story.coach, uploadId, bytes.length);
    const half = bytes.length >> 1;
    const answers = await Promise.all([patchBytes(story.coach, uploadId, 0, bytes.slice(0, half)), patchBytes(story.coach, uploadId, 0, bytes.slice(0, half))]);
    expect(answers.filter(({ status }) => status === 204).length).toBeGreaterThanOrEqual(1);
    const offset = Number((await askOffset(story.coach, uploadId)).headers.get("upload-offset"));
    await patchBytes(story.coach, uploadId, offset, bytes.slice(offset));
    await work(uploadId);
    expect(await rowOf(uploadId)).toMatchObject({ state: "ready", contentHash: hashOf(file) });
    expect(await database().clip.count({ where: { playerId: story.playerId } })).toBe(1);
  });
});

describe("what is left on the way", () => {
  test("a half-sent film waits two days from its last byte, and is then put away with a sentence", async () => {
    const story = await coachWithPlayer();
    const { uploadId, bytes } = await begin(story, room.plain("half.mp4"));
    await createBytes(story.coach, uploadId, bytes.length);
    await patchBytes(story.coach, uploadId, 0, bytes.slice(0, 500));
    const at = path.join(store(), "incoming", uploadId);
    const bytesCameAgo = (ms: number) => utimesSync(at, new Date(Date.now() - ms), new Date(Date.now() - ms));
    bytesCameAgo(1.9 * DAY_MS);
    await tidy();
    expect((await askOffset(story.coach, uploadId)).headers.get("upload-offset")).toBe("500");
    bytesCameAgo(2.1 * DAY_MS);
    await tidy();
    expect(await listUploads.as(story.coach, { playerId: story.playerId })).toMatchObject([{ state: "refused", refusal: expect.stringMatching(/Only a part.*48 hours.*send it again/) }]);
    expect(lying().filter((name) => name.startsWith(uploadId))).toEqual([]);
  });

  test("bytes that belong to no sending go, and those of a sending stay", async () => {
    const story = await coachWithPlayer();
    const uploadId = await sendFile(story.coach, story.playerId, room.plain("stays.mp4"));
    const stray = newId();
    mkdirSync(path.join(store(), "incoming"), { recursive: true });
    for (const [name, ageMs] of [[stray, 2 * 3_600_000], [`${stray}.json`, 2 * 3_600_000]] as const) {
      writeFileSync(path.join(store(), "incoming", name), "x");
      utimesSync(path.join(store(), "incoming", name), new Date(Date.now() - ageMs), new Date(Date.now() - ageMs));
    }
    await tidy();
    expect(lying().filter((name) => name.startsWith(stray))).toEqual([]);
    expect(lying()).toContain(uploadId);
    expect(await work(uploadId)).toEqual({ is: "done" });
  });

  test("a film that waits while nobody is told to look is told of again; one that felled the worker each time ends with a sentence", async () => {
    const story = await coachWithPlayer();
    const [forgotten, deadly] = [await sendFile(story.coach, story.playerId, room.plain("forgotten.mp4")), await sendFile(story.coach, story.playerId, room.plain("deadly.mp4", { seed: 2 }))];
    await database().$executeRaw`SELECT graphile_worker.complete_jobs(ARRAY(SELECT id FROM graphile_worker.jobs WHERE key = ${`check ${forgotten}`}))`;
    await database().$executeRaw`SELECT graphile_worker.permanently_fail_jobs(ARRAY(SELECT id FROM graphile_worker.jobs WHERE key = ${`check ${deadly}`}))`;
    await tidy();
    expect(await told(forgotten)).toEqual([{ attempts: 0 }]);
    expect(await rowOf(deadly)).toMatchObject({ state: "refused", canRetry: true, refusal: expect.stringContaining("our side") });
  });
});

describe("trouble on our side", () => {
  test("keeps the bytes for another try, which a person may ask for once, and which makes the clip", async () => {
    const story = await coachWithPlayer();
    const { uploadId, repair } = await failedOnOurSide(story, room.plain("ours.mp4"));
    expect(await work(uploadId, true)).toEqual({ is: "done" });
    expect(await listUploads.as(story.coach, { playerId: story.playerId })).toMatchObject([{ state: "refused", canRetry: true, refusal: expect.stringMatching(/our side.*7 days: try again/) }]);
    repair();
    await retryUpload.as(story.coach, { uploadId });
    expect(await told(uploadId)).toEqual([{ attempts: 0 }]);
    await expect(retryUpload.as(story.coach, { uploadId })).rejects.toThrow("nothing here to try again");
    expect(await work(uploadId)).toEqual({ is: "done" });
    expect(await rowOf(uploadId)).toMatchObject({ state: "ready", canRetry: false, refusal: null, contentHash: hashOf(room.at("ours.mp4")) });
  });

  test("ends after seven days: the bytes go and the sentence stays", async () => {
    const story = await coachWithPlayer();
    const { uploadId } = await failedOnOurSide(story, room.plain("week.mp4"));
    await work(uploadId, true);
    await database().upload.update({ where: { id: uploadId }, data: { finishedAt: new Date("2026-11-18T14:00:00Z") } });
    await tidy();
    expect(await rowOf(uploadId)).toMatchObject({ state: "refused", canRetry: false });
    expect(lying().filter((name) => name.startsWith(uploadId))).toEqual([]);
    await expect(retryUpload.as(story.coach, { uploadId })).rejects.toThrow("send the video anew");
  });

  test("a file that is refused for what it is leaves nothing to try again", async () => {
    const story = await coachWithPlayer();
    const uploadId = await sendFile(story.coach, story.playerId, room.write("notes.mp4", "stay back\n".repeat(20)));
    await work(uploadId);
    await expect(retryUpload.as(story.coach, { uploadId })).rejects.toThrow("nothing here to try again");
  });

  test("a full disk is said as such to who sends, and what had arrived stays", async () => {
    const story = await coachWithPlayer();
    const { uploadId, bytes } = await begin(story, room.plain("full.mp4"));
    await createBytes(story.coach, uploadId, bytes.length);
    const at = path.join(store(), "incoming", uploadId);
    rmSync(at);
    symlinkSync("/dev/full", at);
    const answer = await patchBytes(story.coach, uploadId, 0, bytes);
    expect([answer.status, await answer.text()]).toEqual([507, expect.stringMatching(/no room left.*admin/)]);
    rmSync(at);
    writeFileSync(at, bytes.slice(0, 700));
    await patchBytes(story.coach, uploadId, 700, bytes.slice(700));
    expect(await work(uploadId)).toEqual({ is: "done" });
  });
});

describe("one picture of a film", () => {
  test("can be seen while its stepping copy is still made, and no longer from there afterwards", async () => {
    const story = await coachWithPlayer();
    const { uploadId, repair } = await failedOnOurSide(story, room.crack("early.mp4"));
    const see = () => showArrivingPoster.as(story.coach, new Request("http://cage.test/x"), { uploadId });
    expect((await see()).status).toBe(404);
    await expect(work(uploadId)).rejects.toThrow();
    const answer = await see();
    expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "image/jpeg"]);
    expect(Buffer.from(await answer.arrayBuffer()).subarray(0, 3).toString("hex")).toBe("ffd8ff");
    await database().permit.deleteMany({ where: { playerId: story.playerId } });
    expect((await see()).status).toBe(404);
    repair();
    await work(uploadId);
    expect((await see()).status).toBe(404);
    expect(lying().filter((name) => name.startsWith(uploadId))).toEqual([]);
  });

  test("asked for a moment late is that of the clip; through a stretch of the film it is not shown", async () => {
    const story = await coachWithPlayer();
    const uploadId = await sendFile(story.coach, story.playerId, room.plain("late.mp4"));
    await work(uploadId);
    const see = async () => (await showArrivingPoster.as(story.coach, new Request("http://cage.test/x"), { uploadId })).status;
    expect(await see()).toBe(200);
    await database().clip.updateMany({ where: { playerId: story.playerId }, data: { firstFrame: 1 } });
    expect(await see()).toBe(404);
  });
});

describe("bytes that were lost from the store", () => {
  test("are said in a sentence, and the same film sent again makes the clip whole without a second one", async () => {
    const story = await coachWithPlayer();
    const file = room.plain("lost.mp4");
    await work(await sendFile(story.coach, story.playerId, file));
    const clip = await database().clip.findFirstOrThrow({ where: { playerId: story.playerId }, include: { file: true } });
    const watch = () => streamSteppingCopy.as(story.coach, new Request("http://cage.test/x"), { clipId: clip.id });
    expect((await watch()).status).toBe(200);
    rmSync(path.join(store(), clip.file.steppingKey));
    const gone = await watch();
    expect([gone.status, await gone.text()]).toEqual([410, expect.stringMatching(/no longer where they were kept.*tell an admin/)]);
    await work(await sendFile(story.coach, story.playerId, file));
    expect((await watch()).status).toBe(200);
    expect(await database().clip.count({ where: { playerId: story.playerId } })).toBe(1);
  });
});

describe("a name with path parts or a script", () => {
  test.each(["../../../escaped.mp4", "/etc/cron.d/x", "<script>alert(1)</script>.mp4", "Ada Reed.mov", "..\\..\\x.mp4"])("is neither followed nor kept: %s", async (name) => {
    const story = await coachWithPlayer();
    const { uploadId, bytes } = await begin(story, room.plain("named.mp4"));
    const metadata = [["upload", uploadId], ["filename", name], ["name", name]].map(([key, value]) => `${key} ${Buffer.from(value ?? "").toString("base64")}`).join(",");
    const headers = { "tus-resumable": "1.0.0", "upload-length": String(bytes.length), "upload-metadata": metadata };
    expect((await sendUploadBytes.as(story.coach, new Request("http://cage.test/api/uploads", { method: "POST", headers }), {})).status).toBe(201);
    const kept = readdirSync(store(), { recursive: true }).map(String);
    expect(kept.filter((it) => it.includes("escaped") || it.includes("script") || it.includes("Ada"))).toEqual([]);
    expect(readFileSync(path.join(store(), "incoming", `${uploadId}.json`), "utf8")).not.toMatch(/escaped|script|Ada|cron/);
    expect((await sendUploadBytes.as(story.coach, new Request(`http://cage.test/api/uploads/${encodeURIComponent(name)}`, { method: "HEAD", headers: { "tus-resumable": "1.0.0" } }), { tus: [name] })).status).toBe(404);
    await patchBytes(story.coach, uploadId, 0, bytes);
    await work(uploadId);
    const keys = readdirSync(path.join(store(), story.academyId), { recursive: true, withFileTypes: true }).filter((it) => it.isFile()).map((it) => path.relative(store(), path.join(it.parentPath, it.name)));
    expect(keys.every((key) => /^[0-9a-f-]{36}\/[0-9a-f]{64}\/(original|stepping\.mp4|poster\.jpg)$/.test(key))).toBe(true);
  });
});
