import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostAfter, plannedSwings, swingCaps, swingsOf, type SwingLimits } from "./swing-load";

const limits: SwingLimits = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/loads.json"), "utf8")).swings;
const drill = (name: string, fullSwings: number) => ({ name, dose: { minutes: 5, sets: 1, reps: fullSwings, fullSwings, effortPercent: 70 } });

describe("swing caps", () => {
  it("are the row of the level", () => {
    expect(swingCaps("11-12", 12, limits)).toEqual({ perSession: 80, perDay: 100, perWeek: 400, homePerDay: 60, noSwingDaysPerWeek: 2 });
  });

  it("are half of the youngest row under 8", () => {
    expect(swingCaps("8-10", 7, limits)).toEqual({ perSession: 30, perDay: 40, perWeek: 150, homePerDay: 30, noSwingDaysPerWeek: 2 });
  });

  it("are 0 while swings are paused", () => {
    expect(swingCaps("adult", 30, limits, true)).toMatchObject({ perSession: 0, perDay: 0, perWeek: 0, homePerDay: 0 });
  });

  it("never give a minor the adults' row", () => {
    expect(swingCaps("adult", 17, limits).perDay).toBe(swingCaps("15-18", 17, limits).perDay);
  });

  it("a level without a row is refused by name", () => {
    expect(() => swingCaps("13-14", 13, { ...limits, rows: [] })).toThrow(/13-14/);
  });
});

describe("a planned week", () => {
  const caps = swingCaps("11-12", 12, limits);

  it("at the caps is accepted, and one swing more is refused with the sum by drill", () => {
    const at = plannedSwings([{ name: "Tuesday", drills: [drill("Fence gap swing", 40), drill("Self toss", 20), drill("Mirror", 0)] }], caps);
    expect(at).toEqual({ byDay: [{ name: "Tuesday", swings: 60 }], total: 60, refusals: [] });
    const over = plannedSwings([{ name: "Tuesday", drills: [drill("Fence gap swing", 40), drill("Self toss", 21), drill("Mirror", 0)] }], caps);
    expect(over.refusals).toEqual(["Tuesday has 61 swings (Fence gap swing 40 + Self toss 21). The home limit is 60 a day."]);
  });

  it("adds swings elsewhere and names every source", () => {
    const days = ["Mon", "Wed", "Fri"].map((name) => ({ name, drills: [drill("Tee", 50)] }));
    expect(plannedSwings(days, caps, [{ name: "team", swingsPerWeek: 251 }]).refusals).toEqual([
      "The week has 401 swings (home 150 + team 251). The limit is 400 a week.",
    ]);
  });

  it("keeps two days without a swing", () => {
    const days = Array.from({ length: 6 }, (_, i) => ({ name: `Day ${i + 1}`, drills: [drill("Tee", 10)] }));
    expect(plannedSwings(days, caps).refusals).toEqual(["6 days have swings. At least 2 days of the week stay without."]);
    expect(plannedSwings(days.slice(1), caps).refusals).toEqual([]);
  });

  it("has at most seven days", () => {
    expect(() => plannedSwings(Array.from({ length: 8 }, () => ({ name: "x", drills: [] })), caps)).toThrow(RangeError);
    expect(swingsOf([])).toBe(0);
  });
});

it("a week grows freely to half its cap, then by ten per cent at most, and never over the cap", () => {
  fc.assert(
    fc.property(fc.nat(1500), fc.integer({ min: 1, max: 800 }), (lastWeek, perWeek) => {
      const most = mostAfter(lastWeek, { perWeek }, 10);
      expect(most).toBeLessThanOrEqual(perWeek);
      expect(most).toBeGreaterThanOrEqual(Math.floor(perWeek / 2));
      if (most > Math.floor(perWeek / 2)) expect(most).toBeLessThanOrEqual(1.1 * lastWeek);
    }),
  );
  expect([0, 180, 190, 300, 500].map((lastWeek) => mostAfter(lastWeek, { perWeek: 400 }, 10))).toEqual([200, 200, 209, 330, 400]);
});
