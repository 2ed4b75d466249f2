import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { levelOfAge } from "@/lib/core/age";
import { allowedDrills } from "./allowed-drills";
import { ADULT_RULES, BODY_PARTS, type Drill, type DrillPlayer, type GearCatalogue, SETUPS } from "./drill";
import { brokenLimits, LIMIT_IDS, type LimitId } from "./limits";

const folder = path.resolve(import.meta.dirname, "../../seed/library");
const read = (name: string) => JSON.parse(readFileSync(path.join(folder, `${name}.json`), "utf8"));
const drills: readonly (Drill & { steps: string[] })[] = read("drills").drills;
const catalogue: GearCatalogue = read("gear");
const everyItem = catalogue.items.map(({ id }) => id);
const everyFault = [...new Set(drills.flatMap((drill) => drill.faults.map(({ fault }) => fault)))];

/** A grown hitter with everything at hand. */
const equipped: DrillPlayer = {
  ageYears: 30, level: "adult", sport: "softball", isSlapper: true, gear: everyItem, space: { widthM: 50, lengthM: 50, hasCage: true },
  partnerCount: 2, adult: "operates", complaints: [], causesWorkedOn: [], learnedDrills: drills.map(({ id }) => id),
};
const withAge = (ageYears: number, rest: Partial<DrillPlayer> = {}): DrillPlayer => ({ ...equipped, ageYears, level: levelOfAge(ageYears), ...rest });
const allowedFor = (player: DrillPlayer) => allowedDrills(drills, player, everyFault, catalogue).allowed.map(({ drill }) => drill);
const limitsOf = (id: string, player: DrillPlayer) => brokenLimits(drills.find((drill) => drill.id === id)!, player, catalogue);

describe("the hard limits", () => {
  it("every drill may be done by somebody who has everything at hand", () => {
    const ages = [8, 12, 14, 17, 30].map((age) => withAge(age));
    for (const drill of drills) expect(ages.some((player) => brokenLimits(drill, player, catalogue).length === 0), drill.id).toBe(true);
  });

  it("a 9-year-old, and a 12-year-old with a wrist complaint, get no one-hand bat drill, and the reason is said", () => {
    const oneHand = drills.filter((drill) => /(top|bottom)-hand-tee/.test(drill.id));
    expect(oneHand.map(({ id }) => id)).toEqual(["short-bat-top-hand-tee", "short-bat-bottom-hand-tee"]);
    const nine = withAge(9, { firstName: "Bea" });
    const sore = withAge(12, { firstName: "Bea", complaints: ["wrist"] });
    for (const drill of oneHand) {
      expect(allowedFor(nine)).not.toContain(drill);
      expect(allowedFor(sore)).not.toContain(drill);
      expect(allowedFor(withAge(12))).toContain(drill);
      expect(limitsOf(drill.id, nine)).toContainEqual({ id: "age", words: `From age ${drill.minAge}; Bea is 9.` });
      expect(limitsOf(drill.id, sore)).toEqual([{ id: "complaint", words: "Not while Bea has a complaint there: wrist." }]);
    }
  });

  it("a player with no tee and no partner sees only dry, strength, mobility and self-toss drills", () => {
    const gear = everyItem.filter((item) => !/tee|machine|thrower|dead-bounce/.test(item));
    const alone = allowedFor(withAge(16, { gear, partnerCount: 0, adult: "nearby", isSlapper: true }));
    expect(alone.length).toBeGreaterThan(20);
    const atBalls = alone.filter(({ setup }) => !["dry", "strength", "mobility"].includes(setup)).map(({ id }) => id);
    expect(atBalls.sort()).toEqual(["self-toss-drive"]);
  });

  it("no 10-year-old gets a machine without an adult who works it, whatever the record of the drill says", () => {
    const machine = drills.filter((drill) => drill.setup === "machine" || drill.gear.includes("machine") || drill.gear.includes("fed-ball"));
    expect(machine.length).toBeGreaterThan(2);
    for (const adult of ["none", "nearby", "in-charge"] as const) {
      for (const drill of machine) {
        const loosened: Drill = { ...drill, adult: "none", minAge: 8, levels: ["8-10"] };
        expect(brokenLimits(loosened, withAge(10, { adult }), catalogue).map(({ id }) => id)).toContain("adult");
      }
    }
  });

  it("an adult within call is asked for under 15 and no longer at 15", () => {
    const near = drills.find((drill) => drill.adult === "nearby" && drill.levels.includes("15-18") && drill.levels.includes("13-14"))!;
    expect(limitsOf(near.id, withAge(14, { adult: "none" }))).toEqual([{ id: "adult", words: "Needs an adult within call." }]);
    expect(limitsOf(near.id, withAge(15, { adult: "none" }))).toEqual([]);
  });

  it("a group of gear is met by any one of its items, a screen also by a fine-mesh screen, and that by nothing else", () => {
    const without = (...items: string[]) => withAge(16, { gear: everyItem.filter((item) => !items.includes(item)) });
    expect(limitsOf("mirror-load", without("mirror"))).toEqual([]);
    expect(limitsOf("mirror-load", without("mirror", "phone"))).toEqual([{ id: "gear", words: "Not at hand: mirror or phone." }]);
    expect(limitsOf("hold-up-toss", without("screen"))).toEqual([]);
    expect(limitsOf("hold-up-toss", without("screen", "fine-mesh-screen")).map(({ id }) => id)).toEqual(["protection"]);
    expect(limitsOf("small-ball-toss", without("fine-mesh-screen")).map(({ id }) => id)).toEqual(["protection"]);
  });

  it("a room that is wide enough the other way round is wide enough", () => {
    const drill = drills.find(({ spaceM, levels }) => spaceM.w !== spaceM.l && levels.includes("15-18"))!;
    const { w, l } = drill.spaceM;
    const at = (widthM: number, lengthM: number) => limitsOf(drill.id, withAge(16, { space: { widthM, lengthM, hasCage: true } }));
    expect([at(w, l), at(l, w)]).toEqual([[], []]);
    expect(at(Math.max(w, l), Math.min(w, l) - 0.1).map(({ id }) => id)).toEqual(["space"]);
  });

  it("under 8 a hard ball is replaced by a soft one, or the drill is left out", () => {
    const drill = drills.find(({ hardBalls, setup, minAge }) => hardBalls && setup === "tee" && minAge === 8)!;
    const soft = ["soft-core-ball", "foam-ball", "tennis-ball"];
    expect(limitsOf(drill.id, withAge(7))).toEqual([]);
    expect(limitsOf(drill.id, withAge(7, { gear: everyItem.filter((item) => !soft.includes(item)) })).map(({ id }) => id)).toEqual(["under-eight"]);
  });
});

