import { afterAll, describe, expect, test } from "vitest";
import { newId } from "@/lib/core/ids";
import { beginUpload, clearEvent, setClipFacts, setEvent } from "@/lib/domains/clips/actions";
import { getSwing, listSwingsToJoin } from "@/lib/domains/clips/queries";
import type { EventId } from "@/lib/domains/clips/view";
import { swingInput, timedClip, withLiveClip } from "@/lib/domains/measurement/rules";
import { database } from "@/lib/platform/database";
import { buildPlayer } from "@/seed/builders/people";
import { buildClip, coachWithPlayer, facts, sendFile, work } from "./clip-story";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** One swing filmed from the side at 240 and from the front at 120 frames a second; contact at frame 300 and 100. */
async function twoCameras(given: { isFrontLinedUp?: boolean } = {}) {
  const story = await coachWithPlayer();
  const side = await buildClip(story);
  const front = await buildClip({ ...story, swingId: side.swingId, view: "front", fps: 120, frames: 240 });
  const set = (clipId: string, event: EventId, frameIndex: number) => setEvent.as(story.coach, { clipId, event, frameIndex });
  await set(side.clipId, "contact", 300);
  if (given.isFrontLinedUp !== false) await set(front.clipId, "contact", 100);
  const swing = () => getSwing.as(story.coach, { swingId: side.swingId });
  const eventOn = async (clipId: string, event: EventId) => (await swing()).clips.find(({ clip }) => clip.id === clipId)?.clip.events.find((it) => it.event === event);
  return { ...story, side, front, set, swing, eventOn };
}

describe("events of a swing with two cameras", () => {
  test("each clip has its own contact, and toe touch set on one falls on the other's frame so many seconds from its contact", async () => {
    const { side, front, set, eventOn } = await twoCameras();
    await set(side.clipId, "toe", 252);
    expect(await eventOn(side.clipId, "contact")).toMatchObject({ frameIndex: 300 });
    expect(await eventOn(front.clipId, "contact")).toMatchObject({ frameIndex: 100 });
    expect(await eventOn(front.clipId, "toe")).toMatchObject({ frameIndex: 76, elsewhere: { clipId: side.clipId, view: "side", frameIndex: 252, secondsFromContact: -48 / 240 } });
    expect((await eventOn(side.clipId, "toe"))?.elsewhere).toBeUndefined();
  });

  test("an event set again on the other camera moves there, and the swing keeps one", async () => {
    const { side, front, set, eventOn } = await twoCameras();
    await set(side.clipId, "toe", 252);
    await set(front.clipId, "toe", 74);
    expect(await database().swingEvent.count({ where: { swingId: side.swingId, event: "toe" } })).toBe(1);
    expect(await eventOn(side.clipId, "toe")).toMatchObject({ frameIndex: 248, elsewhere: { clipId: front.clipId } });
  });

  test("a clip without contact shows the other's events without a frame, and does not take one over", async () => {
    const { side, front, set, eventOn } = await twoCameras({ isFrontLinedUp: false });
    await set(side.clipId, "toe", 252);
    expect(await eventOn(front.clipId, "toe")).toMatchObject({ frameIndex: null, tick: null });
    await expect(set(front.clipId, "toe", 74)).rejects.toThrow("Set contact on this clip first");
    expect(await eventOn(side.clipId, "toe")).toMatchObject({ frameIndex: 252 });
    await set(front.clipId, "plant", 80);
    expect(await eventOn(side.clipId, "plant")).toMatchObject({ frameIndex: null, elsewhere: { secondsFromContact: null } });
  });

  test("a clip whose real time nobody knows is not lined up", async () => {
    const { coach, side, front, set, eventOn } = await twoCameras();
    await set(side.clipId, "toe", 252);
    const camera = { view: "front", isMirrored: false, hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null } as const;
    await setClipFacts.as(coach, { clipId: front.clipId, ...camera, filmedRate: "unknown" });
    expect(await eventOn(front.clipId, "toe")).toMatchObject({ frameIndex: null, tick: null });
  });

  test("clearing an event clears it for all cameras, clearing contact only for its own", async () => {
    const { coach, side, front, set, eventOn } = await twoCameras();
    await set(side.clipId, "toe", 252);
    await clearEvent.as(coach, { clipId: front.clipId, event: "toe" });
    expect(await eventOn(side.clipId, "toe")).toBeUndefined();
    await clearEvent.as(coach, { clipId: front.clipId, event: "contact" });
    expect(await eventOn(side.clipId, "contact")).toBeDefined();
    expect(await eventOn(front.clipId, "contact")).toBeUndefined();
  });

  test("the database keeps one of an event for a swing and source, one contact a clip, and no event on a clip of another swing", async () => {
    const { academyId, userId, playerId, side, front, set } = await twoCameras();
    await set(side.clipId, "toe", 252);
    const row = { academyId, swingId: side.swingId, source: "placed", frameIndex: 1, tick: 64n };
    await expect(database().swingEvent.create({ data: { ...row, clipId: front.clipId, event: "toe" } })).rejects.toThrow();
    await expect(database().swingEvent.create({ data: { ...row, clipId: front.clipId, event: "contact" } })).rejects.toThrow();
    await database().swingEvent.create({ data: { ...row, clipId: front.clipId, event: "toe", source: "suggested" } });
    const other = await buildClip({ academyId, playerId, userId });
    await expect(database().swingEvent.create({ data: { ...row, clipId: other.clipId, event: "load" } })).rejects.toThrow();
  });
});

