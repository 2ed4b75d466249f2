import { describe, expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { placePoint } from "@/lib/domains/clips/actions";
import { placeFollowed } from "@/lib/domains/clips/following/actions";
import { placePoints } from "@/lib/domains/clips/points/actions";
import { getSwing } from "@/lib/domains/clips/queries";
import { framePoints } from "@/lib/domains/clips/rules";
import { database } from "@/lib/platform/database";
import { buildClip, coachWithPlayer } from "./clip-story";

const pointsOf = async (coach: Person, swingId: string) => (await getSwing.as(coach, { swingId })).clips[0]?.clip.points ?? [];
const followed = (frameIndex: number, more: object = {}) => ({ frameIndex, point: "tip" as const, was: null, place: { x: 10 + frameIndex, y: 20, followedSdPx: 0.75 }, ...more });

describe("what was followed through the pictures, taken by a coach", () => {
  test("is kept on all its frames with its own doubt, reaches the readings with it, and is forgotten in one step", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    await placeFollowed.as(story.coach, { clipId, places: [followed(5), followed(6)] });
    const kept = await pointsOf(story.coach, swingId);
    expect(kept).toMatchObject([{ frameIndex: 5, x: 15, source: "coach", followedSdPx: 0.75 }, { frameIndex: 6, x: 16, source: "coach", followedSdPx: 0.75 }]);
    expect(framePoints(kept)[5]?.tip).toEqual({ x: 15, y: 20, source: "placed", followedSdPx: 0.75 });
    await placeFollowed.as(story.coach, { clipId, places: [5, 6].map((frame) => followed(frame, { was: { x: 10 + frame, y: 20 }, place: null })) });
    expect(await pointsOf(story.coach, swingId)).toEqual([]);
  });

  test("is a place by hand, without that doubt, once somebody moves it", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    await placeFollowed.as(story.coach, { clipId, places: [followed(5), followed(6)] });
    await placePoint.as(story.coach, { clipId, frameIndex: 5, point: "tip", x: 1, y: 2 });
    await placePoints.as(story.coach, { clipId, frameIndex: 6, points: [{ point: "tip", place: { x: 3, y: 4 } }] });
    for (const it of await pointsOf(story.coach, swingId)) expect(it).not.toHaveProperty("followedSdPx");
  });

  test("is refused whole where somebody was faster on one of its frames, outside the picture, or for another point than the bat's ends", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    await placePoint.as(story.coach, { clipId, frameIndex: 6, point: "tip", x: 1, y: 2 });
    await expect(placeFollowed.as(story.coach, { clipId, places: [followed(5), followed(6)] })).rejects.toThrow("placed it at");
    await expect(placeFollowed.as(story.coach, { clipId, places: [followed(5), followed(7, { place: { x: -3, y: 1, followedSdPx: 1 } })] })).rejects.toThrow("None was kept");
    await expect(placeFollowed.as(story.coach, { clipId, places: [followed(5), followed(5)] })).rejects.toThrow("once");
    expect(await pointsOf(story.coach, swingId)).toHaveLength(1);
    const row = { academyId: story.academyId, clipId, frameIndex: 8, source: "placed", xPx: 1, yPx: 1, followedSdPx: 1 };
    await expect(database().clipPoint.create({ data: { ...row, point: "kn_f" } })).rejects.toThrow();
    await expect(database().clipPoint.create({ data: { ...row, point: "tip", source: "suggested" } })).rejects.toThrow();
  });
});
