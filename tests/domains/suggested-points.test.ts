import { mkdirSync } from "node:fs";
import path from "node:path";
import { PassThrough } from "node:stream";
import type { Writable } from "node:stream";
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { markPointUnseen, placePoint, setClipFacts, setEvent } from "@/lib/domains/clips/actions";
import { placePoints, swapPoints } from "@/lib/domains/clips/points/actions";
import { getSwing } from "@/lib/domains/clips/queries";
import { lookAgain } from "@/lib/domains/clips/suggested/actions";
import { suggestPointsOfClip } from "@/lib/domains/clips/suggested/jobs";
import { getSuggesting, getSuggestionErrors } from "@/lib/domains/clips/suggested/queries";
import { makeReadings } from "@/lib/domains/measurement/jobs";
import { getSwingReadings } from "@/lib/domains/measurement/queries";
import type { SeenBody } from "@/lib/measure/suggest-points/seen-body";
import { bodyAt } from "@/lib/measure/suggest-points/body.fixture";
import { database } from "@/lib/platform/database";
import type { BodyTask, FrameBodies } from "@/lib/platform/pose/body-task";
import { giveFrames } from "@/lib/platform/video/make-pictures";
import { buildLibrary } from "@/seed/builders/library";
import { buildSession, buildUser } from "@/seed/builders/people";
import { findActor } from "@/lib/access/session";
import type { Person } from "@/lib/access/actor";
import { buildClip, coachWithPlayer, putBlob } from "./clip-story";
import { filmRoom } from "./video-files";

// The model itself is tried in tests/golden/pose.test.ts; here it is a stand-in that takes the real pictures and says what it is told.
const model = vi.hoisted(() => ({ bodies: null as unknown, installed: true, fails: false, meanwhile: null as null | (() => Promise<unknown>), calls: 0, bytes: 0 }));
vi.mock("@/lib/platform/pose/find-bodies", () => ({
  findBodies: async ({ seconds }: BodyTask, give: (pictures: Writable) => Promise<unknown>): Promise<FrameBodies[]> => {
    model.calls++;
    const sink = new PassThrough();
    sink.on("data", (bytes: Buffer) => (model.bytes += bytes.length));
    await give(sink);
    await model.meanwhile?.();
    if (model.fails) throw new Error("the model ended with 1");
    return seconds.map((at) => ({ bodies: (model.bodies as (at: number) => SeenBody[])(at), ms: 80 }));
  },
}));
vi.mock("@/lib/platform/pose/load-model", () => ({ installedModel: async () => (model.installed ? { model: "stand-in", version: "1.0" } : null) }));

vi.setConfig({ testTimeout: 90_000 });

const room = filmRoom();
afterAll(room.remove);

/** A hitter whose hands move, hips at (160, 90) of the 320 × 180 picture; the torso has 25 px. */
const apart = (y: number) => ({ left: [650, y], right: [630, y] }) as const;
const hitter = (at: number): SeenBody => {
  const hands = { left: [640 + 900 * (at + 0.3), 320], right: [650 + 900 * (at + 0.3), 320] } as const;
  const body = bodyAt(0, [640, 360], { sh: apart(260), hip: apart(360), kn: apart(410), an: apart(460), heel: apart(465), toe: apart(470), wr: hands });
  return { ...body, joints: body.joints.map(({ x, y, confidence }) => ({ x: x / 4, y: y / 4, confidence })) };
};

let story: Awaited<ReturnType<typeof coachWithPlayer>>;
let film: string;
beforeAll(async () => {
  story = await coachWithPlayer();
  await buildLibrary(story.academyId);
  film = room.plain("copy.mp4", { frames: 60, size: "320x180" });
});
beforeEach(() => {
  Object.assign(model, { bodies: (at: number) => [hitter(at)], installed: true, fails: false, meanwhile: null, calls: 0, bytes: 0 });
});

async function filmed({ hasCopy = true, contact = 40 as number | null } = {}) {
  const clip = await buildClip({ ...story, fps: 60, frames: 60 });
  await database().mediaFile.update({ where: { id: clip.fileId }, data: { widthPx: 320, heightPx: 180 } });
  mkdirSync(path.dirname(path.join(process.env.BLOB_DIR ?? "", clip.keys.stepping)), { recursive: true });
  if (hasCopy) putBlob(clip.keys.stepping, film);
  if (contact !== null) await setEvent.as(story.coach, { clipId: clip.clipId, event: "contact", frameIndex: contact });
  const { clipId } = clip;
  const look = (again = 0, isLastTry = false) => suggestPointsOfClip.perform({ clipId, again }, isLastTry);
  const stored = () => database().clipPoint.findMany({ where: { clipId, source: "suggested" }, orderBy: [{ frameIndex: "asc" }, { point: "asc" }] });
  const state = () => getSuggesting.as(story.coach, { clipId });
  return { ...clip, look, stored, state };
}