describe("what readings are given of two cameras", () => {
  test("an event from the other camera carries the doubt of both contacts, and its own camera's frame interval", async () => {
    const { side, front, set, swing } = await twoCameras();
    await set(side.clipId, "toe", 252);
    const page = await swing();
    const clip = (id: string) => page.clips.find((it) => it.clip.id === id)?.clip ?? null;
    const own = swingInput(page, clip(side.clipId)).events;
    const seen = swingInput(page, clip(front.clipId)).events;
    const frame = (fps: number) => 1 / fps / Math.sqrt(12);
    expect(own.toe?.sdSeconds).toBeCloseTo(Math.hypot(0.004, frame(240)), 9);
    expect(seen.toe).toMatchObject({ seconds: -0.2, source: "placed" });
    expect(seen.toe?.framePeriodSeconds).toBeCloseTo(1 / 240, 9);
    expect(seen.toe?.sdSeconds).toBeCloseTo(Math.hypot(0.004, frame(240), frame(240), frame(120)), 9);
    expect(seen.contact?.framePeriodSeconds).toBeCloseTo(1 / 120, 9);
    expect(timedClip(page)?.id).toBe(side.clipId);
  });

  test("an event that is being moved on one clip moves for the others at once, and one that is cleared goes", async () => {
    const { side, front, set, swing } = await twoCameras();
    await set(side.clipId, "toe", 252);
    const page = await swing();
    const own = page.clips.find((it) => it.clip.id === front.clipId)?.clip;
    const contact = own?.events.filter((it) => it.event === "contact") ?? [];
    const toe = { event: "toe", frameIndex: 70, tick: 70 * 64, source: "coach", sdSeconds: null } as const;
    const moved = swingInput(withLiveClip(page, front.clipId, { points: [], events: [...contact, toe] }));
    expect(moved.events.toe?.seconds).toBeCloseTo(-30 / 120, 9);
    expect(swingInput(withLiveClip(page, front.clipId, { points: [], events: contact })).events.toe).toBeUndefined();
  });
});

describe("another camera of a swing", () => {
  test("a film joins a swing of the same player: one swing with two clips, and the swing's own facts stand", async () => {
    const { coach, playerId, ...story } = await coachWithPlayer();
    const { swingId } = await buildClip({ ...story, playerId });
    expect(await listSwingsToJoin.as(coach, { playerId })).toMatchObject([{ id: swingId, views: ["side"], filmedOn: "2026-11-25" }]);
    await work(await sendFile(coach, playerId, room.plain("front.mp4"), { swingId, view: "front", task: "machine" }));
    const swing = await getSwing.as(coach, { swingId });
    expect(swing.clips.map(({ clip }) => clip.view)).toEqual(["side", "front"]);
    expect(swing.facts.task).toBe("tee");
    expect(await database().swing.count({ where: { playerId } })).toBe(1);
  });

  test("a swing of another player is no such swing, a fifth camera is refused, and the database keeps a clip to its own player's swing", async () => {
    const story = await coachWithPlayer();
    const { coach, playerId, academyId, userId } = story;
    const other = await buildPlayer({ academyId });
    const stranger = await buildClip({ ...story, playerId: other.id });
    const begin = (swingId: string) => beginUpload.as(coach, { playerId, ...facts, byteLength: 9, swingId });
    await expect(begin(stranger.swingId)).rejects.toThrow("no such");
    await expect(begin(newId())).rejects.toThrow("no such");
    await expect(buildClip({ ...story, swingId: stranger.swingId })).rejects.toThrow();
    await expect(database().upload.create({ data: { id: newId(), academyId, playerId, userId, facts, byteLength: 1n, state: "receiving", swingId: stranger.swingId } })).rejects.toThrow();
    const { swingId } = await buildClip(story);
    for (let i = 0; i < 3; i++) await buildClip({ ...story, swingId });
    await expect(begin(swingId)).rejects.toThrow("4 clips");
  });
});
