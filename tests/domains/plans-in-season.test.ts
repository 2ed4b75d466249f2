import { beforeAll, expect, test, vi } from "vitest";
import { newId, type Id } from "@/lib/core/ids";
import { agreeInSeason } from "@/lib/domains/observations/season/actions";
import { getWhatFirst } from "@/lib/domains/observations/queries";
import * as actions from "@/lib/domains/plans/actions";
import { setSeason } from "@/lib/domains/roster/seasons/actions";
import { database } from "@/lib/platform/database";
import { actorFor, buildHouse, drafted, headId } from "./plan-story";

beforeAll(buildHouse);
// The solver has a time of its own; on a busy machine a suggestion takes longer than a test usually may.
vi.setConfig({ testTimeout: 90_000 });

/** A focus from before the season whose last plan before it holds one drill in a small dose on two days; and a new draft in season. */
async function keptFocus() {
  const before = await drafted();
  const { coach, here, planId, drillId } = before;
  await actions.setDose.as(coach, { planId, drillId, timesPerDay: 5, minutesPerDay: 3 });
  await actions.setWeekdays.as(coach, { planId, drillId, weekdays: [1, 4] });
  await actions.sendNote.as(coach, { planId });
  await database().plan.update({ where: { id: planId }, data: { sentAt: new Date("2026-11-10T12:00:00Z") } });
  await database().focus.updateMany({ where: { playerId: here.playerId }, data: { chosenAt: new Date("2026-11-02T12:00:00Z") } });
  await setSeason.as(coach, { playerId: here.playerId, season: "in-season", from: "2026-11-20", until: "", firstGameOn: "" });
  const { planId: draftId } = (await actions.startPlan.as(coach, here)).data as { planId: Id };
  return { ...before, draftId };
}

test("in season a focus from before is offered the drills it had with no larger dose, and each other one says why it stays out", async () => {
  const { coach, page, draftId, drillId } = await keptFocus();
  const draft = (await page()).draft!;
  expect(draft.keeps).toMatch(/^In season this focus keeps the drills it had before/);
  expect(draft.proposed).toMatchObject([{ id: drillId, times: 5, minutes: 3 }]);
  const other = draft.leftOut.filter(({ limits }) => limits.includes("Not one of the drills that this focus had before the season."));
  expect(other.length).toBeGreaterThan(0);
  await actions.suggestWeek.as(coach, { planId: draftId, practiceOrder: "blocked" });
  const [only, ...more] = (await page()).draft!.drills;
  expect(more).toEqual([]);
  expect(only).toMatchObject({ drillId, limits: [] });
  expect(only!.timesPerDay).toBeLessThanOrEqual(5);
  expect(only!.minutesPerDay).toBeLessThanOrEqual(3);
  expect(only!.weekdays.length).toBeLessThanOrEqual(2);
});

test("a plan by hand takes no other drill, no larger dose and no further day, and one that holds more is not sent", async () => {
  const { coach, page, draftId: planId, drillId } = await keptFocus();
  const record = await database().planDrill.findFirstOrThrow({ where: { planId: { not: planId }, drillId } });
  const another = { drillId: "mirror-load", words: record.words as object };
  await expect(actions.addDrill.as(coach, { planId, drillId: another.drillId })).rejects.toThrow(/stays out\./);
  await actions.addDrill.as(coach, { planId, drillId });
  await expect(actions.setDose.as(coach, { planId, drillId, timesPerDay: 6, minutesPerDay: 3 })).rejects.toThrow("No larger dose than before the season: 5 times and 3 minutes a day, 2 days a week. Nothing was changed.");
  await expect(actions.setDose.as(coach, { planId, drillId, timesPerDay: 5, minutesPerDay: 4 })).rejects.toThrow(/^No larger dose/);
  await expect(actions.setWeekdays.as(coach, { planId, drillId, weekdays: [1, 3, 5] })).rejects.toThrow("This drill is done on 2 days a week at most.");
  await actions.setWeekdays.as(coach, { planId, drillId, weekdays: [2, 5] });
  expect((await page()).draft!.drills).toMatchObject([{ drillId, limits: [] }]);
  // What stood in a draft already, or came in by another way, is held against the rule when it is sent.
  await database().planDrill.updateMany({ where: { planId }, data: { timesPerDay: 9 } });
  await database().planDrill.create({ data: { ...record, id: newId(), planId, drillId: another.drillId, words: another.words, position: 2, weekdays: [2] } });
  await expect(actions.sendNote.as(coach, { planId })).rejects.toThrow(/No larger dose than before the season: .* has to come out\./);
});

test("the head coach's yes with its reason lets the focus have other drills and more of them", async () => {
  const { coach, here, page, draftId: planId, drillId } = await keptFocus();
  const head = await actorFor(headId, "head-coach");
  expect((await getWhatFirst.as(coach, here)).season.keeping).toEqual(["back-foot-overspin"]);
  await agreeInSeason.as(head, { ...here, faultId: "back-foot-overspin", reason: "the old drill bores her" });
  const draft = (await page()).draft!;
  expect(draft.keeps).toBeNull();
  expect(draft.proposed.length).toBeGreaterThan(1);
  await actions.addDrill.as(coach, { planId, drillId });
  await actions.setDose.as(coach, { planId, drillId, timesPerDay: 6, minutesPerDay: 4 });
});

test("a focus from before that had no plan then has no drills in season, and a suggestion says so", async () => {
  const { coach, here, page, planId } = await drafted();
  await database().focus.updateMany({ where: { playerId: here.playerId }, data: { chosenAt: new Date("2026-11-02T12:00:00Z") } });
  await setSeason.as(coach, { playerId: here.playerId, season: "in-season", from: "2026-11-20", until: "", firstGameOn: "" });
  const draft = (await page()).draft!;
  expect(draft.proposed).toEqual([]);
  expect(draft.drills[0]?.limits).toContain("This focus had no drills before the season.");
  await expect(actions.suggestWeek.as(coach, { planId, practiceOrder: "blocked" })).rejects.toThrow(/^Nothing fits Ines .*This stands: This focus had no drills before the season\./);
  await expect(actions.sendNote.as(coach, { planId })).rejects.toThrow(/has to come out\. This focus had no drills before the season\./);
});
