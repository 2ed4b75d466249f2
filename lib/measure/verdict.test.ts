import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Band } from "@/lib/measure/checkpoint-definition";
import type { Estimate } from "@/lib/measure/estimate-parts";
import { normalBelow } from "@/lib/measure/normal";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { bandInForce, chancesOf, deviationOf, sizeOf, valueWord, verdictOf } from "@/lib/measure/verdict";

const band: Band = { ok: [10, 20], act: [5, 25] };
const normal = (value: number, sd: number): Estimate => ({ value, sd, doubt: { points: sd, scale: 0, time: 0 }, quantiles: null, draws: null, isCensored: false });
const verdict = (value: number, sd: number, own: Band = band) => verdictOf(chancesOf(normal(value, sd), 0, own, undefined, "test"), sd, own, STARTER_RULES.verdict);

describe("verdicts", () => {
  it.each<[number, number, string]>([[15, 1, "fine"], [3, 1, "talk-about"], [28, 1, "talk-about"], [7, 1, "watch"], [8, 6, "cannot-tell"], [15, 5.5, "fine"], [15, 9, "cannot-tell"]])("%d ± %d is %s", (value, sd, expected) => {
    expect(verdict(value, sd)).toBe(expected);
  });
  it("there is no talk-about on a side without an act limit, however far out", () => {
    fc.assert(fc.property(fc.double({ min: 21, max: 1e6, noNaN: true }), (value) => verdict(value, 0.5, { ok: [10, 20], act: [5, null] }) !== "talk-about"));
  });
  it("chances lie in 0 to 1 and do not exceed 1 together", () => {
    fc.assert(fc.property(fc.double({ min: -100, max: 100, noNaN: true }), fc.double({ min: 0, max: 50, noNaN: true }), (value, sd) => {
      const { fine, low, high } = chancesOf(normal(value, sd), 0, band, undefined, "test");
      for (const chance of [fine, low, high]) expect(chance >= 0 && chance <= 1).toBe(true);
      expect(fine + low + high).toBeLessThanOrEqual(1 + 1e-12);
    }));
  });
  it("the camera's part widens the chances", () => {
    expect(chancesOf(normal(15, 1), 5, band, undefined, "test").fine).toBeLessThan(chancesOf(normal(15, 1), 0, band, undefined, "test").fine);
  });
  it("a camera's part folds back at straight: a straight line stays inside a band that ends there", () => {
    const straight: Estimate = { ...normal(180, 1), draws: Array.from({ length: 300 }, (_, i) => 180 - (i % 3)) };
    expect(chancesOf(straight, 2, { ok: [160, 180], act: [150, null] }, [0, 180], "test").fine).toBe(1);
  });
  it("draws are counted, not taken as normal", () => {
    const skewed: Estimate = { ...normal(12, 30), draws: [...Array<number>(80).fill(12), ...Array<number>(20).fill(100)] };
    expect(chancesOf(skewed, 0, band, undefined, "test")).toEqual({ fine: 0.8, low: 0, high: 0.2 });
  });
});

describe("sizes", () => {
  const size = (distance: number, sd: number) => sizeOf(distance, sd, 10, STARTER_RULES.size);
  it.each<[number, number, string | null]>([[0, 1, null], [0.9, 1, null], [1, 1, "small"], [2.4, 1, "small"], [2.5, 1, "clear"], [2.5, 1.3, "small"], [7.5, 1, "large"], [7.5, 2.6, "clear"]])("%d beyond with SD %d is %s", (distance, sd, expected) => {
    expect(size(distance, sd)).toBe(expected);
  });
  it("the deviation says its side and its distance from the ok band", () => {
    expect([deviationOf(8, band), deviationOf(15, band), deviationOf(23, band)]).toEqual([{ side: "low", distance: 2 }, null, { side: "high", distance: 3 }]);
  });
});

describe("bands", () => {
  const fixed: Band = { ok: [0.378, 0.689], act: [0.244, 0.756] };
  const definition = { band: fixed, bandOfFlight: { okSeconds: [0.28, 0.14], actSeconds: [0.34, 0.11] } } as const;
  const at = (seconds: number) => ({ seconds, sdSeconds: 0, source: "placed" as const });
  const inForce = (flight: number | null) => bandInForce(definition, { ageYears: 25, events: { contact: at(0), ...(flight === null ? {} : { release: at(-flight) }) } }, STARTER_RULES);
  it("limits of the flight are 1 - seconds / flight, with this swing's own flight; the library's own numbers are those of 0.45 s", () => {
    const limits = [...(inForce(0.45)?.ok ?? []), ...(inForce(0.45)?.act ?? [])].map((limit) => Number(limit?.toFixed(3)));
    expect(limits).toEqual([...fixed.ok, ...fixed.act]);
    expect(inForce(0.6)?.ok[1]).toBeCloseTo(1 - 0.14 / 0.6, 12);
  });
  it("without a flight there is no band of it, and the fixed numbers do not stand in", () => expect([inForce(null), inForce(0), inForce(-1)]).toEqual([null, null, null]));
});

describe("words instead of numbers", () => {
  it("a foot under 25 degrees is closed, one of 25 is a number", () => {
    expect([24.9, 25, 60].map((value) => valueWord([{ below: 25, say: "closed" }], value, band))).toEqual(["closed", null, null]);
  });
  it("limits may be the band's own", () => {
    const words = [{ below: "ok low", say: "small" }, { inside: "ok", say: "clear" }, { above: "ok high", say: "large" }];
    expect([9, 10, 20, 21].map((value) => valueWord(words, value, band))).toEqual(["small", "clear", "clear", "large"]);
    expect(valueWord(words, 9, null)).toBeNull();
  });
});

it("the normal distribution function has its tabled values", () => {
  for (const [z, p] of [[0, 0.5], [1, 0.8413447460685429], [1.959963984540054, 0.975], [-3, 0.0013498980316300933], [-6, 9.865876450376946e-10]] as const) {
    expect(Math.abs(normalBelow(z) / p - 1)).toBeLessThan(1e-12);
  }
  expect([normalBelow(-40), normalBelow(40), normalBelow(NaN)]).toEqual([0, 1, NaN]);
});
