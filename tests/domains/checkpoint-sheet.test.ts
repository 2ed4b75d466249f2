import { beforeAll, describe, expect, test } from "vitest";
import { NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { getCheckpointSheet } from "@/lib/domains/observations/sheet/queries";
import type { SheetPage } from "@/lib/domains/observations/sheet/view";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildAssignment, buildConsent, buildPlayer } from "@/seed/builders/people";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import { coachWithPlayer, signIn } from "./clip-story";

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;
let story: Story;
let editionId: Id;
beforeAll(async () => {
  story = await coachWithPlayer();
  editionId = (await buildLibrary(story.academyId)).id;
});

type Given = Partial<Parameters<typeof buildSwing>[0]>;
const swingWith = (given: Given = {}) => buildSwing({ academyId: story.academyId, playerId: story.playerId, createdById: story.userId, ...given });
const clipIdOf = (swing: Awaited<ReturnType<typeof swingWith>>, at = 0) => swing.clips[at]?.id ?? "";

/** Each test has a player of its own among the coach's. */
async function freshPlayer(): Promise<void> {
  const { academyId, userId } = story;
  const { id: playerId } = await buildPlayer({ academyId });
  await buildAssignment({ academyId, playerId, userId });
  await buildConsent({ academyId, playerId, recordedById: userId });
  story = { ...story, playerId, coach: await signIn(academyId, userId) };
}

async function shown(swingId: Id, more: { clipId?: Id; withIds?: Id[] } = {}): Promise<Extract<SheetPage, { isShown: true }>> {
  const page = await getCheckpointSheet.as(story.coach, { swingId, ...more });
  if (!page.isShown) throw new Error("the film is not shown");
  return page;
}

const setEvent = (swing: { id: Id }, clipId: Id, event: string, frameIndex: number) =>
  database().swingEvent.create({ data: { academyId: story.academyId, swingId: swing.id, clipId, event, source: "placed", frameIndex, tick: BigInt(frameIndex) } });
const call = (swingId: Id, faultId: string, state: string) =>
  database().observation.create({ data: { id: newId(), academyId: story.academyId, swingId, faultId, state, source: "eye", editionId, calledById: story.userId } });

describe("the rows of a checkpoint sheet", () => {
  test("beside a swing lies by itself the newest one taken alike and filmed from the same view", async () => {
    await freshPlayer();
    await swingWith({ filmedOn: "2026-11-10" });
    const alike = await swingWith({ filmedOn: "2026-11-20" });
    await swingWith({ filmedOn: "2026-11-22", task: "toss" });
    await swingWith({ filmedOn: "2026-11-22", views: ["rear"] });
    const own = await swingWith();
    const { rows, choices, countedSwings } = await shown(own.id);
    expect(rows.map(({ kind, swingId }) => [kind, swingId])).toEqual([["this", own.id], ["other", alike.id]]);
    expect(choices).toHaveLength(3);
    expect(countedSwings).toBe(3);
  });

  test("N23: a chosen swing that was taken otherwise stands there with its difference named", async () => {
    await freshPlayer();
    const toss = await swingWith({ task: "toss", pitchHeight: "high", filmedOn: "2026-11-20" });
    const own = await swingWith();
    expect((await shown(own.id)).rows).toHaveLength(1);
    const { rows } = await shown(own.id, { withIds: [toss.id] });
    expect(rows[1]?.unlike).toEqual(["at a tossed ball, this one off a tee", "at a high ball, this one at a belt-high ball"]);
    expect(rows[0]?.unlike).toEqual([]);
  });

  test("none are shown when none are wanted, and never more than fit on a page", async () => {
    await freshPlayer();
    const more = [];
    for (let i = 0; i < 5; i++) more.push((await swingWith({ filmedOn: "2026-11-20" })).id);
    const own = await swingWith();
    expect((await shown(own.id, { withIds: [] })).rows).toHaveLength(1);
    const full = await shown(own.id, { withIds: more });
    expect([full.rows.length, full.isCutShort]).toEqual([4, true]);
    expect((await shown(own.id, { withIds: more.slice(2) })).isCutShort).toBe(false);
  });

  test("swings of another player, the other side or without this view are left out and counted, and nothing of them is told", async () => {
    await freshPlayer();
    const own = await swingWith();
    const left = await swingWith({ side: "left" });
    const rear = await swingWith({ views: ["rear"] });
    const { id: stranger } = await buildPlayer({ academyId: story.academyId });
    const foreign = await swingWith({ playerId: stranger });
    const page = await shown(own.id, { withIds: [left.id, rear.id, foreign.id] });
    expect([page.rows.length, page.strangeCount]).toEqual([1, 3]);
    expect(JSON.stringify(page)).not.toContain(foreign.id);
    await expect(getCheckpointSheet.as(story.coach, { swingId: foreign.id })).rejects.toThrow(NotFoundError);
    await expect(getCheckpointSheet.as(story.coach, { swingId: own.id, clipId: clipIdOf(foreign) })).rejects.toThrow(NotFoundError);
  });

  test("a sheet has one view, chosen by its clip", async () => {
    await freshPlayer();
    const other = await swingWith({ views: ["side", "rear"], filmedOn: "2026-11-20" });
    const own = await swingWith({ views: ["side", "rear"] });
    const page = await shown(own.id, { clipId: clipIdOf(own, 1) });
    expect([page.view, page.clips.length]).toEqual(["rear", 2]);
    expect(page.rows.map(({ clipId }) => clipId)).toEqual([clipIdOf(own, 1), clipIdOf(other, 1)]);
  });

  test("without a consent in force nothing of the film is there", async () => {
    const { academyId, userId } = story;
    const { id: playerId } = await buildPlayer({ academyId });
    await buildAssignment({ academyId, playerId, userId });
    story = { ...story, playerId, coach: await signIn(academyId, userId) };
    const own = await swingWith();
    expect(Object.keys(await getCheckpointSheet.as(story.coach, { swingId: own.id })).sort()).toEqual(["isShown", "playerId", "playerName"]);
  });
});

