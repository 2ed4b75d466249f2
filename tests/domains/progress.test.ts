import { beforeAll, describe, expect, test } from "vitest";
import type { Id } from "@/lib/core/ids";
import { newId } from "@/lib/core/ids";
import { answerSent } from "@/lib/domains/clips/sent/actions";
import { getToday } from "@/lib/domains/practice/queries";
import { getMySwing } from "@/lib/domains/progress/queries";
import { withdrawConsent } from "@/lib/domains/roster/actions";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import { facts } from "./clip-story";
import { family } from "./practice-story";

type Family = Awaited<ReturnType<typeof family>>;
let all: Family;
let editionId: Id;
const CHECKPOINT = "front-knee-firming";

/** A swing of a day with plant and contact, and a reading. */
async function filmed(given: Family, filmedOn: string, value: number) {
  const swing = await buildSwing({ ...given, createdById: given.users.coach.id, filmedOn });
  const clipId = swing.clips[0]!.id;
  await timed(given, swing.id, clipId);
  await buildReading({ academyId: given.academyId, swingId: swing.id, clipId, editionId, checkpointId: CHECKPOINT, value });
  return { swingId: swing.id, clipId };
}
const timed = ({ academyId }: Family, swingId: Id, clipId: Id) =>
  database().swingEvent.createMany({ data: [["plant", 60], ["contact", 96]].map(([event, frameIndex]) => ({ academyId, swingId, clipId, event: String(event), source: "placed", frameIndex: Number(frameIndex), tick: BigInt(frameIndex!) })) });

async function sendRows({ academyId, playerId, users }: Family, clipId: Id): Promise<Id> {
  const { id: uploadId } = await database().upload.create({ data: { id: newId(), academyId, playerId, userId: users.player.id, facts, byteLength: 10n, state: "ready", clipId, finishedAt: new Date("2026-11-24T10:00:00Z") } });
  return (await database().sentClip.create({ data: { id: newId(), academyId, playerId, uploadId, sentById: users.player.id, words: "" } })).id;
}

beforeAll(async () => {
  all = await family();
  editionId = (await buildLibrary(all.academyId)).id;
  await database().focus.updateMany({ where: { playerId: all.playerId }, data: { faultId: "front-leg-soft" } });
  const { swingId } = await database().clip.findUniqueOrThrow({ where: { id: all.clipId }, select: { swingId: true } });
  await timed(all, swingId, all.clipId);
});

describe("my swing", () => {
  test("shows the note's still now, beside an older swing only once that is one the family may see", async () => {
    const older = await filmed(all, "2026-11-01", 1);
    expect(await getMySwing.as(all.player, { playerId: all.playerId })).toMatchObject({ isPermitted: true, showsNumbers: true, oneThing: "Belt first, right", pair: null });
    await sendRows(all, older.clipId);
    const { pair } = await getMySwing.as(all.odile, { playerId: all.playerId });
    expect(pair).toMatchObject({ oldDay: "2026-11-01", newDay: "2026-11-25", instants: [{ event: "plant" }, { event: "contact" }] });
    expect(pair?.instants[1]).toMatchObject({ oldUrl: `/api/media/clips/${older.clipId}/stills/96`, newUrl: `/api/media/clips/${all.clipId}/stills/96` });
  });

  test("says by the library's rule whether the one thing has changed, from swings taken alike", async () => {
    const trend = async () => (await getMySwing.as(all.player, { playerId: all.playerId })).trend;
    expect(await trend()).toMatchObject({ word: "cannot-tell", dots: [{ value: 1 }] });
    for (const value of [1.2, 0.8]) await filmed(all, "2026-11-01", value);
    for (const value of [14, 14.3, 13.8]) await filmed(all, "2026-11-24", value);
    const other = await buildSwing({ ...all, createdById: all.users.coach.id, filmedOn: "2026-11-24", task: "toss" });
    await buildReading({ academyId: all.academyId, swingId: other.id, clipId: other.clips[0]!.id, editionId, checkpointId: CHECKPOINT, value: 99 });
    const now = await trend();
    expect(now).toMatchObject({ word: "changed" });
    expect(now?.dots.map(({ day }) => day)).toEqual([...Array(3).fill("2026-11-01"), ...Array(3).fill("2026-11-24")]);
  });

  test("stands with a drill once a coach says that a sent clip shows it done right, and only while it may be shown", async () => {
    const mine = await filmed(all, "2026-11-23", 3);
    const sentId = await sendRows(all, mine.clipId);
    const drill = async () => (await getToday.as(all.player, { playerId: all.playerId })).drills.find(({ planDrillId }) => planDrillId === all.teeId);
    expect((await drill())?.doneRight).toBeNull();
    await answerSent.as(all.coach, { sentId, clipId: mine.clipId, frameIndex: 96, words: "That is the lane.", planDrillId: all.teeId });
    expect((await drill())?.doneRight?.filmUrl).toBe(`/api/media/clips/${mine.clipId}/stepping`);
    await withdrawConsent.as(all.odile, { playerId: all.playerId, use: "lesson" });
    expect((await drill())?.doneRight).toBeNull();
    expect(await getMySwing.as(all.player, { playerId: all.playerId })).toMatchObject({ isPermitted: false, pair: null, trend: null });
  });

  test("has no numbers below eleven", async () => {
    const young = await family({ birthDate: "2016-06-06" });
    expect((await getMySwing.as(young.player, { playerId: young.playerId })).showsNumbers).toBe(false);
  });
});