describe("points that the model suggests", () => {
  test("are kept as suggestions on the frames around contact, front and back, with confidence and the model's name", async () => {
    const clip = await filmed();
    expect(await clip.state()).toEqual({ is: "waiting" });
    expect(await clip.look()).toEqual({ is: "done" });
    const rows = await clip.stored();
    const frames = [...new Set(rows.map(({ frameIndex }) => frameIndex))];
    // Contact at frame 40 of 60 a second: the close stretch is frames 22 to 47, the loose one begins at frame 0.
    expect(Math.min(...frames)).toBe(0);
    expect(Math.max(...frames)).toBe(47);
    expect(frames).toEqual(expect.arrayContaining([22, 38, 39, 40, 41]));
    // Every picture of the copy was handed over whole.
    expect(model.bytes).toBe(frames.length * 320 * 180 * 3);
    // A right-handed hitter's front knee is the left one, here on the pitcher's side.
    expect(rows.find(({ frameIndex, point }) => frameIndex === 40 && point === "kn_f")).toMatchObject({ xPx: 162.5, yPx: 102.5, confidence: 0.9, setById: null });
    const frame = await database().suggestedFrame.findFirst({ where: { clipId: clip.clipId, frameIndex: 40 } });
    expect(frame).toMatchObject({ model: "stand-in", modelVersion: "1.0", presence: 0.95 });
    expect(await clip.state()).toEqual({ is: "done", frames: frames.length, found: frames.length, model: "stand-in", version: "1.0" });
    const [own] = (await getSwing.as(story.coach, { swingId: clip.swingId })).clips;
    expect(own?.clip.points.every(({ source }) => source === "suggested")).toBe(true);
  });

  test("below one half of confidence, or outside the picture, are none", async () => {
    const clip = await filmed();
    model.bodies = (at: number) => [{ ...hitter(at), joints: hitter(at).joints.map((joint, i) => (i === 25 ? { ...joint, confidence: 0.49 } : i === 26 ? { ...joint, x: -5 } : joint)) }];
    await clip.look();
    expect((await clip.stored()).some(({ point }) => point.startsWith("kn"))).toBe(false);
  });

  test("a second run changes nothing and does not trouble the model; asked for again it makes the same rows", async () => {
    const clip = await filmed();
    await clip.look();
    const before = (await clip.stored()).map(({ setAt: _, ...row }) => row);
    expect(await clip.look()).toEqual({ is: "skipped", because: "every frame that is needed was looked at" });
    expect(model.calls).toBe(1);
    expect(await clip.look(1)).toEqual({ is: "done" });
    expect((await clip.stored()).map(({ setAt: _, ...row }) => row)).toEqual(before);
  });

  test("an event on a frame that was not looked at brings another look", async () => {
    const clip = await filmed();
    await clip.look();
    await setEvent.as(story.coach, { clipId: clip.clipId, event: "finish", frameIndex: 56 });
    expect(await clip.look()).toEqual({ is: "done" });
    expect((await clip.stored()).some(({ frameIndex }) => frameIndex === 56)).toBe(true);
  });

  test("replace only the model's own that nobody touched: a placed point, an unseen one and an exchanged suggestion stay", async () => {
    const clip = await filmed();
    const { clipId } = clip;
    await clip.look();
    await placePoint.as(story.coach, { clipId, frameIndex: 40, point: "kn_f", x: 150, y: 100 });
    await markPointUnseen.as(story.coach, { clipId, frameIndex: 40, point: "an_f" });
    await swapPoints.as(story.coach, { clipId, frameIndex: 40, pairs: ["hip"] });
    const swapped = (await clip.stored()).filter(({ frameIndex, point }) => frameIndex === 40 && point.startsWith("hip"));
    model.bodies = (at: number) => [{ ...hitter(at), joints: hitter(at).joints.map((joint) => ({ ...joint, x: joint.x + 3 })) }];
    await clip.look(1);
    const rows = await clip.stored();
    expect(rows.filter(({ frameIndex, point }) => frameIndex === 40 && point.startsWith("hip"))).toEqual(swapped);
    expect(rows.find(({ frameIndex, point }) => frameIndex === 39 && point === "hip_f")?.xPx).toBe(165.5);
    const [own] = (await getSwing.as(story.coach, { swingId: clip.swingId })).clips;
    const on40 = own?.clip.points.filter(({ frameIndex }) => frameIndex === 40) ?? [];
    expect(on40.find(({ point }) => point === "kn_f")).toMatchObject({ x: 150, source: "coach" });
    expect(on40.some(({ point }) => point === "an_f")).toBe(false);
    expect(own?.clip.unseenPoints).toContainEqual({ frameIndex: 40, point: "an_f" });
  });

  test("of a file that proves to be mirrored are forgotten at once, and told the other way round by the next look", async () => {
    const clip = await filmed();
    await clip.look();
    await setClipFacts.as(story.coach, { clipId: clip.clipId, view: "side", isMirrored: true, filmedRate: "as-file", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null });
    expect(await clip.stored()).toEqual([]);
    await clip.look();
    expect((await clip.stored()).find(({ frameIndex, point }) => frameIndex === 40 && point === "kn_f")?.xPx).toBe(157.5);
  });

  test("go with their clip", async () => {
    const clip = await filmed();
    const { clipId } = clip;
    await clip.look();
    await database().clipPoint.deleteMany({ where: { clipId } });
    await database().swingEvent.deleteMany({ where: { clipId } });
    await database().clip.delete({ where: { id: clipId } });
    expect([await database().suggestedFrame.count({ where: { clipId } }), await database().suggestingRun.count({ where: { clipId } })]).toEqual([0, 0]);
    expect(await clip.look()).toEqual({ is: "skipped", because: "the clip is gone" });
  });
});