describe("the cells of a checkpoint sheet", () => {
  test("an event has its frame and its seconds from contact, and one that is not set says so", async () => {
    await freshPlayer();
    const own = await swingWith();
    await setEvent(own, clipIdOf(own), "contact", 120);
    await setEvent(own, clipIdOf(own), "plant", 84);
    const [row] = (await shown(own.id)).rows;
    expect(row?.framesPerSecond).toBe(240);
    expect(row?.cells.map(({ event, frame, seconds }) => [event, frame, seconds])).toEqual([
      ["load", { why: "not-set" }, null], ["toe", { why: "not-set" }, null], ["plant", { frameIndex: 84 }, -0.15], ["launch", { why: "not-set" }, null],
      ["contact", { frameIndex: 120 }, 0], ["extension", { why: "not-set" }, null], ["finish", { why: "not-set" }, null],
    ]);
  });

  test("an event set on another camera lies on this one only when both have contact", async () => {
    await freshPlayer();
    const own = await swingWith({ views: ["side", "rear"] });
    await setEvent(own, clipIdOf(own), "contact", 120);
    await setEvent(own, clipIdOf(own), "plant", 84);
    const plantOf = async () => (await shown(own.id, { clipId: clipIdOf(own, 1) })).rows[0]?.cells[2]?.frame;
    expect(await plantOf()).toEqual({ why: "not-lined-up" });
    await setEvent(own, clipIdOf(own, 1), "contact", 100);
    expect(await plantOf()).toEqual({ frameIndex: 64 });
  });

  test("points come for the frames of the events only, and the window holds them", async () => {
    await freshPlayer();
    const own = await swingWith();
    const clipId = clipIdOf(own);
    await setEvent(own, clipId, "contact", 120);
    const points = ["nose", "sh_f", "sh_b", "hip_f", "hip_b", "kn_f", "an_b"].map((point, i) => ({ point, xPx: 900 + 10 * (i % 2), yPx: 200 + 60 * i }));
    for (const frameIndex of [120, 130]) await database().clipPoint.createMany({ data: points.map((it) => ({ ...it, academyId: story.academyId, clipId, frameIndex, source: "placed" })) });
    const [row] = (await shown(own.id)).rows;
    expect(row?.cells.map(({ points: own }) => own.length)).toEqual([0, 0, 0, 0, 7, 0, 0]);
    expect(row?.picture.window.x).toBeGreaterThan(600);
  });

  test("a reading stands under the event of its phase on its own clip, and without what it was made of", async () => {
    await freshPlayer();
    const own = await swingWith({ views: ["side", "rear"] });
    const reading = { academyId: story.academyId, swingId: own.id, editionId, value: 20, verdict: "watch" };
    await buildReading({ ...reading, clipId: clipIdOf(own), checkpointId: "front-knee-firming" });
    await buildReading({ ...reading, clipId: clipIdOf(own, 1), checkpointId: "trunk-fold-change" });
    await buildReading({ ...reading, clipId: clipIdOf(own), checkpointId: "launch-to-contact-time" });
    const namesOn = async (at: number) => (await shown(own.id, { clipId: clipIdOf(own, at) })).rows[0]?.cells.flatMap(({ event, readings }) => readings.map(({ name }) => `${event}: ${name}`));
    expect(await namesOn(0)).toEqual(["contact: Front leg firms up", "contact: Launch to contact"]);
    expect((await namesOn(1))?.sort()).toEqual(["contact: Launch to contact", "contact: Trunk fold from landing to contact"]);
    expect((await shown(own.id)).rows[0]?.cells[4]?.readings[0]?.reading.inputsUsed.frames).toEqual([]);
  });
});

test("the last rows count calls and readings of the newest five taken alike, whichever swings lie on the sheet", async () => {
  await freshPlayer();
  await swingWith({ filmedOn: "2026-11-01" });
  const toss = await swingWith({ task: "toss" });
  const others = [];
  for (let i = 0; i < 4; i++) others.push(await swingWith({ filmedOn: "2026-11-20" }));
  const own = await swingWith();
  for (const swing of [own, ...others]) await buildReading({ academyId: story.academyId, swingId: swing.id, clipId: clipIdOf(swing), editionId, checkpointId: "front-knee-firming", value: 20, verdict: swing === own ? null : "talk-about", isGrey: swing === own });
  for (const swing of [own, toss]) await call(swing.id, "barrel-drag", "seen");
  await call(others[0]?.id ?? "", "barrel-drag", "not-visible");
  const { called, read, countedSwings } = await shown(own.id, { withIds: [toss.id] });
  expect(countedSwings).toBe(5);
  expect(called.launch).toMatchObject([{ id: "barrel-drag", seen: 1, judged: 1, notVisible: 1, notLooked: 3, isHabit: false }]);
  expect(read.contact).toMatchObject([{ id: "front-knee-firming", seen: 4, judged: 4, notVisible: 1, isHabit: true }]);
});
