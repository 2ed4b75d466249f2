import { describe, expect, test } from "vitest";
import { LEVELS } from "@/lib/core/age";
import { seededRandom } from "@/lib/core/random";
import { besideChildWords, metres, nearModels, noneMatchWords, type ModelTagged, type ModelWanted } from "./near-models";

/** The hitter of the need: four feet nine, left-handed, softball. */
const WANTED: ModelWanted = {
  side: "left", view: "side", sport: "softball", heightM: 1.45, level: "11-12", isAdult: false, swingKind: "power", task: "tee", pitchHeight: "belt", pitchSide: "middle",
};
const twin = (id: string, more: Partial<ModelTagged> = {}): ModelTagged => ({ ...(WANTED as ModelTagged), id, ...more });
const idsOf = (wanted: ModelWanted, models: readonly ModelTagged[]) => nearModels(wanted, models).map(({ model }) => model.id);

const random = seededRandom("models");
const pick = <T>(list: readonly T[]) => list[Math.floor(random.uniform() * list.length)] as T;
const some = (id: string): ModelTagged => ({
  id, side: pick(["right", "left"]), view: pick(["side", "side", "rear"]), sport: pick(["baseball", "softball"]), heightM: pick([null, 1.3, 1.42, 1.5, 1.6, 1.75, 1.9]), level: pick(LEVELS),
  isAdult: pick([true, false]), swingKind: pick(["power", "power", "running-slap"]), task: pick(["tee", "toss", "live"]), pitchHeight: pick(["belt", "high", "unknown"]), pitchSide: pick(["middle", "away", "unknown"]),
});
const wanted = (): ModelWanted => ({ ...some("w"), task: pick(["tee", "toss", null]), pitchHeight: pick(["belt", "unknown", null]) });
const ROUNDS = Array.from({ length: 60 }, (_, round) => ({ hitter: wanted(), models: Array.from({ length: 12 }, (_, i) => some(`${round} ${i}`)) }));

