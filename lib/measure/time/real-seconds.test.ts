import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FrameTimes } from "@/lib/core/frame-times";
import { realSecondsFrom, realSecondsPerFileSecond } from "./real-seconds";

const steps = fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 1, maxLength: 60 });
const rising = (first: number, by: readonly number[]) => by.reduce<number[]>((ticks, step) => [...ticks, (ticks.at(-1) ?? 0) + step], [first]);
const times = (ticks: readonly number[], timeBaseNum = 1, timeBaseDen = 90_000): FrameTimes => ({ ticks, timeBaseNum, timeBaseDen });

describe("real seconds of frames", () => {
  it("240 frames a second kept to play at 30 pass in an eighth of the file's time", () => {
    const scale = realSecondsPerFileSecond(240, 30);
    expect(scale).toBe(1 / 8);
    const slow = times([0, 3000, 6000, 9000]);
    expect(realSecondsFrom(slow, scale, 3000).seconds?.map((it) => it * 240)).toEqual([-1, 0, 1, 2]);
  });
  it("uneven frames keep their own times", () => {
    expect(realSecondsFrom(times([0, 3000, 9000, 10_500]), 1, 0).seconds).toEqual([0, 1 / 30, 0.1, 10_500 / 90_000]);
  });
  it("ten hours into a file the times are as exact as at its start", () => {
    fc.assert(
      fc.property(steps, (by) => {
        const far = 36_000 * 90_000;
        const near = realSecondsFrom(times(rising(0, by)), 1, 0).seconds;
        expect(realSecondsFrom(times(rising(far, by)), 1, far).seconds).toEqual(near);
      }),
    );
  });
  it("a finer time base says the same times, and a scale stretches them alike", () => {
    fc.assert(
      fc.property(steps, fc.integer({ min: 2, max: 9 }), fc.double({ min: 0.05, max: 4, noNaN: true }), (by, finer, scale) => {
        const plain = realSecondsFrom(times(rising(7, by)), 1, 7).seconds ?? [];
        const fine = realSecondsFrom(times(rising(7, by).map((tick) => tick * finer), 1, 90_000 * finer), scale, 7 * finer).seconds ?? [];
        expect(fine.length).toBe(plain.length);
        fine.forEach((it, i) => expect(it).toBeCloseTo((plain[i] ?? NaN) * scale, 9));
      }),
    );
  });
  it("frames that are missing, equal or out of order have no times, and the reason is said", () => {
    for (const bad of [[], [5, 5], [5, 4], [0.5, 1], [0, NaN]]) {
      const { seconds, reason } = realSecondsFrom(times(bad), 1, 0);
      expect(seconds).toBeNull();
      expect(reason).toMatch(/\w/);
    }
    expect(realSecondsFrom(times([0, 1]), 1, NaN).seconds).toBeNull();
    expect(realSecondsFrom(times([0, 1], 1, 0), 1, 0).seconds).toBeNull();
  });
  it("one frame has one time, and ten thousand have ten thousand", () => {
    expect(realSecondsFrom(times([42]), 1, 42).seconds).toEqual([0]);
    expect(realSecondsFrom(times(Array.from({ length: 10_000 }, (_, i) => i * 375)), 1, 0).seconds?.at(-1)).toBeCloseTo(9999 / 240, 9);
  });
  it("rates and scales that are not above 0 are refused", () => {
    expect(() => realSecondsPerFileSecond(0, 30)).toThrow(RangeError);
    expect(() => realSecondsPerFileSecond(240, NaN)).toThrow(RangeError);
    expect(() => realSecondsFrom(times([0, 1]), 0, 0)).toThrow(RangeError);
  });
});
