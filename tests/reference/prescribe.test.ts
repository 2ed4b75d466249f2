import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { solveLinearModel } from "@/lib/platform/solver";
import type { Drill } from "@/lib/prescribe/drill";
import { heatAdvice, lightningWait, pitchingRest, wbgtCelsius, weeklyHours } from "@/lib/prescribe/field-limits";
import { solve } from "@/lib/prescribe/linear-model";
import { chooseDayCounts } from "@/lib/prescribe/week/choose-drills";
import type { WeekRequest } from "@/lib/prescribe/week/request";
import { cases } from "./prescribe.json";

const { drills } = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/drills.json"), "utf8")) as { drills: Drill[] };
const loads = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/loads.json"), "utf8"));
const mirror = drills.find(({ id }) => id === "mirror-load")!;
const NO_SWINGS = { perSession: 0, perDay: 0, perWeek: 0, homePerDay: 0, noSwingDaysPerWeek: 2 };

describe("T10.5 to T10.7 knapsacks with a published optimum, as drills with minutes on one day", () => {
  it.each(["T10.5", "T10.6", "T10.7"] as const)("%s: the best drills are the published ones", async (id) => {
    const { inputs, expected } = cases[id];
    const candidates = inputs.w.map((minutes, index) => ({ drill: { ...mirror, id: `item-${index}`, dose: { ...mirror.dose, minutes } }, effect: inputs.v[index] ?? 0, why: "" }));
    // All of one kind: an easy drill is had by any of them, so that the sum of effects decides alone.
    const request: WeekRequest = { candidates, minutesPerDay: inputs.cap, daysPerWeek: 1, caps: NO_SWINGS, elsewhere: [], order: "blocked", mostDrills: candidates.length };
    const choice = await chooseDayCounts(request, { cuts: [], unfit: [] }, solveLinearModel, 20);
    const chosen = new Set(choice?.counts.map(({ candidate }) => candidate.drill.id));
    expect(candidates.map(({ drill }) => Number(chosen.has(drill.id))).join("")).toBe(expected.choice);
    expect(choice?.counts.reduce((sum, { candidate }) => sum + candidate.effect, 0)).toBe(expected.value);
    expect(choice?.counts.reduce((sum, { candidate }) => sum + candidate.drill.dose.minutes, 0)).toBe(expected.weight);
    expect(choice?.gap).toBe(0);
  });
});

describe("T10.8 to T10.10 set covers, through the same model and solver", () => {
  it.each(["T10.8", "T10.9", "T10.10"] as const)("%s: the cover is the known best, where greedy is worse", async (id) => {
    const { inputs, expected } = cases[id];
    const sets: Record<string, readonly number[]> = inputs.S;
    const minutes: Record<string, number> = "w" in inputs ? inputs.w : {};
    const columns = Object.keys(sets).map((name) => ({ name, weight: minutes[name] ?? 1, most: 1 }));
    const rows = inputs.U.map((part) => ({ terms: columns.filter(({ name }) => sets[name]?.includes(part)).map(({ name }) => [1, name] as const), least: 1 }));
    const solved = await solve({ sense: "least", columns, rows }, solveLinearModel, 20);
    expect(solved.status).toBe("best");
    expect(solved.value).toBe(expected.opt);
    expect(columns.filter(({ name }) => solved.of(name) === 1).map(({ name }) => name)).toEqual(expected.cover);
  });
});

