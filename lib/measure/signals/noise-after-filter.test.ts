import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { butterworthCoefficients, filterTwoPass } from "@/lib/measure/signals/butterworth";
import { centralDifference } from "@/lib/measure/signals/central-difference";
import { filteredPointSd, filteredSpeedSd } from "@/lib/measure/signals/noise-after-filter";

const STEPS = 4000;

/** SD of filtered white noise of SD 1 and of its speed, from the filter's transfer function alone. */
function exact(cutoffHz: number, rateHz: number): { readonly point: number; readonly speed: number } {
  const { a0, a1, a2, b1, b2 } = butterworthCoefficients(cutoffHz, rateHz);
  const square = (turn: number, c0: number, c1: number, c2: number) =>
    (c0 + c1 * Math.cos(turn) + c2 * Math.cos(2 * turn)) ** 2 + (c1 * Math.sin(turn) + c2 * Math.sin(2 * turn)) ** 2;
  let [point, speed] = [0, 0];
  for (let i = 0; i < STEPS; i++) {
    const turn = (Math.PI * (i + 0.5)) / STEPS;
    const passed = (square(turn, a0, a1, a2) / square(turn, 1, -b1, -b2)) ** 2;
    point += passed / STEPS;
    speed += (passed * (Math.sin(turn) * rateHz) ** 2) / STEPS;
  }
  return { point: Math.sqrt(point), speed: Math.sqrt(speed) };
}

/** The same by drawing noise, away from the ends. */
function simulated(cutoffHz: number, rateHz: number): { readonly point: number; readonly speed: number } {
  const random = seededRandom(`noise ${cutoffHz} ${rateHz}`);
  const filtered = filterTwoPass(Float64Array.from({ length: 60_000 }, () => random.normal()), cutoffHz, rateHz)!;
  const speeds = centralDifference(filtered, Float64Array.from(filtered, (_, i) => i / rateHz));
  const sd = (values: Float64Array) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
  return { point: sd(filtered.subarray(100, -100)), speed: sd(speeds.subarray(100, -100)) };
}

const CASES = [10, 20].flatMap((hz) => [60, 120, 240].map((rate) => [hz, rate] as const));

describe("noise after the filter", () => {
  it.each(CASES)("at %i Hz and %i frames a second draws of noise agree with the filter's own transfer function", (hz, rate) => {
    const [drawn, whole] = [simulated(hz, rate), exact(hz, rate)];
    expect(Math.abs(drawn.point / whole.point - 1)).toBeLessThan(0.025);
    expect(Math.abs(drawn.speed / whole.speed - 1)).toBeLessThan(0.025);
  });
  it.each(CASES)("at %i Hz and %i frames a second a filtered point has the stated SD, within two in a hundred", (hz, rate) => {
    expect(Math.abs(exact(hz, rate).point / filteredPointSd(1, hz, rate) - 1)).toBeLessThan(0.02);
  });
  it.each(CASES.filter(([hz, rate]) => rate / hz > 3))("at %i Hz and %i frames a second a filtered speed has 0.95 to 1.24 times the stated SD, as the library says", (hz, rate) => {
    const ratio = exact(hz, rate).speed / filteredSpeedSd(1, hz, rate);
    expect(ratio).toBeGreaterThan(0.949);
    expect(ratio).toBeLessThan(1.24);
  });
  it("at 20 Hz and 60 frames a second it has 0.62 times the stated SD: there central differences see little of what is left", () => {
    expect(exact(20, 60).speed / filteredSpeedSd(1, 20, 60)).toBeCloseTo(0.624, 3);
  });
  it("grows with the point's SD", () => {
    expect(filteredPointSd(3, 10, 240)).toBeCloseTo(3 * filteredPointSd(1, 10, 240), 12);
    expect(filteredSpeedSd(3, 10, 240)).toBeCloseTo(3 * filteredSpeedSd(1, 10, 240), 12);
  });
  it("refuses a negative SD and a cut-off that the rate cannot carry", () => {
    expect(() => filteredPointSd(-1, 10, 240)).toThrow(RangeError);
    expect(() => filteredSpeedSd(1, 30, 60)).toThrow(RangeError);
  });
});