describe("the nearest model", () => {
  test("for a left-handed softball hitter of four feet nine stands first where one matches, and what differs is said of the others", () => {
    const models = [
      twin("grown, mirrored", { side: "right", sport: "baseball", heightM: 1.83, level: "adult", isAdult: true }),
      twin("grown", { heightM: 1.7, level: "adult", isAdult: true }),
      twin("other sport", { sport: "baseball" }),
      twin("near", { heightM: 1.5, level: "13-14" }),
      twin("mirrored twin", { side: "right" }),
      twin("behind", { view: "rear" }),
    ];
    const found = nearModels(WANTED, models);
    expect(found.map(({ model }) => model.id)).toEqual(["near", "grown", "other sport", "mirrored twin", "grown, mirrored"]);
    expect(found.map(({ isMatch }) => isMatch)).toEqual([true, false, false, false, false]);
    expect(noneMatchWords(WANTED, found)).toBeNull();
    expect(found[0]?.reasons.map(({ isNear, words }) => `${isNear ? "+" : "−"} ${words}`)).toEqual([
      "+ Bats left too", "+ Softball too", "+ About as tall: 1.50 m (4′11″)", "− Level 13 to 14, not 11 to 12", "+ Off a tee too", "+ At a belt-high ball too", "+ At a ball down the middle too",
    ]);
    expect(found[4]?.reasons.filter(({ isNear }) => !isNear).map(({ words }) => words)).toEqual([
      "Bats right, shown mirrored", "Baseball, not softball", "Much taller: 1.83 m (6′0″) against 1.45 m (4′9″)", "Level grown, not 11 to 12",
    ]);
    const without = nearModels(WANTED, models.filter(({ id }) => id !== "near"));
    expect(noneMatchWords(WANTED, without)).toBe(
      "No model matches: none is a left-handed softball hitter about 1.45 m (4′9″) tall of level 11 to 12 or next to it. The nearest stand here first, each with what is otherwise.",
    );
  });

  test("does not depend on the order in which models were kept", () => {
    for (const { hitter, models } of ROUNDS) expect(idsOf(hitter, [...models].reverse())).toEqual(idsOf(hitter, models));
  });

  test("is the one that is like the hitter in everything, which matches and has nothing that is otherwise", () => {
    for (const { hitter, models } of ROUNDS) {
      const whole = { ...hitter, heightM: hitter.heightM ?? 1.5, task: hitter.task ?? "tee", pitchHeight: hitter.pitchHeight ?? "belt", pitchSide: hitter.pitchSide ?? "away", swingKind: hitter.swingKind ?? "power" };
      const [first] = nearModels(whole, [...models, { ...whole, id: "" }]);
      expect([first?.model.id, first?.isMatch, first?.reasons.filter(({ isNear }) => !isNear)]).toEqual(["", true, []]);
    }
  });

  test("of the hitter's side stands before every mirrored one, and only mirrored ones say so", () => {
    for (const { hitter, models } of ROUNDS) {
      const found = nearModels(hitter, models);
      const mirrored = found.map((it) => it.isShownMirrored);
      expect(mirrored).toEqual([...mirrored].sort());
      for (const it of found) expect(it.reasons.some(({ words }) => words.endsWith("shown mirrored"))).toBe(it.model.side !== hitter.side);
    }
  });

  test("comes no later when one fact of it comes nearer", () => {
    for (const { hitter, models } of ROUNDS) {
      for (const fact of ["side", "sport", "heightM", "level", "task", "pitchHeight", "pitchSide"] as const) {
        const [moved, ...others] = models;
        if (!moved || hitter[fact] === null) continue;
        const before = idsOf(hitter, models).indexOf(moved.id);
        const nearer = { ...moved, [fact]: hitter[fact] } as ModelTagged;
        expect(idsOf(hitter, [nearer, ...others]).indexOf(moved.id)).toBeLessThanOrEqual(before);
      }
    }
  });

  test("is the same in a mirror: who bats left is served as who bats right", () => {
    const mirror = <T extends { side: "right" | "left" }>(it: T): T => ({ ...it, side: it.side === "left" ? "right" : "left" });
    for (const { hitter, models } of ROUNDS) {
      const [plain, turned] = [nearModels(hitter, models), nearModels(mirror(hitter), models.map(mirror))];
      expect(turned.map(({ model, isMatch, isShownMirrored }) => [model.id, isMatch, isShownMirrored])).toEqual(plain.map(({ model, isMatch, isShownMirrored }) => [model.id, isMatch, isShownMirrored]));
    }
  });

  test("is of the view asked for, and a running slap stands beside running slaps only", () => {
    for (const { hitter, models } of ROUNDS) {
      for (const { model } of nearModels(hitter, models)) {
        expect(model.view).toBe(hitter.view);
        expect(model.swingKind === "running-slap").toBe(hitter.swingKind === "running-slap");
      }
    }
    const slap = { ...WANTED, swingKind: "running-slap" };
    expect(noneMatchWords(slap, nearModels(slap, [twin("full swing")]))).toBe("No model can stand beside this swing: none is kept that was filmed from the side and is a running slap.");
  });

  test("is said to match exactly when it is not said that none does", () => {
    for (const { hitter, models } of ROUNDS) {
      const found = nearModels(hitter, models);
      expect(noneMatchWords(hitter, found) === null).toBe(found.some(({ isMatch }) => isMatch));
    }
  });

  test("can match where a height is not noted, and says so; a clearly other height or level never matches", () => {
    const of = (more: Partial<ModelTagged>) => nearModels(WANTED, [twin("it", more)])[0];
    expect([of({ heightM: null })?.isMatch, of({ heightM: null })?.reasons[2]?.words]).toEqual([true, "The model's height is not noted"]);
    expect([of({ heightM: 1.66 })?.isMatch, of({ heightM: 1.28 })?.isMatch, of({ level: "15-18" })?.isMatch]).toEqual([false, false, false]);
  });
});

test("a hitter who is still growing is told what a grown model is not, and nobody else is", () => {
  const words = besideChildWords({ isAdult: false }, { isAdult: true });
  expect(words).toContain("levers and timing differ");
  expect(words).toContain("not a mark to reach");
  expect([besideChildWords({ isAdult: true }, { isAdult: true }), besideChildWords({ isAdult: false }, { isAdult: false }), besideChildWords({ isAdult: true }, { isAdult: false })]).toEqual([null, null, null]);
});

test("a height is told in metres and in feet and inches", () => {
  expect([metres(1.4478), metres(1.8288), metres(1.52)]).toEqual(["1.45 m (4′9″)", "1.83 m (6′0″)", "1.52 m (5′0″)"]);
});
