import { readFileSync } from "node:fs";
import path from "node:path";
import type { DrillRecord } from "@/lib/domains/library/schema";
import { describe, expect, it } from "vitest";
import { cautionsOf, cueChoices, swingsFor } from "./rules";
import { swingRefusals } from "./week/rules";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../../seed/library/${name}.json`), "utf8"));
const drills: DrillRecord[] = read("drills").drills;

describe("swings of a plan", () => {
  it("are the library's share of the times, rounded up, so that no dose understates them", () => {
    for (const drill of drills) {
      const { sets, reps, fullSwings } = drill.dose;
      expect(swingsFor(drill, sets * reps)).toBe(fullSwings);
      expect(swingsFor(drill, 1) * sets * reps).toBeGreaterThanOrEqual(fullSwings);
    }
  });

  const caps = { perSession: 80, perDay: 100, perWeek: 400, homePerDay: 60, noSwingDaysPerWeek: 2 };
  const drill = (name: string, swings: number, daysPerWeekMost: number | null = null) => ({ name, timesPerDay: swings, swingsPerDay: swings, minutesPerDay: 5, daysPerWeekMost, weekdays: [] as number[] });

  it("of every plan in force count together, and a refusal gives the sum", () => {
    const own = { daysPerWeek: 3, drills: [drill("Tee", 40)] };
    expect(swingRefusals([own], caps)).toEqual([]);
    expect(swingRefusals([own, { daysPerWeek: 5, drills: [drill("Toss", 21)] }], caps)).toEqual(["One day has 61 swings (Tee 40 + Toss 21). The home limit is 60 a day."]);
  });

  it("of a drill that is done on few days count on those only", () => {
    expect(swingRefusals([{ daysPerWeek: 5, drills: [drill("Pairs", 60, 2)] }], { ...caps, perWeek: 120 })).toEqual([]);
    expect(swingRefusals([{ daysPerWeek: 5, drills: [drill("Pairs", 60)] }], { ...caps, perWeek: 120 })[0]).toMatch(/The week has 300 swings/);
  });

  it("elsewhere count in the day, the week and the days with swings, each sum by its source", () => {
    const on = (weekdays: number[], swings: number) => ({ daysPerWeek: weekdays.length, drills: [{ ...drill("Tee", swings), weekdays }] });
    const team = (weekdays: number[], swingsEach: number) => [{ name: "team", weekdays, swingsEach }];
    expect(swingRefusals([on([1, 3], 40)], caps, team([2, 4], 70))).toEqual([]);
    expect(swingRefusals([on([1, 2], 40)], caps, team([2, 4], 70))).toEqual(["Tuesday has 110 swings (home 40 + team 70). The limit is 100 a day."]);
    expect(swingRefusals([on([1, 3], 60)], caps, team([2, 4], 150))[0]).toBe("The week has 420 swings (home 120 + team 300). The limit is 400 a week.");
    expect(swingRefusals([on([1, 3, 5], 10)], caps, team([2, 4, 6], 10))).toEqual(["6 days have swings, with those elsewhere. At least 2 days of the week stay without."]);
    // Without weekdays the fullest day of home may meet the fullest elsewhere.
    expect(swingRefusals([{ daysPerWeek: 2, drills: [drill("Tee", 40)] }], caps, team([2], 70))[0]).toMatch(/^Tuesday may have 110 swings .* Say on which days/);
    // What others let a player swing is no reason against homework without a swing.
    expect(swingRefusals([on([1], 0)], caps, team([1, 2, 3, 4, 5, 6], 100))).toEqual([]);
  });

  it("are none while swings are paused", () => {
    expect(swingRefusals([{ daysPerWeek: 1, drills: [drill("Tee", 1)] }], { ...caps, homePerDay: 0, perWeek: 0 })).not.toEqual([]);
    expect(swingRefusals([{ daysPerWeek: 1, drills: [drill("Mirror", 0)] }], { ...caps, homePerDay: 0, perWeek: 0 })).toEqual([]);
  });
});

describe("cues to choose from", () => {
  it("begin with the one the player had last, and stand there once", () => {
    const cues = cueChoices({ cues: [{ text: "A" }, { text: "B" }] }, [{ name: "Tee", cues: [{ text: "B", focus: "external" }, { text: "C", focus: "external" }] }], { text: "B", from: "said on 4 November" });
    expect(cues).toEqual([{ text: "B", from: "said on 4 November" }, { text: "A", from: null }, { text: "C", from: "Tee" }]);
  });
});

describe("cautions of several drills", () => {
  it("are said once, in their own order, with stop last", () => {
    expect(cautionsOf([{ cautions: ["Anything hurts: stop and tell an adult.", "Helmet on."] }, { cautions: ["Helmet on."] }])).toEqual(["Helmet on.", "Anything hurts: stop and tell an adult."]);
  });
});
