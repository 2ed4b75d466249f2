import { afterEach, describe, expect, test, vi } from "vitest";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { correctPractice, logPractice, undoPractice } from "@/lib/domains/practice/actions";
import { getHomeworkCounts, getToday, listHomeworkCounts, listWeek } from "@/lib/domains/practice/queries";
import { reportPain } from "@/lib/domains/roster/actions";
import { now } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { actorOf, family, sentPlan } from "./practice-story";

const rowsOf = (planDrillId: Id) => database().practiceLog.findMany({ where: { planDrillId }, orderBy: [{ loggedAt: "asc" }, { id: "asc" }] });
const sentenceOf = (work: Promise<unknown>) => work.then(() => "kept", (error: Error) => error.message);

// The program's clock runs on from a fixed afternoon (2026-11-25, 09:00 in Chicago); here it is turned to an instant and stands.
const ahead = now().getTime() - Date.now();
const goTo = (instant: string) => {
  vi.useFakeTimers({ toFake: ["Date"] });
  vi.setSystemTime(Date.parse(instant) - ahead);
};
afterEach(() => {
  vi.useRealTimers();
});

describe("one tap", () => {
  test("counts what the plan says, for today, by whoever tapped", async () => {
    const { player, users, teeId, playerId } = await family();
    expect(await logPractice.as(player, { planDrillId: teeId })).toMatchObject({ message: "Done. 18 counted." });
    const [row] = await rowsOf(teeId);
    expect(row).toMatchObject({ playerId, times: 18, swings: 18, loggedById: users.player.id, correctsId: null, day: new Date("2026-11-25T00:00:00Z") });
    const today = await getToday.as(player, { playerId });
    expect(today.drills.map(({ doneTimes }) => doneTimes)).toEqual([0, 18, 0]);
  });

  test("made twice, by two people, or at the same moment counts once", async () => {
    const { player, odile, teeId, playerId } = await family();
    await Promise.all([player, odile, player, odile].map((who) => logPractice.as(who, { planDrillId: teeId })));
    await logPractice.as(odile, { planDrillId: teeId });
    expect((await rowsOf(teeId)).filter(({ correctsId }) => correctsId === null)).toHaveLength(1);
    expect((await listWeek.as(player, { playerId })).total).toEqual({ days: 1, times: 18, swings: 18 });
  });

  test("on a drill of a draft, or of another family's plan, is not found", async () => {
    const { player, academyId, playerId, users } = await family();
    const draft = await sentPlan({ academyId, playerId, authorId: users.coach.id, isDraft: true });
    const other = await family();
    await expect(logPractice.as(player, { planDrillId: draft.teeId })).rejects.toThrow(NotFoundError);
    await expect(logPractice.as(player, { planDrillId: other.teeId })).rejects.toThrow(NotFoundError);
  });

  test("for a day to come, or before the plan, is refused in a sentence and keeps nothing", async () => {
    const { player, teeId } = await family();
    expect(await sentenceOf(logPractice.as(player, { planDrillId: teeId, day: "2026-11-26" }))).toBe("That day is still to come. Count it when it is done.");
    expect(await sentenceOf(logPractice.as(player, { planDrillId: teeId, day: "2026-11-19" }))).toBe("This plan had not begun on that day. Nothing was counted.");
    expect(await sentenceOf(logPractice.as(player, { planDrillId: teeId, day: "2026-02-30" }))).toMatch(/There is no such day/);
    expect(await rowsOf(teeId)).toEqual([]);
  });
});