describe("consent", () => {
  test("without one in force nothing is looked at; taken back while the model looks, nothing is kept", async () => {
    const clip = await filmed();
    const permits = { where: { playerId: story.playerId, use: "lesson" } };
    const permit = await database().permit.findFirstOrThrow(permits);
    const away = async (): Promise<unknown> => database().permit.deleteMany(permits);
    await away();
    expect(await clip.look()).toMatchObject({ is: "skipped", because: expect.stringContaining("no consent") });
    expect(model.calls).toBe(0);
    await database().permit.create({ data: permit });
    model.meanwhile = away;
    expect(await clip.look()).toMatchObject({ is: "skipped", because: expect.stringContaining("no consent") });
    expect(model.calls).toBe(1);
    await database().permit.create({ data: permit });
    expect(await clip.stored()).toEqual([]);
    expect(await database().suggestingRun.count({ where: { clipId: clip.clipId } })).toBe(0);
  });
});

describe("where nothing is suggested the page says why, and all goes on by hand", () => {
  interface Case {
    readonly why: string;
    readonly how: Parameters<typeof filmed>[0];
    readonly told: Partial<typeof model>;
  }
  const cases: readonly Case[] = [
    { why: "no-contact", how: { contact: null }, told: {} },
    { why: "no-copy", how: { hasCopy: false }, told: {} },
    { why: "no-model", how: {}, told: { installed: false } },
    { why: "nobody-found", how: {}, told: { bodies: () => [] } },
  ];
  test.each(cases)("$why", async ({ why, how, told }) => {
    const clip = await filmed(how);
    Object.assign(model, told);
    expect(await clip.look()).toEqual({ is: "skipped", because: why });
    expect(await clip.state()).toEqual({ is: "not", why });
    await placePoint.as(story.coach, { clipId: clip.clipId, frameIndex: 3, point: "kn_f", x: 150, y: 100 });
  });

  test("a model that fails is tried once more, then the clip says so and the log why", async () => {
    const clip = await filmed();
    model.fails = true;
    await expect(clip.look()).rejects.toThrow("ended with 1");
    expect(await clip.state()).toEqual({ is: "waiting" });
    expect(await clip.look(0, true)).toEqual({ is: "skipped", because: "failed" });
    expect(await clip.state()).toEqual({ is: "not", why: "failed" });
    model.fails = false;
    expect((await lookAgain.as(story.coach, { clipId: clip.clipId })).message).toContain("looks again");
    expect(await clip.look(1)).toEqual({ is: "done" });
  });
});

describe("the worker is told", () => {
  const told = (key: string) => database().$queryRaw<{ queue_name: string | null; max_attempts: number }[]>`
    SELECT q.queue_name, j.max_attempts FROM graphile_worker._private_jobs j LEFT JOIN graphile_worker._private_job_queues q ON q.id = j.job_queue_id WHERE j.key = ${key}`;

  test("once for many events in a row, in a line of its own, so that uploads never wait behind the model", async () => {
    const clip = await filmed();
    for (let frame = 10; frame < 14; frame++) await setEvent.as(story.coach, { clipId: clip.clipId, event: "plant", frameIndex: frame });
    expect(await told(`points ${clip.clipId}`)).toEqual([{ queue_name: "pose", max_attempts: 2 }]);
  });
});

