import fc from "fast-check";
import { expect, test } from "vitest";
import { rangesOf } from "./make-film";

test("runs hold every frame that is wanted, are few enough to be read, and take no more along than they must", () => {
  expect(rangesOf([1, 2, 3, 7, 9, 10])).toEqual([[1, 3], [7, 7], [9, 10]]);
  expect(rangesOf([])).toEqual([]);
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 1500 }), { maxLength: 600 }), (frames) => {
      const sorted = frames.sort((a, b) => a - b);
      const ranges = rangesOf(sorted);
      expect(ranges.length).toBeLessThanOrEqual(60);
      const taken = new Set(ranges.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i)));
      expect(sorted.every((it) => taken.has(it))).toBe(true);
      if (ranges.length < 59 && taken.size > sorted.length) expect(sorted.length).toBeGreaterThan(59);
    }),
  );
});
