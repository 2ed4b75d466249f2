import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { beforeAll, describe, expect, test } from "vitest";
import type { Id } from "@/lib/core/ids";
import { SeveralSwings } from "@/lib/domains/measurement/components/several-swings";
import { severalRow } from "@/lib/domains/measurement/components/several-rows";
import { listComparableReadings } from "@/lib/domains/measurement/queries";
import type { ComparableReadings } from "@/lib/domains/measurement/view";
import type { Reading } from "@/lib/measure/reading";
import { seenWords } from "@/lib/measure/several/seen-count";
import { changeWords } from "@/lib/measure/several/several-words";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildAssignment, buildPlayer } from "@/seed/builders/people";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import { coachWithPlayer, signIn } from "./clip-story";

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;
let story: Story;
let editionId: Id;
beforeAll(async () => {
  story = await coachWithPlayer();
  editionId = (await buildLibrary(story.academyId)).id;
});

const CHECKPOINT = "trunk-lean-at-contact"; // its band is 2 to 25 degrees
type Given = Partial<Parameters<typeof buildSwing>[0]> & { playerId?: Id };

/** A swing with one kept reading; a value outside the band is one to talk about. */
async function swingWith(value: number | null, given: Given = {}, own: { isGrey?: boolean } = {}) {
  const { academyId, playerId, userId } = story;
  const swing = await buildSwing({ academyId, playerId, createdById: userId, ...given });
  const clipId = swing.clips[0]?.id ?? "";
  const isOut = value !== null && value > 25;
  const kept = await buildReading({ academyId, swingId: swing.id, clipId, editionId, checkpointId: CHECKPOINT, value, sd: value === null ? null : 0.8, verdict: value === null || own.isGrey ? null : isOut ? "talk-about" : "fine", ...own });
  const body = { ...(kept.body as object), deviation: isOut ? "high" : null, band: { ok: [2, 25], act: [-5, 35] } };
  await database().reading.update({ where: { academyId_clipId_checkpointId: { academyId, clipId, checkpointId: CHECKPOINT } }, data: { body } });
  return { id: swing.id, reading: body as unknown as Reading };
}

/** Each test has a player of its own among the coach's. */
async function freshPlayer(): Promise<void> {
  const { academyId, userId } = story;
  const { id: playerId } = await buildPlayer({ academyId });
  await buildAssignment({ academyId, playerId, userId });
  story = { ...story, playerId, coach: await signIn(academyId, userId) };
}

const ask = (swingId: Id) => listComparableReadings.as(story.coach, { swingId });
const rowOf = (comparable: ComparableReadings, reading: Reading) => {
  const row = severalRow(comparable, reading, "side");
  if (!row) throw new Error("no row");
  return row.several;
};
const html = (comparable: ComparableReadings, readings: readonly Reading[]) =>
  renderToStaticMarkup(createElement(SeveralSwings, { comparable, readings, checkpoints: [], view: "side" as const }));

describe("several swings of a player", () => {
  test("N23: a swing off a tee and one thrown, or at another pitch height, are not compared, and it says so", async () => {
    await swingWith(20);
    await swingWith(21);
    await swingWith(10, { task: "toss" });
    await swingWith(11, { pitchHeight: "high" });
    const own = await swingWith(22);
    const comparable = await ask(own.id);
    expect(comparable.swings).toHaveLength(3);
    expect(comparable.leftOut.map(({ words }) => words).sort()).toEqual(["at a high ball, this one at a belt-high ball", "at a tossed ball, this one off a tee"]);
    expect(comparable.checkpoints[0]?.readings.map(({ value }) => value).sort()).toEqual([20, 21, 22]);
    expect(html(comparable, [own.reading])).toContain("Not compared: one swing at a tossed ball, this one off a tee.");
  });

  test("N53: three of five are said to be a habit, and one swing never is", async () => {
    await freshPlayer();
    const first = await swingWith(40);
    const alone = await ask(first.id);
    expect(severalRow(alone, first.reading, "side")).toBeNull();
    expect(html(alone, [first.reading])).not.toContain("habit");
    for (const value of [20, 41, 19]) await swingWith(value);
    const own = await swingWith(42);
    const { seen } = rowOf(await ask(own.id), own.reading);
    expect(seenWords(seen)).toBe("3 of 5 swings: a habit");
    expect(html(await ask(own.id), [own.reading])).toContain("Talk about it in 3 of 5 swings: a habit, above the band.");
  });

  test("unknown and grey readings are counted apart, and the reading on the screen stands in the place of the kept one", async () => {
    await freshPlayer();
    await swingWith(40);
    await swingWith(null);
    await swingWith(41, {}, { isGrey: true });
    const own = await swingWith(42);
    const comparable = await ask(own.id);
    expect(rowOf(comparable, own.reading).seen).toMatchObject({ seen: 2, judged: 2, unknown: 2 });
    expect(rowOf(comparable, { ...own.reading, value: 10, verdict: "fine", deviation: null }).seen).toMatchObject({ seen: 1, judged: 2 });
  });

  test("a change since the last check is said, and the other side, another player and later days stay out of it", async () => {
    await freshPlayer();
    for (const value of [38, 40, 39]) await swingWith(value, { filmedOn: "2026-11-01" });
    for (const value of [21, 22]) await swingWith(value, { filmedOn: "2026-11-20" });
    await swingWith(90, { side: "left", filmedOn: "2026-11-20" });
    await swingWith(90, { filmedOn: "2026-11-24" });
    await swingWith(90, { filmedOn: "2026-08-01" });
    const own = await swingWith(20, { filmedOn: "2026-11-20" });
    const comparable = await ask(own.id);
    expect(comparable.swings).toHaveLength(6);
    expect(comparable.leftOut).toEqual([]);
    const { change, by } = rowOf(comparable, own.reading);
    expect(changeWords(change, by)).toBe("Changed since the last check, toward the band");
    expect(html(comparable, [own.reading])).toContain("Changed since the last check, toward the band, lower by 18.0° ± 0.8.</p><p class=\"number\">Usually 21° ± 1 from swing to swing.");
  });

  test("no more than twelve swings stand beside it, itself always among them, and readings of an older formula do not", async () => {
    await freshPlayer();
    const own = await swingWith(20);
    for (let i = 0; i < 13; i++) await swingWith(21);
    const comparable = await ask(own.id);
    expect(comparable.swings).toHaveLength(12);
    expect(comparable.swings.map(({ id }) => id)).toContain(own.id);
    await database().reading.updateMany({ where: { academyId: story.academyId, swingId: { not: own.id } }, data: { formulaVersion: 99 } });
    expect((await ask(own.id)).checkpoints[0]?.readings).toHaveLength(1);
  });
});
