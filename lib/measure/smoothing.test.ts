import SavitzkyGolay from "ml-savitzky-golay";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { addSmoothedNoise, parabolaWeights, smoothingsOf } from "@/lib/measure/smoothing";

const RATE = 240;
const seconds = Float64Array.from({ length: 121 }, (_, i) => i / RATE - 0.25);
const sd = new Float64Array(121).fill(1);
const smooth = (values: Float64Array, which: "least" | "wide" = "least") => {
  const output = new Float64Array(values.length);
  smoothingsOf([values], seconds, sd, 0, 1 / RATE)[which](values, output);
  return output;
};

describe("smoothing by parabolas of least squares", () => {
  it("is Savitzky and Golay's with even times (second opinion: ml-savitzky-golay)", () => {
    const random = seededRandom(4);
    const values = Float64Array.from(seconds, (t) => Math.sin(9 * t) + random.normal());
    const theirs = SavitzkyGolay(Array.from(values), 1 / RATE, { windowSize: 9, polynomial: 2, derivative: 0, pad: "none" }) as unknown as number[];
    const ours = smooth(values);
    theirs.forEach((value, i) => expect(ours[i + 4]).toBeCloseTo(value, 7));
  });
  it("leaves a parabola as it is, up to its ends and across holes", () => {
    const values = Float64Array.from(seconds, (t, i) => (i % 11 === 5 ? NaN : 3 - 2 * t + 40 * t * t));
    for (const which of ["least", "wide"] as const) smooth(values, which).forEach((value, i) => (Number.isNaN(values[i]!) ? expect(value).toBeNaN() : expect(value).toBeCloseTo(values[i]!, 8)));
  });
  it("leaves less noise on a flat curve the farther it looks, and follows a bend where it must", () => {
    const random = seededRandom(5);
    const noise = seconds.map(() => random.normal());
    const rms = (values: Float64Array) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
    expect(rms(smooth(noise))).toBeLessThan(0.65);
    expect(rms(smooth(noise, "wide"))).toBeLessThan(0.6 * rms(smooth(noise)));
    const bend = seconds.map((t) => 60 * Math.exp(-((t / 0.03) ** 2)));
    expect(Math.max(...smooth(bend, "wide"))).toBeGreaterThan(57);
  });
  it("draws noise through the same smoothing", () => {
    const random = seededRandom(6);
    const base = seconds.map((t) => 5 * t);
    const { least, leastParts } = smoothingsOf([base], seconds, sd, 0, 1 / RATE);
    const offsets = seconds.map(() => random.normal());
    const [noisy, smoothed] = [new Float64Array(121), new Float64Array(121)];
    addSmoothedNoise(leastParts, offsets, 0, sd.map(() => 2), 0, base, noisy, 0, 121);
    least(offsets.map((value) => 2 * value), smoothed);
    noisy.forEach((value, i) => expect(value).toBeCloseTo((base[i] ?? NaN) + (smoothed[i] ?? NaN), 9));
  });
  it("refuses weights of fewer than five samples", () => {
    expect(() => parabolaWeights(4, 2)).toThrow(RangeError);
    expect(() => parabolaWeights(5, 5)).toThrow(RangeError);
  });
});
