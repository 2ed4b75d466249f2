import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { centralDifference, centralDifferenceGain, secondDifference } from "@/lib/measure/signals/central-difference";
import { savitzkyGolay } from "@/lib/measure/signals/savitzky-golay";

const seconds = Array.from({ length: 240 }, (_, i) => i / 240);

describe("central differences", () => {
  it("read too little of a fast wave, by exactly their known bias", () => {
    for (const hz of [0.5, 5, 20, 60, 119]) {
      const speeds = centralDifference(seconds.map((t) => Math.sin(2 * Math.PI * hz * t)), seconds);
      const bias = centralDifferenceGain(hz, 1 / 240);
      for (let i = 1; i < 239; i++) expect(Math.abs(speeds[i]! - bias * 2 * Math.PI * hz * Math.cos(2 * Math.PI * hz * seconds[i]!))).toBeLessThan(1e-8 * 240);
    }
  });
  it("have the bias 1 for what stands still and 0.83 for 10 Hz at 60 frames a second", () => {
    expect(centralDifferenceGain(0, 1 / 60)).toBe(1);
    expect(centralDifferenceGain(10, 1 / 60)).toBeCloseTo(0.827, 3);
  });
  it("are exact inside for any parabola over any times", () => {
    const steps = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 3, maxLength: 20 });
    fc.assert(fc.property(steps, fc.double({ min: -9, max: 9, noNaN: true }), (list, bend) => {
      let now = 0;
      const times = list.map((step) => (now += step));
      const values = times.map((t) => 3 + 2 * t + bend * t * t);
      const slopes = centralDifference(values, times, 2);
      const bends = secondDifference(values, times);
      times.forEach((t, i) => expect(Math.abs(slopes[i]! - 2 - 2 * bend * t)).toBeLessThan(1e-6));
      for (let i = 1; i < times.length - 1; i++) expect(Math.abs(bends[i]! - 2 * bend)).toBeLessThan(1e-5);
    }));
  });
  it("of too few samples are unknown, and a hole stays a hole", () => {
    expect([...centralDifference([4], [0])]).toEqual([NaN]);
    expect([...centralDifference([], [])]).toEqual([]);
    expect([...centralDifference([1, NaN, 3, 4, 5], [0, 1, 2, 3, 4])]).toEqual([NaN, NaN, NaN, 1, 1]);
    expect([...secondDifference([1, 2], [0, 1])]).toEqual([NaN, NaN]);
  });
  it("refuse what does not fit together", () => {
    expect(() => centralDifference([1, 2], [0])).toThrow(RangeError);
    expect(() => secondDifference([1, 2], [0])).toThrow(RangeError);
    expect(() => centralDifferenceGain(-1, 0.1)).toThrow(RangeError);
    expect(() => centralDifferenceGain(1, 0)).toThrow(RangeError);
  });
});

describe("Savitzky and Golay's filter", () => {
  it("leaves a polynomial of its degree as it is and gives its derivatives, ends included", () => {
    const cubic = Float64Array.from(seconds.slice(0, 40), (t) => 1 + 30 * t - 200 * t ** 2 + 900 * t ** 3);
    const of = (derivative: 0 | 1 | 2) => savitzkyGolay(cubic, { windowSamples: 9, degree: 3, derivative, intervalSeconds: 1 / 240 })!;
    const [value, slope, bend] = [of(0), of(1), of(2)];
    seconds.slice(0, 40).forEach((t, i) => {
      expect(Math.abs(value[i]! - cubic[i]!)).toBeLessThan(1e-10);
      expect(Math.abs(slope[i]! - (30 - 400 * t + 2700 * t * t))).toBeLessThan(1e-7);
      expect(Math.abs(bend[i]! - (5400 * t - 400))).toBeLessThan(1e-4);
    });
  });
  it("has no answer for a row shorter than its window", () => {
    expect(savitzkyGolay(new Float64Array(4), { windowSamples: 5, degree: 2 })).toBeNull();
  });
  it.each([[4, 2], [1, 0], [5, 5], [5, -1], [5, 1.5]])("refuses a window of %f with degree %f", (windowSamples, degree) => {
    expect(() => savitzkyGolay(new Float64Array(9), { windowSamples, degree })).toThrow(RangeError);
  });
  it("refuses a derivative without an interval", () => {
    expect(() => savitzkyGolay(new Float64Array(9), { windowSamples: 5, degree: 2, derivative: 1 })).toThrow(RangeError);
  });
});
