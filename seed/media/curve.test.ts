import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { monotoneCurve, type Key } from "./curve";

const keyLists = fc
  .array(fc.tuple(fc.double({ min: 0.01, max: 1, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true })), { minLength: 2, maxLength: 9 })
  .map((steps) => {
    let time = -1;
    return steps.map(([gap, value]): Key => [(time += gap), value]);
  });

describe("a monotone curve", () => {
  test("passes through every key and never leaves the range of the two keys beside it", () => {
    fc.assert(
      fc.property(keyLists, fc.double({ min: 0, max: 1, noNaN: true }), (keys, share) => {
        const curve = monotoneCurve(keys);
        keys.forEach(([time, value], i) => {
          expect(curve(time)).toBeCloseTo(value, 6);
          const next = keys[i + 1];
          if (next === undefined) return;
          const between = curve(time + share * (next[0] - time));
          expect(between).toBeGreaterThanOrEqual(Math.min(value, next[1]) - 1e-9);
          expect(between).toBeLessThanOrEqual(Math.max(value, next[1]) + 1e-9);
        });
      }),
    );
  });

  test("refuses keys whose times do not increase", () => {
    expect(() => monotoneCurve([[0, 1], [0, 2]])).toThrow(RangeError);
    expect(() => monotoneCurve([[0, 1]])).toThrow(RangeError);
  });
});