/** The limits written a second time, each as a bare yes or no, from the library's field notes. */
const breaks: Record<LimitId, (d: Drill, p: DrillPlayer) => boolean> = {
  kept: (d, p) => p.keptDrills !== undefined && p.keptDrills.every(({ drillId }) => drillId !== d.id),
  paused: (d, p) => p.isPaused === true && !["strength", "mobility"].includes(d.setup),
  complaint: (d, p) => p.complaints.some((part) => d.avoidParts.includes(part)),
  age: (d, p) => d.minAge > 8 && p.ageYears < d.minAge,
  level: (d, p) => !d.levels.includes(p.level),
  "under-eight": (d, p) => {
    if (p.ageYears > 7 || ["dry", "strength", "mobility"].includes(d.setup)) return false;
    const hasSoft = p.gear.some((item) => ["soft-core-ball", "foam-ball", "tennis-ball"].includes(item));
    return ["live", "machine", "throw"].includes(d.setup) || (d.hardBalls && !hasSoft);
  },
  adult: (d, p) => {
    const rank = { none: 0, nearby: 1, "in-charge": 2, operates: 3 };
    const isFed = d.setup === "machine" || d.gear.some((entry) => entry === "machine" || entry === "fed-ball");
    const needed = Math.max(rank[d.adult], isFed ? 3 : 0, d.setup === "live" ? 2 : 0, p.ageYears < 8 ? 1 : 0);
    return p.ageYears < 18 && (needed > 1 || p.ageYears < 15) && rank[p.adult] < needed;
  },
  protection: (d, p) => {
    const isHardTowards = d.hardBalls && ["toss", "live", "machine"].includes(d.setup);
    const hasScreen = p.gear.includes("screen") || p.gear.includes("fine-mesh-screen");
    const lacks = (item: string) => d.gear.includes(item) && !p.gear.includes(item);
    if ((d.helmet || isHardTowards) && !p.gear.includes("helmet")) return true;
    if ((isHardTowards || d.gear.includes("screen")) && !hasScreen) return true;
    if (p.ageYears < (d.faceGuardUnderAge ?? 0) && !p.gear.includes("face-guard")) return true;
    return lacks("helmet") || lacks("eye-protection") || lacks("fine-mesh-screen") || lacks("face-guard");
  },
  partner: (d, p) => Math.max(p.partnerCount, ["in-charge", "operates"].includes(p.adult) ? 1 : 0) < d.partnerCount,
  gear: (d, p) =>
    d.gear.some((entry) => {
      if (["helmet", "eye-protection", "screen", "fine-mesh-screen", "face-guard"].includes(entry)) return false;
      const options = catalogue.groups.find((group) => group.id === entry)?.anyOf ?? [entry];
      return !options.some((item) => p.gear.includes(item) || (item === "screen" && p.gear.includes("fine-mesh-screen")));
    }),
  space: (d, p) => {
    const [small, big] = [p.space.widthM, p.space.lengthM].sort((a, b) => a - b) as [number, number];
    const [w, l] = [d.spaceM.w, d.spaceM.l].sort((a, b) => a - b) as [number, number];
    return small < w || big < l;
  },
  cage: (d, p) => d.needsCage && !p.space.hasCage && !p.gear.includes("open-field"),
  cause: (d, p) => p.causesWorkedOn.some((cause) => d.avoidCauses?.includes(cause)),
  "learned-first": (d, p) => d.requiresDrill?.some((id) => !p.learnedDrills.includes(id)) ?? false,
  sport: (d, p) => d.sport !== "both" && d.sport !== p.sport,
  slap: (d, p) => d.onlyFor === "slap" && !p.isSlapper,
  season: (d, p) =>
    (p.season === "break" && !["strength", "mobility"].includes(d.setup)) || d.faults.every(({ fault }) => p.forbiddenFocus?.includes(fault)),
};

