import { beforeAll, describe, expect, test } from "vitest";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { getSwingsBeside } from "@/lib/domains/measurement/queries";
import { buildConsent, buildPlayer } from "@/seed/builders/people";
import { buildSwing } from "@/seed/builders/swings";
import { coachWithPlayer } from "./clip-story";

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;
let story: Story;
beforeAll(async () => {
  story = await coachWithPlayer();
});

const swing = async (given: Partial<Parameters<typeof buildSwing>[0]> = {}): Promise<{ swingId: Id; clipId: Id }> => {
  const { academyId, playerId, userId } = story;
  const made = await buildSwing({ academyId, playerId, createdById: userId, ...given });
  return { swingId: made.id, clipId: made.clips[0]?.id ?? "" };
};
const ask = (swingId: Id, withIds: Id[] = []) => getSwingsBeside.as(story.coach, { swingId, withIds });

describe("swings beside each other", () => {
  test("N23: a swing at a tossed high ball beside one off a tee says in what it is unlike, where it is chosen and where it stands", async () => {
    const own = await swing();
    const other = await swing({ task: "toss", pitchHeight: "high" });
    const words = ["At a tossed ball, the first one off a tee", "At a high ball, the first one at a belt-high ball"];
    const choice = (await ask(own.swingId)).groups.flatMap(({ choices }) => choices).find((it) => it.clipId === other.clipId);
    expect(choice?.unlike).toEqual(words);
    const { clips } = await ask(own.swingId, [other.clipId]);
    expect(clips.map(({ clip }) => clip.id)).toEqual([own.clipId, other.clipId]);
    expect(clips[1]?.unlike).toEqual(words);
    expect(clips[0]?.unlike).toEqual([]);
  });

  test("a clip stands there once, four at most, and what stands there is not offered again", async () => {
    const own = await swing();
    const other = await swing();
    const page = await ask(own.swingId, [other.clipId, other.clipId, own.clipId]);
    expect(page.clips).toHaveLength(2);
    expect(page.groups.flatMap(({ choices }) => choices).map(({ clipId }) => clipId)).not.toContain(other.clipId);
    const five = await Promise.all([swing(), swing(), swing(), swing()]);
    await expect(ask(own.swingId, five.map(({ clipId }) => clipId))).rejects.toThrow(NotFoundError);
  });

  test("a clip of somebody whom the coach does not teach, and one that is not there, are the same answer", async () => {
    const own = await swing();
    const stranger = await buildPlayer({ academyId: story.academyId });
    await buildConsent({ academyId: story.academyId, playerId: stranger.id, recordedById: story.userId });
    const theirs = await swing({ playerId: stranger.id });
    await expect(ask(own.swingId, [theirs.clipId])).rejects.toThrow(NotFoundError);
    await expect(ask(own.swingId, ["0".repeat(theirs.clipId.length)])).rejects.toThrow(NotFoundError);
  });
});
