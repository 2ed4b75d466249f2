import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { allowedDrills, changeableByFault, easierAllowed, nextAllowed } from "./allowed-drills";
import type { Drill, DrillPlayer, GearCatalogue } from "./drill";
import { brokenLimits } from "./limits";

const read = (name: string) => JSON.parse(readFileSync(path.resolve(import.meta.dirname, `../../seed/library/${name}.json`), "utf8"));
const drills: readonly Drill[] = read("drills").drills;
const catalogue: GearCatalogue = read("gear");
const player: DrillPlayer = {
  ageYears: 10, level: "8-10", sport: "baseball", isSlapper: false, gear: catalogue.items.map(({ id }) => id),
  space: { widthM: 30, lengthM: 30, hasCage: true }, partnerCount: 1, adult: "nearby", complaints: [], causesWorkedOn: [], learnedDrills: [],
};

describe("drills for a focus", () => {
  it("only drills that serve the focus are in either list, the most effective first", () => {
    const { allowed, leftOut } = allowedDrills(drills, player, ["barrel-drag", "late-start"], catalogue);
    expect(allowed.length).toBeGreaterThan(1);
    for (const { drill, servesFault, effect } of allowed) {
      const efforts = drill.faults.filter(({ fault }) => fault === "barrel-drag" || fault === "late-start");
      expect(effect).toBe(Math.max(...efforts.map((served) => served.effect)));
      expect(efforts.find(({ fault }) => fault === servesFault)?.effect).toBe(effect);
    }
    expect(allowed.map(({ effect }) => effect)).toEqual(allowed.map(({ effect }) => effect).sort((a, b) => b - a));
    for (const { limits } of leftOut) expect(limits.length).toBeGreaterThan(0);
    const serving = drills.filter((drill) => drill.faults.some(({ fault }) => fault === "barrel-drag" || fault === "late-start"));
    expect([...allowed, ...leftOut].map(({ drill }) => drill.id).sort()).toEqual(serving.map(({ id }) => id).sort());
  });

  it("a reason is a whole sentence for people", () => {
    const nobody: DrillPlayer = { ...player, firstName: "Bea", gear: [], partnerCount: 0, adult: "none", space: { widthM: 1, lengthM: 1, hasCage: false } };
    for (const drill of drills) for (const { words } of brokenLimits(drill, nobody, catalogue)) expect(words).toMatch(/^[A-Z].*\.$/);
  });

  it("a fault that the season leaves alone is served by nothing", () => {
    const inSeason: DrillPlayer = { ...player, forbiddenFocus: ["barrel-drag"] };
    expect(allowedDrills(drills, inSeason, ["barrel-drag"], catalogue).allowed).toEqual([]);
    expect(changeableByFault(drills, inSeason, catalogue)["barrel-drag"]).toBeUndefined();
  });
});

describe("the step up and the step down", () => {
  const step = (id: string, next: string | null, minAge = 8, easier: string | null = null): Drill =>
    ({ ...drills[0]!, id, next, easier, minAge, levels: ["8-10", "11-12", "13-14"] });

  it("skip drills that this player may not do", () => {
    const ladder = [step("a", "b"), step("b", "c", 13), step("c", null, 8, "b")];
    expect(nextAllowed(ladder[0]!, ladder, player, catalogue)?.id).toBe("c");
    expect(nextAllowed(ladder[0]!, ladder, { ...player, ageYears: 13, level: "13-14" }, catalogue)?.id).toBe("b");
    expect(easierAllowed(ladder[2]!, ladder, player, catalogue)).toBeNull();
  });

  it("end where no link is left, where a link leads nowhere and where the links go round", () => {
    expect(nextAllowed(step("a", null), [], player, catalogue)).toBeNull();
    expect(nextAllowed(step("a", "gone"), [], player, catalogue)).toBeNull();
    const round = [step("a", "b"), step("b", "c", 13), step("c", "b", 13)];
    expect(nextAllowed(round[0]!, round, player, catalogue)).toBeNull();
  });

  it("over the starter library lead only to drills that the player may do", () => {
    for (const drill of drills) {
      const up = nextAllowed(drill, drills, player, catalogue);
      if (up) expect(brokenLimits(up, player, catalogue)).toEqual([]);
    }
  });
});

describe("how changeable a fault is", () => {
  it("is the largest effect among the drills the player may do, and less at hand never makes it more", () => {
    const all = changeableByFault(drills, player, catalogue);
    const few = changeableByFault(drills, { ...player, gear: ["bat"], partnerCount: 0 }, catalogue);
    for (const [fault, effect] of Object.entries(few)) expect(effect).toBeLessThanOrEqual(all[fault] ?? 0);
    expect(Object.keys(few).some((fault) => (few[fault] ?? 0) < (all[fault] ?? 0))).toBe(true);
    expect(all["barrel-drag"]).toBe(allowedDrills(drills, player, ["barrel-drag"], catalogue).allowed[0]?.effect);
  });
});