describe("throwing", () => {
  // Daily limits and rest days by age: pitch-count guideline of MLB and USA Baseball, page copy of about 2015.
  it.each([
    [12, 50, 2], [12, 51, 3], [16, 50, 2], [14, 66, 4], [7, 20, 0], [9, 21, 1], [15, 30, 0], [15, 31, 1], [18, 61, 3], [18, 76, 4], [22, 76, 4],
  ])("at %i years %i pitches ask for %i days of rest", (age, pitches, restDays) => {
    expect(pitchingRest(age, pitches, loads.throwing)).toMatchObject({ kind: "within", restDays });
  });

  it.each([[8, 51, 50], [10, 76, 75], [12, 86, 85], [14, 96, 95], [16, 96, 95], [18, 106, 105], [22, 121, 120]])("at %i years %i pitches are more than the %i of a day", (age, pitches, most) => {
    expect(pitchingRest(age, pitches, loads.throwing)).toMatchObject({ kind: "over", most });
  });

  it("outside the table no number is made up, and no pitch asks for no rest", () => {
    expect(pitchingRest(6, 10, loads.throwing)).toMatchObject({ kind: "no-row" });
    expect(pitchingRest(23, 10, loads.throwing)).toMatchObject({ kind: "no-row" });
    expect(pitchingRest(12, 0, loads.throwing)).toMatchObject({ kind: "within", restDays: 0 });
    expect(() => pitchingRest(12, -1, loads.throwing)).toThrow(RangeError);
  });

  // Weekly hours at most the age in years: athletic trainers' position statement, copy.
  it("a week of sport has at most as many hours as the player has years", () => {
    expect(weeklyHours(12, 12)).toBe("within");
    expect(weeklyHours(12, 12.5)).toBe("over");
  });
});

describe("heat and lightning", () => {
  it("T9.1: WBGT is 0.7 wet bulb, 0.2 globe and 0.1 air", () => {
    const { inputs, expected } = cases["T9.1"];
    expect(wbgtCelsius(inputs.Tw, inputs.Tg, inputs.Ta)).toBeCloseTo(expected.C, 9);
    expect((wbgtCelsius(inputs.Tw, inputs.Tg, inputs.Ta) * 9) / 5 + 32).toBeCloseTo(expected.F, 9);
  });

  // American Academy of Pediatrics: under 24 all, 24 to 25.9 longer rests, 26 to 29 limit, over 29 cancel (degrees C).
  it.each([[23.9, "all"], [24, "rest"], [25.9, "rest"], [26, "limit"], [29, "limit"], [29.1, "cancel"]] as const)("a minor at %f °C WBGT: %s", (celsius, step) => {
    expect(heatAdvice(celsius, 12, loads.heat).step).toBe(step);
  });

  // American College of Sports Medicine, acclimatised: under 82, 82.1 to 86, 86.1 to 90, over 90 °F.
  it.each([[81.9, "all"], [82.1, "rest"], [86, "rest"], [86.1, "limit"], [90, "limit"], [90.1, "cancel"]] as const)("an adult at %f °F WBGT: %s", (fahrenheit, step) => {
    expect(heatAdvice(((fahrenheit - 32) * 5) / 9, 30, loads.heat).step).toBe(step);
  });

  it("a minor never gets a milder answer than an adult", () => {
    const steps = ["all", "rest", "limit", "cancel"];
    for (let celsius = 15; celsius < 40; celsius += 0.1) {
      expect(steps.indexOf(heatAdvice(celsius, 10, loads.heat).step)).toBeGreaterThanOrEqual(steps.indexOf(heatAdvice(celsius, 30, loads.heat).step));
    }
  });

  it("play waits 30 minutes after the last flash or thunder, and each new one begins the wait again", () => {
    const at = (minute: number) => new Date(Date.UTC(2026, 6, 1, 15, minute));
    expect(lightningWait([at(0)], at(29), loads.lightning)).toEqual({ isSafe: false, minutesLeft: 1 });
    expect(lightningWait([at(0)], at(30), loads.lightning)).toEqual({ isSafe: true, minutesLeft: 0 });
    expect(lightningWait([at(0), at(20)], at(30), loads.lightning)).toEqual({ isSafe: false, minutesLeft: 20 });
    expect(lightningWait([], at(30), loads.lightning)).toEqual({ isSafe: true, minutesLeft: 0 });
  });
});
