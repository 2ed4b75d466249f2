import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packTicks, unpackTicks } from "./packed-ticks";

describe("packed ticks", () => {
  test("unpacking gives back exactly what was packed, in whatever order the ticks stand", () => {
    const tick = fc.oneof(fc.integer(), fc.integer({ min: -(2 ** 46), max: 2 ** 46 }));
    fc.assert(
      fc.property(fc.array(tick, { maxLength: 200 }), (ticks) => {
        expect(unpackTicks(packTicks(ticks))).toEqual(ticks);
      }),
    );
  });

  test("the bytes are signed LEB128 as DWARF prints it", () => {
    for (const [value, bytes] of [[2, [2]], [-2, [0x7e]], [127, [0xff, 0]], [-127, [0x81, 0x7f]], [128, [0x80, 1]], [-128, [0x80, 0x7f]], [129, [0x81, 1]], [-129, [0xff, 0x7e]]] as const) {
      expect([...packTicks([value])]).toEqual(bytes);
    }
  });

  test("a frame of an even clip takes at most two bytes", () => {
    const ticks = Array.from({ length: 500 }, (_, i) => i * 375);
    expect(packTicks(ticks).length).toBeLessThanOrEqual(1000);
  });

  test("what is no tick, and bytes that end within a number, are refused", () => {
    expect(() => packTicks([0.5])).toThrow(RangeError);
    expect(() => packTicks([2 ** 50])).toThrow(RangeError);
    expect(() => unpackTicks(Uint8Array.of(0x80))).toThrow(RangeError);
    expect(() => unpackTicks(Uint8Array.from([...Array<number>(9).fill(0xff), 0]))).toThrow(RangeError);
  });
});