describe("what readings make of suggestions", () => {
  const readingOf = async (swingId: string, id: string) => {
    const { clips } = await getSwingReadings.as(story.coach, { swingId });
    return clips[0]?.readings.find(({ checkpointId }) => checkpointId === id);
  };

  test("a draft makes a grey reading, elbows and wrists none until a coach takes them, and nothing is taken by itself", async () => {
    const clip = await filmed();
    const { clipId, swingId } = clip;
    for (const [event, frameIndex] of [["stance", 12], ["plant", 28], ["launch", 32]] as const) await setEvent.as(story.coach, { clipId, event, frameIndex });
    await clip.look();
    await makeReadings.perform({ swingId }, false);
    const trunk = await readingOf(swingId, "trunk-lean-at-contact");
    expect(trunk).toMatchObject({ isGrey: true, verdict: null });
    expect(trunk?.reasons.map(({ id }) => id)).toContain("points-unconfirmed");
    expect(trunk?.value).not.toBeNull();
    const arm = await readingOf(swingId, "lead-arm-bend-at-plant");
    expect(arm).toMatchObject({ value: null });
    expect(await database().clipPoint.count({ where: { clipId, source: "placed" } })).toBe(0);

    const around = (await clip.stored()).filter(({ frameIndex, point }) => [27, 28, 29].includes(frameIndex) && /^(sh|el|wr)_/.test(point));
    for (const frameIndex of [27, 28, 29]) {
      await placePoints.as(story.coach, { clipId, frameIndex, points: around.filter((it) => it.frameIndex === frameIndex).map(({ point, xPx: x, yPx: y }) => ({ point: point as "el_f", was: null, place: { x, y } })) });
    }
    expect((await readingOf(swingId, "lead-arm-bend-at-plant"))?.value).not.toBeNull();
  });
});

describe("how far off the model is", () => {
  test("is told to the head coach by joint and view, in pixels and torsos: taken ones count as answered, exchanged ones do not judge it", async () => {
    const other = await coachWithPlayer();
    const clip = await buildClip({ ...other, fps: 60, frames: 60 });
    const { clipId } = clip;
    const { academyId } = other;
    const head = (await findActor((await buildSession({ academyId, userId: (await buildUser({ academyId, roles: ["head-coach"] })).id, activeRole: "head-coach" })).id)) as Person;
    expect((await getSuggestionErrors.as(head, {})).rows).toEqual([]);
    // A torso of 100 px, and knees that are moved by 3-4-5 triangles: 5, 10, 15 px; one is taken as it is, one was exchanged by hand.
    const suggest = (frameIndex: number, point: string, xPx: number, yPx: number, setById: string | null = null) =>
      database().clipPoint.create({ data: { academyId, clipId, frameIndex, point, source: "suggested", xPx, yPx, confidence: 0.9, setById } });
    for (const [point, y] of [["sh_f", 200], ["sh_b", 200], ["hip_f", 300], ["hip_b", 300]] as const) await suggest(1, point, 500, y);
    for (const frame of [1, 2, 3, 4]) await suggest(frame, "kn_f", 500, 350);
    await suggest(5, "kn_f", 500, 350, other.userId);
    for (const [frameIndex, x, y] of [[1, 503, 354], [2, 506, 358], [3, 509, 362], [4, 500, 350], [5, 900, 350]] as const) {
      await placePoint.as(other.coach, { clipId, frameIndex, point: "kn_f", x, y });
    }
    const { rows, exchangedByHand } = await getSuggestionErrors.as(head, {});
    expect(exchangedByHand).toBe(1);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ view: "side", joint: "kn", answered: 4, taken: 1, medianPx: 10 });
    // Percentile 95 of 5, 10, 15, linear between order statistics: 14.5.
    expect([rows[0]?.p95Px, rows[0]?.medianTorso, rows[0]?.p95Torso]).toEqual([expect.closeTo(14.5, 9), expect.closeTo(0.1, 9), expect.closeTo(0.145, 9)]);
  });
});

test("frames of a copy are handed over by their index, one after the other", async () => {
  const file = room.uneven("uneven.mp4");
  const sink = new PassThrough();
  const gathered: Buffer[] = [];
  sink.on("data", (bytes: Buffer) => gathered.push(bytes));
  await giveFrames(file, [3, 77, 130], { width: 320, height: 64 }, sink);
  const bytes = Buffer.concat(gathered);
  const frame = 320 * 64 * 3;
  const indexOf = (i: number) => Array.from({ length: 10 }, (_, bit) => ((bytes[i * frame + (32 * 320 + bit * 32 + 16) * 3] ?? 0) > 128 ? 2 ** bit : 0)).reduce((a, b) => a + b, 0);
  expect(bytes.length).toBe(3 * frame);
  expect([0, 1, 2].map(indexOf)).toEqual([3, 77, 130]);
});