describe("a correction", () => {
  test("is a row of its own that names the one it stands for, and only the last one counts", async () => {
    const { player, odile, teeId, playerId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    await correctPractice.as(odile, { planDrillId: teeId, times: "10" });
    await correctPractice.as(player, { planDrillId: teeId, times: "12" });
    const rows = await rowsOf(teeId);
    expect(rows.map(({ times }) => times)).toEqual([18, 10, 12]);
    expect(rows.map(({ correctsId }) => correctsId)).toEqual([null, rows[0]!.id, rows[1]!.id]);
    expect((await listWeek.as(player, { playerId })).total).toEqual({ days: 1, times: 12, swings: 12 });
  });

  test.each(["501", "10000", "10.5", "-3", "", "many"])("to %j is refused at its field", async (times) => {
    const { player, teeId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    await expect(correctPractice.as(player, { planDrillId: teeId, times })).rejects.toMatchObject({ id: "invalid", fields: { times: expect.any(String) } });
    expect((await rowsOf(teeId)).map((row) => row.times)).toEqual([18]);
  });

  test("back to nothing takes the day out of every sum, and it can be done again", async () => {
    const { player, teeId, playerId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    await undoPractice.as(player, { planDrillId: teeId });
    expect((await listWeek.as(player, { playerId })).total).toEqual({ days: 0, times: 0, swings: 0 });
    expect(await sentenceOf(undoPractice.as(player, { planDrillId: teeId }))).toMatch(/Nothing is counted/);
    await logPractice.as(player, { planDrillId: teeId });
    expect((await getToday.as(player, { playerId })).drills[1]?.doneTimes).toBe(18);
    expect(await rowsOf(teeId)).toHaveLength(3);
  });

  test("cannot change a row that stands", async () => {
    const { player, teeId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    await expect(database().practiceLog.updateMany({ where: { planDrillId: teeId }, data: { times: 1 } })).rejects.toThrow();
  });
});

describe("the day", () => {
  test("changes at midnight of the player's location, and the week with it", async () => {
    // Sunday 22 November, a second before midnight in Chicago; the plan began on Friday.
    goTo("2026-11-23T05:59:59Z");
    const { player, teeId, playerId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    goTo("2026-11-23T06:00:00Z");
    await logPractice.as(player, { planDrillId: teeId });
    expect((await rowsOf(teeId)).map(({ day, correctsId }) => [day.toISOString().slice(0, 10), correctsId])).toEqual([["2026-11-22", null], ["2026-11-23", null]]);
    expect((await listWeek.as(player, { playerId })).total.swings).toBe(18);
    expect((await listWeek.as(player, { playerId, day: "2026-11-22" })).total.swings).toBe(18);
    await correctPractice.as(player, { planDrillId: teeId, day: "2026-11-22", times: "5" });
    expect((await listWeek.as(player, { playerId, day: "2026-11-22" })).total.swings).toBe(5);
    expect((await listWeek.as(player, { playerId })).total.swings).toBe(18);
  });

  test("is the location's own: at one instant it is Thursday there and Wednesday here", async () => {
    const there = await family({ timeZone: "Pacific/Kiritimati" });
    const here = await family({ timeZone: "Pacific/Honolulu" });
    expect((await getToday.as(there.player, { playerId: there.playerId })).today).toBe("2026-11-26");
    expect((await getToday.as(here.player, { playerId: here.playerId })).today).toBe("2026-11-25");
  });
});

describe("while swings are paused", () => {
  test("the page shows no swing drill, the server refuses one, and strength goes on", async () => {
    const { player, playerId, teeId, dryId, strengthId } = await family();
    await reportPain.as(player, { playerId, part: "knee", level: 3 });
    const today = await getToday.as(player, { playerId });
    expect(today.drills.map(({ name }) => name)).toEqual(["Slow hip bridge"]);
    expect(today.onHold).toEqual(["Sideways push and stop", "Back-heel lane tee"]);
    for (const planDrillId of [teeId, dryId]) {
      expect(await sentenceOf(logPractice.as(player, { planDrillId }))).toBe("Swings are paused for now. Rest is the homework today. Strength and mobility may go on.");
      expect(await rowsOf(planDrillId)).toEqual([]);
    }
    expect(await sentenceOf(logPractice.as(player, { planDrillId: strengthId }))).toBe("kept");
  });

  test("a count from before may be set right downwards or taken back, and nothing is added to it", async () => {
    const { player, playerId, teeId } = await family();
    await logPractice.as(player, { planDrillId: teeId });
    await reportPain.as(player, { playerId, part: "knee", level: 3 });
    expect(await sentenceOf(correctPractice.as(player, { planDrillId: teeId, times: "20" }))).toMatch(/paused/);
    expect(await sentenceOf(correctPractice.as(player, { planDrillId: teeId, times: "6" }))).toBe("kept");
    expect(await sentenceOf(undoPractice.as(player, { planDrillId: teeId }))).toBe("kept");
  });
});

describe("counts for coaches", () => {
  test("are days done of days planned, by plan, and the week in all", async () => {
    const { player, coach, playerId, teeId, dryId } = await family({ startsOn: "2026-11-16", endsOn: "2026-11-29" });
    for (const day of ["2026-11-16", "2026-11-18", "2026-11-24"]) await logPractice.as(player, { planDrillId: teeId, day });
    await logPractice.as(player, { planDrillId: dryId, day: "2026-11-24" });
    await undoPractice.as(player, { planDrillId: teeId, day: "2026-11-18" });
    const counts = await getHomeworkCounts.as(coach, { playerId, side: "right" });
    expect(counts).toMatchObject({ playerId, plans: [{ side: "right", doneDays: 2, plannedDays: 8, lastDay: "2026-11-24" }], week: { days: 1, times: 30, swings: 18 } });
    expect(await listHomeworkCounts.as(coach, { playerIds: [playerId] })).toEqual([counts]);
  });

  test("of a player whom the coach does not teach stand in no list", async () => {
    const { coach } = await family();
    const other = await family();
    expect(await listHomeworkCounts.as(coach, { playerIds: [other.playerId] })).toEqual([]);
  });

  test("of who bats both sides are kept apart, and the week holds both", async () => {
    const { academyId, users, coach, player, playerId, teeId } = await family({ bats: "both" });
    const left = await sentPlan({ academyId, playerId, authorId: users.coach.id, side: "left", sentAt: "2026-11-21T20:00:00Z" });
    await logPractice.as(player, { planDrillId: teeId });
    await logPractice.as(player, { planDrillId: left.teeId });
    const counts = await getHomeworkCounts.as(coach, { playerId, side: "left" });
    expect(counts.plans.map(({ side, doneDays }) => [side, doneDays])).toEqual([["left", 1]]);
    expect(counts.week.swings).toBe(36);
    const today = await getToday.as(await actorOf(users.odile, "guardian"), { playerId });
    expect(today.choices.map(({ side, isShown }) => [side, isShown])).toEqual([["left", true], ["right", false]]);
  });
});