/** A dose that no drill of the library passes. */
const MUCH = { timesPerDay: 999, minutesPerDay: 999, swingsPerDay: 999, daysPerWeek: 7 };

/** A player who has most things, and a starter drill of which some safety fields were changed by an editor. */
const anyCase = fc.record({
  index: fc.oneof(
    { weight: 8, arbitrary: fc.nat(drills.length - 1) },
    { weight: 1, arbitrary: fc.constant(drills.findIndex(({ requiresDrill }) => requiresDrill)) },
  ),
  changes: fc.record({
    setup: fc.option(fc.constantFrom(...SETUPS), { freq: 3 }), hardBalls: fc.option(fc.boolean()), helmet: fc.option(fc.boolean()),
    adult: fc.option(fc.constantFrom(...ADULT_RULES), { freq: 3 }), sport: fc.option(fc.constantFrom("both", "softball", "baseball" as const)),
    minAge: fc.option(fc.integer({ min: 8, max: 15 }), { freq: 3 }), gear: fc.option(fc.subarray([...everyItem], { maxLength: 3 }), { freq: 2 }),
  }),
  age: fc.integer({ min: 5, max: 20 }),
  missing: fc.subarray([...everyItem], { maxLength: 4 }),
  player: fc.record({
    sport: fc.constantFrom("softball", "softball", "baseball" as const), isSlapper: fc.boolean(),
    space: fc.record({ widthM: fc.integer({ min: 3, max: 30 }), lengthM: fc.integer({ min: 3, max: 30 }), hasCage: fc.boolean() }),
    partnerCount: fc.integer({ min: 0, max: 2 }), adult: fc.constantFrom(...ADULT_RULES, "operates", "operates" as const),
    complaints: fc.subarray([...BODY_PARTS], { maxLength: 1 }), causesWorkedOn: fc.subarray(["per-fear"]),
    learnedDrills: fc.subarray(["safe-turn-away"]), isPaused: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
    season: fc.constantFrom(undefined, undefined, "in-season", "break" as const), forbiddenFocus: fc.subarray(everyFault, { maxLength: 12 }),
  }),
  /** In season a focus from before: it had this drill, or only another. */
  keeps: fc.integer({ min: 0, max: 29 }).map((n) => ["another", "this"][n] ?? null),
});

describe("over random players and drills", () => {
  it("no allowed drill breaks any limit, each broken limit is said, and every limit keeps something out that nothing else would", () => {
    const keptOutByItAlone = Object.fromEntries(LIMIT_IDS.map((id) => [id, 0])) as Record<LimitId, number>;
    let allowedCount = 0;
    fc.assert(
      fc.property(anyCase, ({ index, changes, age, missing, keeps, player: rest }) => {
        const set = Object.fromEntries(Object.entries(changes).filter(([, value]) => value !== null));
        const drill: Drill = { ...drills[index]!, ...set };
        const gear = everyItem.filter((item) => !missing.includes(item));
        const player: DrillPlayer = { ...rest, ageYears: age, level: levelOfAge(age), gear, ...(keeps ? { keptDrills: [{ ...MUCH, drillId: keeps === "this" ? drill.id : "another" }] } : {}) } as DrillPlayer;
        const expected = LIMIT_IDS.filter((id) => breaks[id](drill, player));
        const { allowed, leftOut } = allowedDrills([drill], player, drill.faults.map(({ fault }) => fault), catalogue);
        expect(leftOut.flatMap(({ limits }) => limits.map(({ id }) => id))).toEqual(expected);
        expect(allowed.length).toBe(expected.length === 0 ? 1 : 0);
        if (expected.length === 1) keptOutByItAlone[expected[0]!]++;
        allowedCount += allowed.length;
      }),
      { numRuns: 5_000, seed: 20_261 },
    );
    for (const id of LIMIT_IDS) expect(keptOutByItAlone[id], `drills kept out by "${id}" alone: ${JSON.stringify(keptOutByItAlone)}`).toBeGreaterThan(0);
    expect(allowedCount).toBeGreaterThan(100);
    console.info(`allowed ${allowedCount}; kept out by one limit alone: ${JSON.stringify(keptOutByItAlone)}`);
  }, 60_000);
});
