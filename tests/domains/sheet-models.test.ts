import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import { newId, type Id } from "@/lib/core/ids";
import { ChooseModel } from "@/lib/domains/observations/components/sheet/choose-model";
import { SheetCellView } from "@/lib/domains/observations/components/sheet/sheet-cell";
import { SheetRowHead } from "@/lib/domains/observations/components/sheet/sheet-row-head";
import { getCheckpointSheet } from "@/lib/domains/observations/sheet/queries";
import type { SheetPage, SheetRow } from "@/lib/domains/observations/sheet/view";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { buildConsent, buildPlayer } from "@/seed/builders/people";
import { buildReading, buildSwing } from "@/seed/builders/swings";
import { coachWithPlayer } from "./clip-story";
import { buildModel } from "./model-story";

/** A coach with a growing player who bats right, and a hitter whom the coach does not teach, whose swings are models. */
let story: Awaited<ReturnType<typeof coachWithPlayer>> & { readonly hitterId: Id; readonly editionId: Id; readonly swingId: Id };
beforeAll(async () => {
  const own = await coachWithPlayer();
  const { academyId, playerId, userId } = own;
  const { id: hitterId } = await buildPlayer({ academyId, givenName: "Corvan", familyName: "Selbridge", sport: "softball", bats: "both" });
  for (const use of ["lesson", "staff-training"] as const) await buildConsent({ academyId, playerId: hitterId, recordedById: userId, use });
  const { id: swingId } = await buildSwing({ academyId, playerId, createdById: userId });
  story = { ...own, hitterId, editionId: (await buildLibrary(academyId)).id, swingId };
});
beforeEach(async () => {
  await database().modelSwing.deleteMany({ where: { academyId: story.academyId } });
  await database().player.update({ where: { id: story.playerId }, data: { sport: "softball", heightM: 1.45, birthDate: new Date("2014-01-05T00:00:00Z") } });
});

async function keptModel(given: Partial<Parameters<typeof buildSwing>[0]> & Partial<Parameters<typeof buildModel>[0]> = {}) {
  const { academyId, hitterId, userId } = story;
  const { label, level, isAdult, heightM, sport, ...ofSwing } = given;
  const swing = await buildSwing({ academyId, playerId: hitterId, createdById: userId, ...ofSwing });
  const clipId = swing.clips[0]?.id ?? "";
  await database().swingEvent.create({ data: { academyId, swingId: swing.id, clipId, event: "contact", source: "placed", frameIndex: 120, tick: 120n } });
  const tags = Object.fromEntries(Object.entries({ label, level, isAdult, heightM, sport }).filter(([, value]) => value !== undefined));
  const { id } = await buildModel({ academyId, playerId: hitterId, swingId: swing.id, userId, ...tags });
  return { id, swingId: swing.id, clipId };
}

async function sheetWith(modelId?: Id): Promise<Extract<SheetPage, { isShown: true }>> {
  const page = await getCheckpointSheet.as(story.coach, { swingId: story.swingId, withIds: [], modelId });
  if (!page.isShown) throw new Error("the film is not shown");
  return page;
}

function modelRow({ rows }: { readonly rows: readonly SheetRow[] }): SheetRow {
  const row = rows.find(({ kind }) => kind === "model");
  if (!row) throw new Error("no model on the sheet");
  return row;
}

const readingOf = (model: { swingId: Id; clipId: Id }) =>
  buildReading({ academyId: story.academyId, swingId: model.swingId, clipId: model.clipId, editionId: story.editionId, checkpointId: "front-knee-firming", value: 20, verdict: "watch" });
const readingsIn = (row: SheetRow) => row.cells.flatMap(({ readings }) => readings.map(({ name }) => name));
const picker = (page: Extract<SheetPage, { isShown: true }>) => renderToStaticMarkup(createElement(ChooseModel, { sheet: page, withIds: undefined }));
const head = (row: SheetRow) => renderToStaticMarkup(createElement(SheetRowHead, { row }));
const cellOf = (row: SheetRow, at = 4) => {
  const cell = row.cells[at];
  if (!cell) throw new Error("no cell");
  const given = { row, cell, cellKey: "model.contact", isColumn: true, isHere: true, hasLines: true, hasNumbers: false, from: { swingId: story.swingId, clipId: "c" }, still: { url: "blob:made" }, onLost: () => undefined, onReach: () => undefined };
  return renderToStaticMarkup(createElement(SheetCellView, given));
};

