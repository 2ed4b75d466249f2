import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { paintFrameNumber, readFrameNumber } from "./frame-number";

const [wide, high] = [160, 120];

function marked(frameIndex: number): Uint8Array {
  const rgb = new Uint8Array(3 * wide * high).fill(120);
  paintFrameNumber(rgb, wide, high, frameIndex);
  return rgb;
}

describe("the frame number strip", () => {
  test("is read back from RGB, RGBA and grey pixels", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4095 }), (frameIndex) => {
        const rgb = marked(frameIndex);
        const pixels = rgb.length / 3;
        const grey = Uint8Array.from({ length: pixels }, (_, i) => rgb[3 * i]!);
        const rgba = Uint8Array.from({ length: 4 * pixels }, (_, i) => (i % 4 === 3 ? 255 : rgb[3 * Math.floor(i / 4) + (i % 4)]!));
        expect([readFrameNumber(rgb, wide, high), readFrameNumber(rgba, wide, high), readFrameNumber(grey, wide, high)]).toEqual([
          frameIndex, frameIndex, frameIndex,
        ]);
      }),
      { numRuns: 20 },
    );
  });

  test("is refused when one of its cells is turned over", () => {
    const cell = high / 60;
    for (let i = 0; i < 16; i++) {
      const rgb = marked(1234);
      for (let y = high - cell; y < high; y++) for (let x = i * cell; x < (i + 1) * cell; x++) for (let c = 0; c < 3; c++) rgb[3 * (y * wide + x) + c] = 251 - rgb[3 * (y * wide + x) + c]!;
      expect(readFrameNumber(rgb, wide, high)).toBeNull();
    }
  });

  test("takes no number of more than 12 bits and no picture of another size", () => {
    expect(() => marked(4096)).toThrow(RangeError);
    expect(() => readFrameNumber(new Uint8Array(10), wide, high)).toThrow(RangeError);
  });
});
