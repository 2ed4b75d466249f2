import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import { cautionsFor } from "./cautions";
import type { Drill } from "./drill";
import { fieldCautions, type FieldTables } from "./field-cautions";
import { heatAdvice } from "./field-limits";
import { seasonRefusal } from "./season";

const all: readonly Drill[] = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/drills.json"), "utf8")).drills;
const named = (...ids: string[]) => ids.map((id) => all.find((drill) => drill.id === id)!);
const idsFor = (drills: Drill[], years: number, gear?: string[]) => cautionsFor(drills, years, gear).map(({ id }) => id);

it("cautions of several drills are said once each and in one order", () => {
  const both = idsFor(named("front-toss-middle", "self-toss-drive"), 12);
  expect(both).toEqual(idsFor(named("self-toss-drive", "front-toss-middle"), 12));
  expect(new Set(both).size).toBe(both.length);
  expect(both).toEqual(expect.arrayContaining(["swing-circle", "taut-net", "helmet", "screen", "soft-balls", "stop"]));
});

it("a drill with a bat always asks for a clear circle, and no drills ask for nothing", () => {
  for (const drill of all.filter(({ gear }) => gear.includes("bat"))) expect(idsFor([drill], 16), drill.id).toContain("swing-circle");
  expect(cautionsFor([], 9)).toEqual([]);
});

it("a face guard is asked for under the drill's age, an adult only of minors, soft balls of a child under 8", () => {
  const standIn = named("stand-in-tracking");
  expect(idsFor(standIn, 14)).toEqual(expect.arrayContaining(["adult", "face-guard"]));
  expect(idsFor(standIn, 15)).not.toContain("face-guard");
  expect(idsFor(standIn, 18)).not.toContain("adult");
  const hardTee = all.find(({ hardBalls, setup }) => hardBalls && setup === "tee")!;
  expect(idsFor([hardTee], 7, ["foam-ball"])).toContain("soft-balls");
  expect(idsFor([hardTee], 8, ["foam-ball"])).not.toContain("soft-balls");
});

it("a new change of the movement waits for the season, timing and eyes do not", () => {
  const ask = { season: "in-season", area: "front-side", isNewFocus: true, daysToFirstGame: null, hasHeadCoachAgreed: false } as const;
  expect(seasonRefusal(ask)).toMatch(/^In season/);
  expect(seasonRefusal({ ...ask, area: "head-eyes" })).toBeNull();
  expect(seasonRefusal({ ...ask, isNewFocus: false })).toBeNull();
  expect(seasonRefusal({ ...ask, hasHeadCoachAgreed: true })).toBeNull();
  expect(seasonRefusal({ ...ask, season: null })).toBeNull();
  expect(seasonRefusal({ ...ask, season: "pre-season", daysToFirstGame: 15 })).toBeNull();
  expect(seasonRefusal({ ...ask, season: "pre-season", daysToFirstGame: 14 })).toMatch(/14 days/);
});

const loads = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/loads.json"), "utf8")) as FieldTables;

it("thunder and heat are said wherever a ball flies, pitching where somebody throws, and nothing for what is done indoors", () => {
  const idsOf = (setups: string[], years = 12) => fieldCautions(setups, years, loads).map(({ id }) => id);
  expect(idsOf(["dry", "strength", "mobility"])).toEqual([]);
  expect(idsOf(["dry", "tee"])).toEqual(["lightning", "heat", "hours"]);
  expect(idsOf(["live"])).toEqual(["lightning", "heat", "throwing", "hours"]);
  const pitching = (years: number) => fieldCautions(["throw"], years, loads).find(({ id }) => id === "throwing")!.rows.join(" ");
  expect(pitching(12)).toMatch(/At most 85 pitches in a day at this age\. 1 to 20 pitches: no day off\. 21 to 35 pitches: one day off\. 36 to 50 pitches: 2 days off\./);
  expect(pitching(16)).toMatch(/At most 95 pitches/);
  expect(pitching(30)).toMatch(/^Under 7: no pitching counted/);
  for (const { source, words } of fieldCautions(["live"], 12, loads)) {
    expect(source).not.toMatch(/REFERENCE/);
    // In the open there is no number: the page is a child's too.
    expect(words).not.toMatch(/\d/);
  }
});

it("the children's heat scale, which minors are shown, is the stricter of the two at every temperature", () => {
  const children = loads.heat.scales.find(({ id }) => id === "children")!;
  for (let tenths = 180; tenths <= 380; tenths += 1) {
    const celsius = tenths / 10;
    expect(heatAdvice(celsius, 12, loads.heat)).toEqual(heatAdvice(celsius, 12, { scales: [children] }));
  }
  expect(fieldCautions(["tee"], 12, loads).find(({ id }) => id === "heat")!.rows.slice(0, 4)).toEqual([
    "Under 24 °C: all activity.", "24 to under 26 °C: longer rests, more drinking, in the shade.", "26 to 29 °C: stop those not used to the heat; limit and rest the others.", "Over 29 °C: cancel.",
  ]);
});
