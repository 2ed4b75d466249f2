import { mkdirSync, statSync } from "node:fs";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { addMark, clearEvent, markPointUnseen, placePoint, removeMark, removePoint, setClipFacts, setEvent } from "@/lib/domains/clips/actions";
import { getSwing, listSwings } from "@/lib/domains/clips/queries";
import { showPoster, showStill, streamSteppingCopy } from "@/lib/domains/clips/routes";
import { clipsScope, findClipSubject } from "@/lib/domains/clips/scope";
import { watchClip } from "@/lib/domains/clips/policy";
import { OvertakenError } from "@/lib/core/errors";
import { database } from "@/lib/platform/database";
import { findActor } from "@/lib/access/session";
import { buildGuardianship, buildSession, buildUser } from "@/seed/builders/people";
import { buildClip, coachWithPlayer, putBlob } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

const clipOf = async (coach: Person, swingId: string) => {
  const [own] = (await getSwing.as(coach, { swingId })).clips;
  if (!own) throw new Error("no clip");
  return own.clip;
};

describe("what a coach says of a clip", () => {
  test("an event lands on its frame's tick; what was heard stays beside it and returns when the coach takes it back", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const key = { academyId: story.academyId, swingId, event: "contact", clipId };
    await database().swingEvent.create({ data: { ...key, source: "sound", frameIndex: 300, tick: 300n * 64n, sdSeconds: 0.01 } });
    await setEvent.as(story.coach, { clipId, event: "contact", frameIndex: 310 });
    expect((await clipOf(story.coach, swingId)).events).toMatchObject([{ event: "contact", frameIndex: 310, tick: 310 * 64, source: "coach" }]);
    expect(await database().swingEvent.count({ where: { swingId } })).toBe(2);
    await setEvent.as(story.coach, { clipId, event: "contact", frameIndex: 311 });
    expect(await database().swingEvent.count({ where: { swingId } })).toBe(2);
    await clearEvent.as(story.coach, { clipId, event: "contact" });
    expect((await clipOf(story.coach, swingId)).events).toMatchObject([{ frameIndex: 300, source: "suggested", sdSeconds: 0.01 }]);
  });

  test("a frame that the clip does not have and a place outside the picture are refused, and nothing is kept", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip({ ...story, frames: 100 });
    await expect(setEvent.as(story.coach, { clipId, event: "plant", frameIndex: 100 })).rejects.toThrow("does not belong to the clip");
    await expect(placePoint.as(story.coach, { clipId, frameIndex: 100, point: "knob", x: 1, y: 1 })).rejects.toThrow("does not belong to the clip");
    await expect(placePoint.as(story.coach, { clipId, frameIndex: 5, point: "knob", x: 1281, y: 1 })).rejects.toThrow("outside the picture");
    await expect(addMark.as(story.coach, { clipId, frameIndex: 100, shape: { v: 1, kind: "line", x1: 0, y1: 0, x2: 1, y2: 1 } })).rejects.toThrow("does not belong");
    expect(await clipOf(story.coach, swingId)).toMatchObject({ events: [], points: [], marks: [] });
  });

  test("a placed point stands before a suggested one, can be unseen instead, and is forgotten alone", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const point = { clipId, frameIndex: 7, point: "kn_f" as const };
    await database().clipPoint.create({ data: { academyId: story.academyId, clipId, frameIndex: 7, point: "kn_f", source: "suggested", xPx: 5, yPx: 5 } });
    await placePoint.as(story.coach, { ...point, x: 10.5, y: 20.25 });
    expect((await clipOf(story.coach, swingId)).points).toEqual([{ frameIndex: 7, point: "kn_f", x: 10.5, y: 20.25, source: "coach" }]);
    await markPointUnseen.as(story.coach, point);
    // What a person says cannot be seen is not suggested either, until that is taken back.
    expect(await clipOf(story.coach, swingId)).toMatchObject({ points: [], unseenPoints: [{ frameIndex: 7, point: "kn_f" }] });
    await placePoint.as(story.coach, { ...point, x: 11, y: 21 });
    expect((await clipOf(story.coach, swingId)).unseenPoints).toEqual([]);
    await removePoint.as(story.coach, point);
    expect((await clipOf(story.coach, swingId)).points).toMatchObject([{ x: 5, source: "suggested" }]);
  });

  test("who looked before somebody else placed the point is told who did, and what stands is theirs", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const point = { clipId, frameIndex: 7, point: "kn_f" as const };
    const placed = async () => (await clipOf(story.coach, swingId)).points.map(({ x, y }) => [x, y]);
    await placePoint.as(story.coach, { ...point, x: 10.1, y: 20.2, was: null });
    await expect(placePoint.as(story.coach, { ...point, x: 90, y: 90, was: null })).rejects.toThrow("In another window you placed it at");
    await database().clipPoint.updateMany({ where: { clipId }, data: { setById: null } });
    await expect(markPointUnseen.as(story.coach, { ...point, was: null })).rejects.toThrow("Somebody placed it at");
    await expect(removePoint.as(story.coach, { ...point, was: { x: 10, y: 20.2 } })).rejects.toThrow(OvertakenError);
    expect(await placed()).toEqual([[10.1, 20.2]]);
    await placePoint.as(story.coach, { ...point, x: 11, y: 21, was: { x: 10.1, y: 20.2 } });
    expect(await placed()).toEqual([[11, 21]]);
    await markPointUnseen.as(story.coach, { ...point, was: { x: 11, y: 21 } });
    await expect(placePoint.as(story.coach, { ...point, x: 1, y: 1, was: { x: 11, y: 21 } })).rejects.toThrow("you said that it cannot be seen at");
    await removePoint.as(story.coach, { ...point, was: "unseen" });
    await expect(placePoint.as(story.coach, { ...point, x: 1, y: 1, was: "unseen" })).rejects.toThrow("Meanwhile it was taken away.");
  });

  test("of two who set an event from the same sight one is kept and the other is told", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const both = await Promise.allSettled([5, 9].map((frameIndex) => setEvent.as(story.coach, { clipId, event: "plant", frameIndex, was: null })));
    expect(both.map((it) => it.status).sort()).toEqual(["fulfilled", "rejected"]);
    const [stands] = (await clipOf(story.coach, swingId)).events;
    expect(stands?.frameIndex).toBe(both[0]?.status === "fulfilled" ? 5 : 9);
    await expect(clearEvent.as(story.coach, { clipId, event: "plant", was: null })).rejects.toThrow("set it on another frame");
    await clearEvent.as(story.coach, { clipId, event: "plant", was: { clipId, frameIndex: stands?.frameIndex ?? 0 } });
    await expect(setEvent.as(story.coach, { clipId, event: "plant", frameIndex: 5, was: { clipId, frameIndex: 9 } })).rejects.toThrow("Meanwhile it was cleared.");
  });

  test("a mark is kept in picture pixels with the version of its form, and one of no known form is refused", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const shape = { v: 1, kind: "ring", cx: 100, cy: 80, rx: 30, ry: 20 } as const;
    const { markId } = (await addMark.as(story.coach, { clipId, frameIndex: 9, shape })).data as { markId: string };
    expect((await clipOf(story.coach, swingId)).marks).toEqual([{ id: markId, frameIndex: 9, shape }]);
    await expect(addMark.as(story.coach, { clipId, frameIndex: 9, shape: { v: 2, kind: "ring" } } as never)).rejects.toThrow();
    await removeMark.as(story.coach, { markId });
    expect((await clipOf(story.coach, swingId)).marks).toEqual([]);
    await expect(removeMark.as(story.coach, { markId })).rejects.toThrow("no such");
  });

  test("how it was filmed can be corrected, and real time follows", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip({ ...story, fps: 30 });
    const camera = { view: "rear", isMirrored: true, hasCameraMoved: true, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: 12 } as const;
    await setClipFacts.as(story.coach, { clipId, filmedRate: "240", ...camera });
    const swing = await getSwing.as(story.coach, { swingId });
    expect(swing.clips[0]).toMatchObject({ clip: { view: "rear", isMirrored: true, realSecondsPerFileSecond: 1 / 8, timeBasis: "stated" }, camera: { hasCameraMoved: true, cameraOffDeg: 12 } });
    await setClipFacts.as(story.coach, { clipId, filmedRate: "unknown", ...camera });
    expect((await clipOf(story.coach, swingId)).timeBasis).toBe("unknown");
  });

  test("many changes of one swing leave one waiting order to make its readings", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    for (let frameIndex = 0; frameIndex < 5; frameIndex++) await placePoint.as(story.coach, { clipId, frameIndex, point: "nose", x: 1, y: 1 });
    const [row] = await database().$queryRaw<{ count: number }[]>`SELECT count(*)::int AS count FROM graphile_worker.jobs WHERE key = ${`readings ${swingId}`}`;
    expect(row?.count).toBe(1);
  });
});

