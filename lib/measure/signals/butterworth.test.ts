import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { butterworthCoefficients, filterTwoPass, LEAST_SAMPLES, twoPassFilter } from "@/lib/measure/signals/butterworth";

const cutoff = fc.record({ rateHz: fc.double({ min: 30, max: 480, noNaN: true }), share: fc.double({ min: 0.02, max: 0.49, noNaN: true }) });
const row = fc.array(fc.double({ min: -500, max: 500, noNaN: true }), { minLength: LEAST_SAMPLES, maxLength: 60 });
const furthest = (a: ArrayLike<number>, b: ArrayLike<number>) => Math.max(...Array.from(a, (value, i) => Math.abs(value - (b[i] ?? NaN))));

describe("the two-pass filter", () => {
  it("leaves what stands still as it is, and a steady movement too, but for its ends: there a row of 10 of 240 Hz is at most a third of one step off", () => {
    fc.assert(fc.property(cutoff, fc.double({ min: -900, max: 900, noNaN: true }), fc.integer({ min: LEAST_SAMPLES, max: 80 }), ({ rateHz, share }, height, count) => {
      const level = new Float64Array(count).fill(height);
      expect(furthest(filterTwoPass(level, share * rateHz, rateHz)!, level)).toBeLessThan(1e-7);
    }));
    const line = Float64Array.from({ length: 200 }, (_, i) => 7 - 3 * i);
    const filtered = filterTwoPass(line, 10, 240)!;
    expect(furthest(filtered, line)).toBeLessThan(3 / 3);
    expect(furthest(filtered.subarray(60, 140), line.subarray(60, 140))).toBeLessThan(1e-4);
  });
  it("of a sum is the sum of the filtered, so noise passes it the same whatever the movement", () => {
    fc.assert(fc.property(cutoff, row, row, ({ rateHz, share }, a, b) => {
      const n = Math.min(a.length, b.length);
      const of = (values: readonly number[]) => filterTwoPass(Float64Array.from(values), share * rateHz, rateHz)!;
      const sum = of(a.slice(0, n).map((value, i) => value + b[i]!));
      const [one, other] = [of(a.slice(0, n)), of(b.slice(0, n))];
      expect(furthest(sum, one.map((value, i) => value + other[i]!))).toBeLessThan(1e-7);
    }));
  });
  it("delays nothing: the middle of a symmetric bump stays where it is", () => {
    const bump = Float64Array.from({ length: 101 }, (_, i) => Math.exp(-(((i - 50) / 6) ** 2)));
    const filtered = filterTwoPass(bump, 10, 240)!;
    expect(filtered.indexOf(Math.max(...filtered))).toBe(50);
    expect(furthest(filtered, filtered.slice().reverse())).toBeLessThan(1e-6);
  });
  it("passes a wave at the cut-off with a gain of 0.7071 and slow waves whole", () => {
    const amplitude = (hz: number) => {
      const wave = Float64Array.from({ length: 2400 }, (_, i) => Math.sin((2 * Math.PI * hz * i) / 240));
      return Math.max(...filterTwoPass(wave, 10, 240)!.subarray(1000, 1400));
    };
    expect(amplitude(10)).toBeCloseTo(Math.SQRT1_2, 3);
    expect(amplitude(1)).toBeCloseTo(1, 3);
    expect(amplitude(60)).toBeLessThan(0.001);
  });
  it("has no answer for fewer than twelve samples, and says NaN for a row with a hole", () => {
    expect(filterTwoPass(new Float64Array(LEAST_SAMPLES - 1), 10, 240)).toBeNull();
    const holed = new Float64Array(30);
    holed[12] = NaN;
    expect(filterTwoPass(holed, 10, 240)!.every(Number.isNaN)).toBe(true);
  });
  it("made once, filters any part in place and gives what a new one gives", () => {
    const filter = twoPassFilter(10, 240);
    const values = Float64Array.from({ length: 60 }, (_, i) => Math.sin(i) + i * i * 0.01);
    const part = filterTwoPass(values.slice(20, 50), 10, 240)!;
    filter(new Float64Array(400).fill(9), new Float64Array(400));
    const into = values.slice();
    expect(filter(into, into, 20, 50)).toBe(true);
    expect(furthest(into, [...values.slice(0, 20), ...part, ...values.slice(50)])).toBe(0);
    expect(filter(into, into, 3, 9)).toBe(false);
    expect([...into.slice(2, 10)].map(Number.isNaN)).toEqual([false, true, true, true, true, true, true, false]);
  });
  it.each([[0, 240], [-1, 240], [120, 240], [NaN, 240], [10, 0], [10, NaN], [10, Infinity]])("refuses a cut-off of %f at %f samples a second", (hz, rate) => {
    expect(() => butterworthCoefficients(hz, rate)).toThrow(RangeError);
    expect(() => twoPassFilter(hz, rate)).toThrow(RangeError);
  });
});
