import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bendAt, splineWeights } from "@/lib/measure/between/spline-weights";

const anyKnots = fc.tuple(fc.array(fc.double({ min: 0.5, max: 3, noNaN: true }), { minLength: 1, maxLength: 3 }), fc.nat(), fc.double({ min: 0, max: 1, noNaN: true })).map(([steps, pick, share]) => {
  const times = steps.reduce<number[]>((all, step) => [...all, (all.at(-1) ?? 0) + step], [-1]);
  // A piece has at most one knot before it and one after it.
  const left = times.length === 4 ? 1 : pick % (times.length - 1);
  return { times, left, at: (times[left] ?? 0) + share * ((times[left + 1] ?? 0) - (times[left] ?? 0)) };
});
const through = (times: readonly number[], left: number, at: number, of: (time: number) => number) => splineWeights(times, left, at).reduce((sum, weight, i) => sum + weight * of(times[i] ?? NaN), 0);

describe("the curve between placed frames", () => {
  it("follows a line exactly, and a parabola too where three frames or more are placed", () => {
    fc.assert(fc.property(anyKnots, fc.double({ min: -5, max: 5, noNaN: true }), ({ times, left, at }, bend) => {
      const path = (time: number) => 3 - 2 * time + (times.length > 2 ? bend * time * time : 0);
      expect(through(times, left, at, path)).toBeCloseTo(path(at), 8);
    }));
  });
  it("goes through the placed frames, and its weights add up to 1", () => {
    fc.assert(fc.property(anyKnots, ({ times, left, at }) => {
      expect(splineWeights(times, left, at).reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 10);
      for (const end of [left, left + 1]) expect(splineWeights(times, left, times[end] ?? NaN).map((weight) => Math.round(weight * 1e9) / 1e9)).toEqual(times.map((_, i) => (i === end ? 1 : 0)));
    }));
  });
  it("half-way between even frames has the weights of the cubic through all four", () => {
    splineWeights([0, 1, 2, 3], 1, 1.5).forEach((weight, i) => expect(weight).toBeCloseTo([-1, 9, 9, -1][i]! / 16, 12));
  });
  it("has the bend of a parabola, and none between two frames alone", () => {
    const times = [0, 0.7, 1.5, 2];
    expect(bendAt(times, 1, (i) => 4 * (times[i] ?? 0) ** 2)).toBeCloseTo(8, 9);
    expect(bendAt([0, 1], 0, (i) => i)).toBe(0);
  });
});