describe("lists", () => {
  test("a player's swings come newest first, page by page, without the film when no consent is in force", async () => {
    const story = await coachWithPlayer();
    for (let i = 0; i < 30; i++) await buildClip(story);
    const first = await listSwings.as(story.coach, { playerId: story.playerId });
    const second = await listSwings.as(story.coach, { playerId: story.playerId, after: first.next ?? undefined });
    expect([first.rows.length, second.rows.length, second.next]).toEqual([24, 6, null]);
    expect(new Set([...first.rows, ...second.rows].map((row) => row.id)).size).toBe(30);
    expect(first.rows[0]?.posterUrl).toContain("/api/media/");
    await database().consent.update({ where: { id: story.consentId }, data: { withdrawnAt: new Date() } });
    expect((await listSwings.as(story.coach, { playerId: story.playerId })).rows[0]?.posterUrl).toBeNull();
    expect((await getSwing.as(story.coach, { swingId: first.rows[0]?.id ?? "" })).isShown).toBe(false);
  });

  test("the scope of clips and the ability to watch one give the same answer", async () => {
    const [one, two] = [await coachWithPlayer(), await coachWithPlayer()];
    const guardian = await buildUser({ academyId: one.academyId, roles: ["guardian"] });
    await buildGuardianship({ academyId: one.academyId, playerId: one.playerId, userId: guardian.id });
    const session = await buildSession({ academyId: one.academyId, userId: guardian.id, activeRole: "guardian" });
    const actors = [one.coach, two.coach, await findActor(session.id)];
    const clips = [await buildClip(one), await buildClip(two)];
    await database().consent.update({ where: { id: two.consentId }, data: { withdrawnAt: new Date() } });
    for (const actor of actors) {
      if (actor.kind !== "person") throw new Error("nobody");
      for (const { clipId } of clips) {
        const subject = await findClipSubject(database(), actor.academyId, clipId, actor.today);
        const inScope = await database().clip.count({ where: { AND: [clipsScope(actor), { id: clipId }] } });
        expect(inScope === 1).toBe(subject !== null && watchClip.allows(actor, subject));
      }
    }
  });
});

