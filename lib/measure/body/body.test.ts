import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { bodyAllowance } from "@/lib/measure/body/body-allowance";
import { centreOfMass, type BodyPlaces, type PlanePlace } from "@/lib/measure/body/centre-of-mass";
import { scaleAgreement } from "@/lib/measure/body/scale-agreement";
import { DE_LEVA_FEMALE, DE_LEVA_MALE, massSum, WINTER, type BodyPlace } from "@/lib/measure/body/segment-table";
import { lengthAtStatureM } from "@/lib/measure/body/stature-fractions";
import { scaleFromStature, scaleFromThing, type PictureScale } from "@/lib/measure/body/stature-scale";
import { isUnknown, type Answer } from "@/lib/measure/several/unknown";

function known<T extends object>(answer: Answer<T>): T {
  if (isUnknown(answer)) throw new Error(answer.unknown);
  return answer;
}
const BODY: Readonly<Record<string, readonly [number, number]>> = {
  ear_f: [5, 165], ear_b: [5, 165], sh_f: [20, 140], sh_b: [-15, 142], el_f: [30, 120], el_b: [-30, 118], wr_f: [5, 125], wr_b: [0, 122], hip_f: [12, 92], hip_b: [-8, 92],
  kn_f: [40, 50], kn_b: [-20, 50], an_f: [55, 8], an_b: [-35, 8], heel_f: [52, 2], heel_b: [-40, 2], toe_f: [68, 1], toe_b: [-18, 1],
};
function placesOf(move: (h: number, v: number) => readonly [number, number] = (h, v) => [h, v], sd = 0): Partial<Record<BodyPlace, PlanePlace>> {
  return Object.fromEntries(Object.entries(BODY).map(([name, [h, v]]) => {
    const [x, y] = move(h, v);
    return [name, { h: x, v: y, sd }];
  }));
}

describe("centre of mass", () => {
  it.each([WINTER, DE_LEVA_MALE, DE_LEVA_FEMALE])("by $id: shares add up to one, and it moves, turns, grows and mirrors with the body", (table) => {
    expect(massSum(table.segments)).toBeCloseTo(1, 12);
    const own = known(centreOfMass(placesOf(), table, 12));
    const number = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(fc.property(number, number, number, number, (turn, scale, h, v) => {
      const move = (x: number, y: number) => [scale * (x * Math.cos(turn) - y * Math.sin(turn)) + h, -scale * (x * Math.sin(turn) + y * Math.cos(turn)) + v] as const;
      const moved = known(centreOfMass(placesOf(move), table, 12));
      const [x, y] = move(own.h, own.v);
      expect(moved.h).toBeCloseTo(x, 9);
      expect(moved.v).toBeCloseTo(y, 9);
    }));
  });
  it("front and back exchanged change nothing", () => {
    const swapped = Object.fromEntries(Object.entries(placesOf()).map(([name, place]) => [name.replace(/_[fb]$/, (side) => (side === "_f" ? "_b" : "_f")), place])) as BodyPlaces;
    expect(known(centreOfMass(swapped, WINTER, 12)).h).toBeCloseTo(known(centreOfMass(placesOf(), WINTER, 12)).h, 12);
  });
  it("hands without a knuckle are taken at the wrists, a head without crown and chin at the ears, and both are said", () => {
    expect(known(centreOfMass(placesOf(), WINTER, 12)).assumed).toEqual(["the hands are taken at the wrists"]);
    expect(known(centreOfMass(placesOf(), DE_LEVA_MALE, 12)).assumed).toEqual(["the head is taken at the ears", "the hands are taken at the wrists"]);
  });
  it("a missing point, or one that is no number, is unknown and named", () => {
    const { kn_f: _, ...rest } = placesOf();
    expect(centreOfMass(rest, WINTER, 12)).toEqual({ unknown: "points are not placed: kn_f" });
    expect(centreOfMass({ ...placesOf(), an_b: { h: NaN, v: 1 } }, WINTER, 12)).toEqual({ unknown: "points are not placed: an_b" });
    expect(isUnknown(centreOfMass({}, WINTER, 12))).toBe(true);
  });
  it("its SD from the points is what drawing the points gives", () => {
    const random = seededRandom("points");
    // All places at one spot: then the body's own allowance adds nothing.
    const spot = placesOf(() => [0, 0], 2);
    const values = Array.from({ length: 4000 }, () => known(centreOfMass(placesOf(() => [2 * random.normal(), 0]), WINTER, 30)).h);
    const sd = Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
    expect(Math.abs(known(centreOfMass(spot, WINTER, 30)).sdH / sd - 1)).toBeLessThan(0.04);
  });
  it("a growing body has twice the allowance of a grown one, and more noise has more SD", () => {
    const [child, adult] = [known(centreOfMass(placesOf(), WINTER, 10)), known(centreOfMass(placesOf(), WINTER, 30))];
    expect(child.sdV / adult.sdV).toBeCloseTo(2, 12);
    expect(known(centreOfMass(placesOf(undefined, 3), WINTER, 30)).sdV).toBeGreaterThan(adult.sdV);
  });
});

describe("scale from a height", () => {
  it("a child's doubt is at least five percent as an SD, an unknown age is taken as a child's", () => {
    expect(bodyAllowance(12)).toEqual({ limit: 0.1, sd: 0.05 });
    expect(bodyAllowance(null)).toEqual(bodyAllowance(12));
    const { pixelsPerM, sd } = known(scaleFromStature("thigh (hip-knee)", 83, 1.5, 1.4, 10));
    expect(sd / pixelsPerM).toBeGreaterThan(0.05);
    expect(() => bodyAllowance(-1)).toThrow(RangeError);
  });
  it("no height, no length, no number: unknown with its reason", () => {
    expect(scaleFromStature("forearm", 40, 1, null, 10)).toEqual({ unknown: "no height is entered" });
    for (const px of [0, NaN, -3, Infinity]) expect(scaleFromStature("forearm", px, 1, 1.4, 10)).toEqual({ unknown: "the length is not seen" });
    expect(() => lengthAtStatureM("hand", 0)).toThrow(RangeError);
    expect(() => scaleFromThing("the bat", 100, 1, 0)).toThrow(RangeError);
  });
  it("two lengths that disagree beyond the allowance warn and give no scale; within it they give one that is surer than either", () => {
    const scale = (pixelsPerM: number, limit = 0.1): PictureScale => ({ pixelsPerM, sd: 10, limit, from: "the thigh" });
    expect(scaleAgreement(scale(200), scale(215)).warning).toBeNull();
    expect(scaleAgreement(scale(200), scale(215)).scale?.sd).toBeLessThan(10);
    expect(scaleAgreement(scale(200), scale(225))).toMatchObject({ scale: null, warning: expect.stringContaining("13 % apart") as string });
    expect(scaleAgreement(scale(200, 0.05), scale(215, 0.05)).scale).toBeNull();
    fc.assert(fc.property(fc.double({ min: 100, max: 400, noNaN: true }), fc.double({ min: 100, max: 400, noNaN: true }), (a, b) => {
      expect(scaleAgreement(scale(a), scale(b)).scale === null).toBe(scaleAgreement(scale(b), scale(a)).scale === null);
    }));
  });
});