describe("a model on the checkpoint sheet", () => {
  test("stands under its label with its own instants and readings, and nothing says whose swing it is", async () => {
    const model = await keptModel({ label: "Quiet hands" });
    await readingOf(model);
    const page = await sheetWith(model.id);
    const row = modelRow(page);
    expect([row.swingId, row.filmedOn, row.cells[4]?.frame, row.cells[4]?.seconds]).toEqual([model.id, null, { frameIndex: 120 }, 0]);
    expect(readingsIn(row)).toEqual(["Front leg firms up"]);
    expect([page.models.chosenId, page.models.isGone]).toEqual([model.id, false]);
    for (const secret of ["Corvan", "Selbridge", story.hitterId, model.swingId]) expect(JSON.stringify(page)).not.toContain(secret);
    expect(head(row)).toContain("Quiet hands");
    expect(head(row)).toContain("A picture to look at, not a mark to reach.");
    expect(cellOf(row)).toContain(`/swings/${story.swingId}/beside?clip=c&amp;with=${model.clipId}&amp;at=0.0000&amp;sheet=${story.swingId}`);
  });

  test("counts in none of the counts over this player's swings", async () => {
    const model = await keptModel();
    await readingOf(model);
    await database().observation.create({ data: { id: newId(), academyId: story.academyId, swingId: model.swingId, faultId: "barrel-drag", state: "seen", source: "eye", editionId: story.editionId, calledById: story.userId } });
    const [without, withIt] = [await sheetWith(), await sheetWith(model.id)];
    expect([withIt.called, withIt.read, withIt.countedSwings]).toEqual([without.called, without.read, without.countedSwings]);
    expect(withIt.countedSwings).toBe(1);
  });

  test("N10: is chosen from a list whose nearest stands first, with its tags and with what is otherwise; one that lies there can be taken away", async () => {
    const far = await keptModel({ label: "Long levers", sport: "baseball", level: "adult", heightM: 1.85 });
    const near = await keptModel({ label: "Quiet hands" });
    const page = await sheetWith();
    expect(page.models.options.map(({ id }) => id)).toEqual([near.id, far.id]);
    expect(page.models.noneMatch).toBeNull();
    const text = picker(page);
    expect(text.indexOf("Quiet hands")).toBeLessThan(text.indexOf("Long levers"));
    expect(text).toContain("Otherwise: baseball, not softball; much taller: 1.85 m");
    expect(text).not.toContain("Take the model away");
    expect(picker(await sheetWith(near.id))).toContain("Take the model away");
  });

  test("N10: where none matches it says so and what was looked for", async () => {
    await keptModel({ label: "Long levers", sport: "baseball", level: "adult", heightM: 1.85, side: "left" });
    const text = picker(await sheetWith());
    expect(text).toContain("No model matches: none is a right-handed softball hitter about 1.45 m");
    expect(text).toContain("Long levers");
  });

  test("that is grown, beside a player who is still growing, says so and shows no readings; beside a grown player it shows them", async () => {
    const model = await keptModel({ isAdult: true, level: "adult", heightM: 1.8 });
    await readingOf(model);
    const row = modelRow(await sheetWith(model.id));
    expect(readingsIn(row)).toEqual([]);
    expect(head(row)).toContain("The model is grown and the player is still growing: levers and timing differ.");
    expect(picker(await sheetWith())).toContain("levers and timing differ");
    await database().player.update({ where: { id: story.playerId }, data: { birthDate: new Date("1999-01-05T00:00:00Z") } });
    const grown = modelRow(await sheetWith(model.id));
    expect(readingsIn(grown)).toEqual(["Front leg firms up"]);
    expect(head(grown)).not.toContain("levers and timing differ");
  });

  test("N14: is turned to bat the player's way, lines with the picture; a mirrored file of the other side is right as it is; no reading changes", async () => {
    const points = ["sh_f", "hip_f", "kn_f", "an_f"].map((point, i) => ({ point, xPx: 600 + 20 * i, yPx: 200 + 100 * i, frameIndex: 120, source: "placed", academyId: story.academyId }));
    const seen = [];
    for (const [side, isMirrored] of [["right", false], ["left", false], ["right", true], ["left", true]] as const) {
      const model = await keptModel({ side, label: `From the ${side}${isMirrored ? ", mirrored" : ""}` });
      await readingOf(model);
      await database().clipPoint.createMany({ data: points.map((it) => ({ ...it, clipId: model.clipId })) });
      await database().clip.update({ where: { id: model.clipId }, data: { isMirrored } });
      const page = await sheetWith(model.id);
      const row = modelRow(page);
      const html = cellOf(row);
      expect(html).toContain("body-lines");
      const turned = /class="cell here turned"/.test(html);
      expect(page.models.options.find(({ id }) => id === model.id)?.isTurned).toBe(turned);
      seen.push([side, isMirrored, turned]);
      expect(row.cells[4]?.points.map(({ x }) => x)).toEqual([660, 620, 640, 600]);
      expect(row.cells.flatMap(({ readings }) => readings.map(({ reading }) => reading.value))).toEqual([20]);
    }
    expect(seen).toEqual([["right", false, false], ["left", false, true], ["right", true, true], ["left", true, false]]);
  });

  test("that was withdrawn, whose right has ended or that never was is not there, and the sheet says so in the same words of each", async () => {
    const model = await keptModel();
    const gone = async (modelId: Id) => {
      const page = await sheetWith(modelId);
      return [page.rows.length, page.models.isGone, page.models.options.length, page.models.chosenId];
    };
    expect((await sheetWith(model.id)).rows).toHaveLength(2);
    await database().modelSwing.update({ where: { id: model.id }, data: { rightUntil: new Date("2026-11-25T00:00:00Z") } });
    expect(await gone(model.id)).toEqual([1, true, 0, null]);
    await database().modelSwing.update({ where: { id: model.id }, data: { rightUntil: new Date("2027-11-25T00:00:00Z"), withdrawnAt: new Date(), withdrawnById: story.userId } });
    expect(await gone(model.id)).toEqual([1, true, 0, null]);
    expect(await gone(newId())).toEqual([1, true, 0, null]);
    expect((await sheetWith()).models.isGone).toBe(false);
  });
});
