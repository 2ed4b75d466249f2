import fc from "fast-check";
import { expect, test } from "vitest";
import { byteRangeOf } from "./byte-range";

test.each([
  [null, null],
  ["bytes=0-", { start: 0, end: 99 }],
  ["bytes=10-19", { start: 10, end: 19 }],
  ["bytes=90-500", { start: 90, end: 99 }],
  ["bytes=-20", { start: 80, end: 99 }],
  ["bytes=-500", { start: 0, end: 99 }],
  ["bytes=-0", "none"],
  ["bytes=100-", "none"],
  ["bytes=9-3", null],
  ["bytes=0-1,5-6", null],
  ["bytes=-", null],
  ["lines=0-5", null],
])("of 100 bytes %s asks for %o", (header, range) => {
  expect(byteRangeOf(header, 100)).toEqual(range);
});

test("a range never leaves the bytes that are there", () => {
  fc.assert(
    fc.property(fc.nat(), fc.nat(), fc.integer({ min: 0, max: 1000 }), (from, to, length) => {
      const range = byteRangeOf(`bytes=${from}-${to}`, length);
      if (range === null || range === "none") return;
      expect(range.start).toBeLessThanOrEqual(range.end);
      expect(range.end).toBeLessThan(length);
    }),
  );
});
