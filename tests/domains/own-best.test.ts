import { beforeAll, describe, expect, test } from "vitest";
import { ConflictError, NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { keepOwnBest, takeBackOwnBest } from "@/lib/domains/observations/sheet/actions";
import { getCheckpointSheet } from "@/lib/domains/observations/sheet/queries";
import { database } from "@/lib/platform/database";
import { buildAssignment, buildConsent, buildPlayer } from "@/seed/builders/people";
import { buildSwing } from "@/seed/builders/swings";
import { coachWithPlayer, signIn } from "./clip-story";

let story: Awaited<ReturnType<typeof coachWithPlayer>>;
beforeAll(async () => {
  story = await coachWithPlayer();
});

async function freshPlayer(): Promise<void> {
  const { academyId, userId } = story;
  const { id: playerId } = await buildPlayer({ academyId, bats: "both" });
  await buildAssignment({ academyId, playerId, userId });
  await buildConsent({ academyId, playerId, recordedById: userId });
  story = { ...story, playerId, coach: await signIn(academyId, userId) };
}

const swingWith = (given: Partial<Parameters<typeof buildSwing>[0]> = {}) => buildSwing({ academyId: story.academyId, playerId: story.playerId, createdById: story.userId, ...given });
const keep = async (swing: Awaited<ReturnType<typeof swingWith>>, at = 0) => {
  const { message, data } = await keepOwnBest.as(story.coach, { playerId: story.playerId, clipId: swing.clips[at]?.id ?? "" });
  return { message, ...(data as { ownBestId: Id }) };
};
const rowsOf = async (swingId: Id) => {
  const sheet = await getCheckpointSheet.as(story.coach, { swingId, withIds: [] });
  if (!sheet.isShown) throw new Error("not shown");
  return { ownBest: sheet.ownBest, rows: sheet.rows.map(({ kind, swingId: id }) => [kind, id]) };
};

describe("a player's own best", () => {
  test("stands as a row of its own, with what it is not like named, and on its own sheet it is said", async () => {
    await freshPlayer();
    const best = await swingWith({ filmedOn: "2026-10-07", task: "toss" });
    const own = await swingWith();
    const { ownBestId } = await keep(best);
    expect(await rowsOf(own.id)).toEqual({ ownBest: { id: ownBestId, isThis: false }, rows: [["this", own.id], ["own-best", best.id]] });
    expect(await rowsOf(best.id)).toEqual({ ownBest: { id: ownBestId, isThis: true }, rows: [["this", best.id]] });
    const sheet = await getCheckpointSheet.as(story.coach, { swingId: own.id });
    expect(sheet.isShown && sheet.rows[1]?.unlike).toEqual(["at a tossed ball, this one off a tee"]);
  });

  test("is one for each side and view: another takes its place, and taken back the one before is there again", async () => {
    await freshPlayer();
    const [first, second, own] = [await swingWith(), await swingWith(), await swingWith()];
    const kept = await keep(first);
    const later = await keep(second);
    expect(later.message).toBe("Kept as own best. It takes the place of the one before.");
    expect((await rowsOf(own.id)).rows[1]).toEqual(["own-best", second.id]);
    await expect(takeBackOwnBest.as(story.coach, { playerId: story.playerId, ownBestId: kept.ownBestId })).rejects.toThrow(ConflictError);
    expect((await takeBackOwnBest.as(story.coach, { playerId: story.playerId, ownBestId: later.ownBestId })).message).toBe("Taken back. The one before is the own best again.");
    expect((await rowsOf(own.id)).rows[1]).toEqual(["own-best", first.id]);
    await takeBackOwnBest.as(story.coach, { playerId: story.playerId, ownBestId: kept.ownBestId });
    expect((await rowsOf(own.id)).rows).toHaveLength(1);
  });

  test("of another view or side leaves this one alone", async () => {
    await freshPlayer();
    const own = await swingWith({ views: ["side", "rear"] });
    const [best, rear, left] = [await swingWith(), await swingWith({ views: ["side", "rear"] }), await swingWith({ side: "left" })];
    await keep(best);
    await keep(rear, 1);
    await keep(left);
    expect((await rowsOf(own.id)).rows[1]).toEqual(["own-best", best.id]);
    expect(await database().ownBest.count({ where: { playerId: story.playerId, replacedById: null, takenBackAt: null } })).toBe(3);
  });

  test("kept twice at once is still one, and twice the same is one row", async () => {
    await freshPlayer();
    const [first, second] = [await swingWith(), await swingWith()];
    await Promise.all([keep(first), keep(second)]);
    const inForce = { playerId: story.playerId, replacedById: null, takenBackAt: null };
    expect(await database().ownBest.count({ where: inForce })).toBe(1);
    const now = await database().ownBest.findFirstOrThrow({ where: inForce });
    const again = await keep(now.swingId === first.id ? first : second);
    expect(again).toEqual({ ownBestId: now.id, message: "This swing is kept as own best already." });
  });

  test("of another player's clip cannot be kept or taken back through this one", async () => {
    await freshPlayer();
    const own = await swingWith();
    const { ownBestId } = await keep(own);
    await freshPlayer();
    await expect(keepOwnBest.as(story.coach, { playerId: story.playerId, clipId: own.clips[0]?.id ?? "" })).rejects.toThrow(NotFoundError);
    await expect(takeBackOwnBest.as(story.coach, { playerId: story.playerId, ownBestId })).rejects.toThrow(NotFoundError);
  });
});
