import { describe, expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { markPointUnseen, placePoint } from "@/lib/domains/clips/actions";
import { placePoints, swapPoints } from "@/lib/domains/clips/points/actions";
import { getSwing } from "@/lib/domains/clips/queries";
import { database } from "@/lib/platform/database";
import { buildClip, coachWithPlayer } from "./clip-story";

const clipOf = async (coach: Person, swingId: string) => {
  const [own] = (await getSwing.as(coach, { swingId })).clips;
  if (!own) throw new Error("no clip");
  const { points, unseenPoints } = own.clip;
  return { points: [...points].sort((a, b) => a.point.localeCompare(b.point)), unseenPoints };
};

describe("several points of a frame at once", () => {
  test("front and back exchanged take place, suggestion and unseen point to the other side; done twice all is as it was", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const { coach, academyId } = story;
    await placePoint.as(coach, { clipId, frameIndex: 7, point: "kn_f", x: 10, y: 20 });
    await placePoint.as(coach, { clipId, frameIndex: 7, point: "hip_f", x: 30, y: 40 });
    await placePoint.as(coach, { clipId, frameIndex: 8, point: "kn_f", x: 50, y: 60 });
    await markPointUnseen.as(coach, { clipId, frameIndex: 7, point: "hip_b" });
    await database().clipPoint.create({ data: { academyId, clipId, frameIndex: 7, point: "kn_f", source: "suggested", xPx: 5, yPx: 6 } });
    await database().clipPoint.create({ data: { academyId, clipId, frameIndex: 7, point: "kn_b", source: "suggested", xPx: 7, yPx: 8 } });
    const before = await clipOf(coach, swingId);
    await swapPoints.as(coach, { clipId, frameIndex: 7, pairs: ["kn", "hip"] });
    expect(await clipOf(coach, swingId)).toEqual({
      points: [
        { frameIndex: 7, point: "hip_b", x: 30, y: 40, source: "coach" },
        { frameIndex: 7, point: "kn_b", x: 10, y: 20, source: "coach" },
        { frameIndex: 7, point: "kn_f", x: 7, y: 8, source: "suggested" },
        { frameIndex: 8, point: "kn_f", x: 50, y: 60, source: "coach" },
      ].sort((a, b) => a.point.localeCompare(b.point)),
      unseenPoints: [{ frameIndex: 7, point: "hip_f" }],
    });
    await swapPoints.as(coach, { clipId, frameIndex: 7, pairs: ["hip", "kn"] });
    expect(await clipOf(coach, swingId)).toEqual(before);
  });

  test("several places are kept together or not at all, and forgetting them leaves the suggestions", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const { coach, academyId } = story;
    await database().clipPoint.create({ data: { academyId, clipId, frameIndex: 7, point: "kn_f", source: "suggested", xPx: 5, yPx: 6 } });
    const suggestion = await clipOf(coach, swingId);
    const points = [{ point: "kn_f", place: { x: 10.5, y: 20 } }, { point: "tip", place: { x: 3, y: 4 } }] as const;
    await expect(placePoints.as(coach, { clipId, frameIndex: 7, points: [points[0], { point: "tip", place: { x: -1, y: 4 } }] })).rejects.toThrow("None was kept");
    await expect(placePoints.as(coach, { clipId, frameIndex: 7, points: [points[0], points[0]] })).rejects.toThrow("once");
    expect(await clipOf(coach, swingId)).toEqual(suggestion);
    await placePoints.as(coach, { clipId, frameIndex: 7, points });
    expect((await clipOf(coach, swingId)).points).toMatchObject([{ point: "kn_f", x: 10.5, source: "coach" }, { point: "tip", x: 3, source: "coach" }]);
    await placePoints.as(coach, { clipId, frameIndex: 7, points: points.map(({ point }) => ({ point, place: null })) });
    expect(await clipOf(coach, swingId)).toEqual(suggestion);
  });

  test("who comes second with several points is told who was faster, and all stays as that one left it", async () => {
    const story = await coachWithPlayer();
    const { swingId, clipId } = await buildClip(story);
    const { coach } = story;
    await placePoint.as(coach, { clipId, frameIndex: 7, point: "kn_f", x: 10, y: 20 });
    const before = await clipOf(coach, swingId);
    const were = [{ point: "kn_f", was: { x: 9, y: 20 } }, { point: "kn_b", was: null }] as const;
    await expect(swapPoints.as(coach, { clipId, frameIndex: 7, pairs: ["kn"], were })).rejects.toThrow("placed it at");
    await expect(placePoints.as(coach, { clipId, frameIndex: 7, points: [{ point: "tip", was: null, place: { x: 1, y: 1 } }, { point: "kn_f", was: null, place: { x: 1, y: 1 } }] })).rejects.toThrow("placed it at");
    expect(await clipOf(coach, swingId)).toEqual(before);
  });

  test("a frame that the clip does not have is refused", async () => {
    const story = await coachWithPlayer();
    const { clipId } = await buildClip({ ...story, frames: 100 });
    await expect(swapPoints.as(story.coach, { clipId, frameIndex: 100, pairs: ["kn"] })).rejects.toThrow("does not belong to the clip");
    await expect(placePoints.as(story.coach, { clipId, frameIndex: 100, points: [{ point: "tip", place: { x: 1, y: 1 } }] })).rejects.toThrow("does not belong to the clip");
  });
});