describe("pictures out", () => {
  let story: Awaited<ReturnType<typeof coachWithPlayer>>;
  let clip: Awaited<ReturnType<typeof buildClip>>;
  const ask = (headers: Record<string, string> = {}) => new Request("http://cage.test/x", { headers });
  beforeAll(async () => {
    story = await coachWithPlayer();
    clip = await buildClip({ ...story, fps: 120, frames: 178 });
    const file = room.uneven("copy.mp4");
    mkdirSync(path.dirname(path.join(process.env.BLOB_DIR ?? "", clip.keys.stepping)), { recursive: true });
    putBlob(clip.keys.stepping, file);
    putBlob(clip.keys.poster, file);
  });
  const stream = (headers?: Record<string, string>) => streamSteppingCopy.as(story.coach, ask(headers), { clipId: clip.clipId });

  test("the copy is sent whole or in the range that was asked for, and never kept by anybody between", async () => {
    const length = statSync(room.at("copy.mp4")).size;
    const whole = await stream();
    expect([whole.status, whole.headers.get("content-length"), whole.headers.get("accept-ranges")]).toEqual([200, String(length), "bytes"]);
    expect(whole.headers.get("cache-control")).toBe("private, no-cache");
    const bytes = new Uint8Array(await whole.arrayBuffer());
    const part = await stream({ range: "bytes=100-199" });
    expect([part.status, part.headers.get("content-range"), part.headers.get("content-length")]).toEqual([206, `bytes 100-199/${length}`, "100"]);
    expect(new Uint8Array(await part.arrayBuffer())).toEqual(bytes.slice(100, 200));
    const beyond = await stream({ range: `bytes=${length}-` });
    expect([beyond.status, beyond.headers.get("content-range")]).toEqual([416, `bytes */${length}`]);
    expect((await stream({ range: "bytes=0-9", "if-range": '"another"' })).status).toBe(200);
    expect((await stream({ "if-none-match": whole.headers.get("etag") ?? "" })).status).toBe(304);
  });

  test("one look leaves one row a session, clip and quarter hour", async () => {
    await stream();
    await stream({ range: "bytes=0-1" });
    await showPoster.as(story.coach, ask(), { clipId: clip.clipId });
    expect(await database().mediaRead.count({ where: { clipId: clip.clipId, sessionId: story.coach.sessionId } })).toBe(1);
  });

  test("a still is made when it is asked for, kept, and refused outside the clip", async () => {
    const still = (frameIndex: string) => showStill.as(story.coach, ask(), { clipId: clip.clipId, frameIndex });
    const first = await still("3");
    expect([first.status, first.headers.get("content-type")]).toEqual([200, "image/jpeg"]);
    expect(statSync(path.join(process.env.BLOB_DIR ?? "", path.dirname(clip.keys.stepping), "stills", "3.jpg")).size).toBeGreaterThan(100);
    expect((await still("3")).status).toBe(200);
    for (const wrong of ["178", "-1", "1.5", "x"]) expect((await still(wrong)).status).toBe(404);
  });

  test("without a consent in force nothing is sent, from one moment to the next, and nobody reads that it exists", async () => {
    await database().consent.update({ where: { id: story.consentId }, data: { withdrawnAt: new Date() } });
    for (const response of [await stream(), await showPoster.as(story.coach, ask(), { clipId: clip.clipId }), await showStill.as(story.coach, ask(), { clipId: clip.clipId, frameIndex: "3" })]) {
      expect(response.status).toBe(404);
      expect(response.headers.get("cache-control")).toBe("no-store");
    }
    await expect(setEvent.as(story.coach, { clipId: clip.clipId, event: "contact", frameIndex: 1 })).rejects.toThrow("no such");
    await database().consent.update({ where: { id: story.consentId }, data: { withdrawnAt: null } });
  });
});
