import { describe, expect, it } from "vitest";
import { centreOfMass, type BodyPlaces, type PlanePlace } from "@/lib/measure/body/centre-of-mass";
import { massSum, PUBLISHED_SEGMENTS, WINTER, type BodyPlace } from "@/lib/measure/body/segment-table";
import { lengthAtStatureM, STATURE_FRACTIONS, type StatureLength } from "@/lib/measure/body/stature-fractions";
import { scaleAgreement } from "@/lib/measure/body/scale-agreement";
import { scaleFromStature, scaleFromThing } from "@/lib/measure/body/stature-scale";
import { isUnknown, type Answer } from "@/lib/measure/several/unknown";
import { cases } from "./body.json";

function known<T extends object>(answer: Answer<T>): T {
  if (isUnknown(answer)) throw new Error(answer.unknown);
  return answer;
}
const expectNear = (actual: number, expected: number, tolerance: number) => expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);

describe("T4.1 mass shares as published", () => {
  const { expected, tolerance } = cases["T4.1"];
  it.each([["winter", expected.winter], ["de-leva-male", expected.deleva_male], ["de-leva-female", expected.deleva_female]] as const)("those of %s add up to what they do", (id, sum) => {
    expectNear(massSum(PUBLISHED_SEGMENTS[id]), sum, tolerance);
  });
});

describe("T4.2 centre of mass by Winter's table", () => {
  const { inputs, expected, tolerance } = cases["T4.2"];
  const at = ([h = NaN, v = NaN]: readonly number[]): PlanePlace => ({ h, v });
  // The case names left and right; which of them is the front side does not matter.
  const places: Partial<Record<BodyPlace, PlanePlace>> = { ear_f: at(inputs.ear), ear_b: at(inputs.ear) };
  for (const [theirs, ours] of [["sh", "sh"], ["el", "el"], ["wr", "wr"], ["knu", "knuckle"], ["hip", "hip"], ["kn", "kn"], ["an", "an"], ["toe", "toe"]] as const) {
    places[`${ours}_f`] = at(inputs[`${theirs}L`]);
    places[`${ours}_b`] = at(inputs[`${theirs}R`]);
  }
  it("of the whole body", () => {
    const found = known(centreOfMass(places as BodyPlaces, WINTER, 30));
    expectNear(found.h, expected.COM[0] ?? NaN, tolerance);
    expectNear(found.v, expected.COM[1] ?? NaN, tolerance);
    expect(found.assumed).toEqual([]);
  });
  it("and of each segment", () => {
    const found = known(centreOfMass(places as BodyPlaces, WINTER, 30));
    const names: Record<string, string> = { head_neck: "head and neck", trunk: "trunk" };
    for (const [name, mass, place] of expected.segments as [string, number, [number, number]][]) {
      const id = names[name] ?? `${name.slice(0, -1).replace("_", " ")} ${name.endsWith("L") ? "f" : "b"}`;
      const own = found.segments.find((segment) => segment.id === id);
      expectNear(own?.massShare ?? NaN, mass, tolerance);
      expectNear(own?.h ?? NaN, place[0], tolerance);
      expectNear(own?.v ?? NaN, place[1], tolerance);
    }
  });
});

describe("T4.3 scale from the thigh against a thing of known length", () => {
  it("pixels per metre and their ratio", () => {
    const { inputs, expected, tolerance } = cases["T4.3"];
    const thigh = known(scaleFromStature("thigh (hip-knee)", inputs.thigh_px, 0, inputs.stature_m, 30));
    const thing = known(scaleFromThing("the bat", inputs.px_per_m_from_object * 0.8, 0, 0.8));
    expectNear(thigh.pixelsPerM, expected.px_per_m, tolerance);
    expectNear(scaleAgreement(thigh, thing).ratio, expected.ratio, tolerance);
    expect(scaleAgreement(thigh, thing).warning).toBeNull();
  });
});

describe("T4.4 lengths at a height of 1.70 m", () => {
  const { inputs, expected, tolerance } = cases["T4.4"];
  it.each(Object.entries(expected))("%s", (name, metres) => {
    expectNear(lengthAtStatureM(name as StatureLength, inputs.stature), metres, tolerance);
    expect(Object.hasOwn(STATURE_FRACTIONS, name)).toBe(true);
  });
});
