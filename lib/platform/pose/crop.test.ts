import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bodyCrop, placeInPicture, sampleCrop, type Crop } from "./crop";

/** A picture whose red grows by one a pixel across and whose green by ten a row. */
const ramp = (width: number, height: number) => {
  const bytes = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) bytes.set([x, 10 * y, 0], (y * width + x) * 3);
  return { bytes, width, height };
};

describe("the square around a body", () => {
  test("has twice the circle's radius and a quarter more for its side, and stands upright with the body", () => {
    // 3, 4, 5: the top lies 30 right and 40 above the hips, so the side is 2 × 50 × 1.25, turned clockwise by atan(3/4).
    const crop = bodyCrop({ x: 100, y: 200 }, { x: 130, y: 160 });
    expect(crop.size).toBeCloseTo(125, 9);
    expect(crop.turnRad).toBeCloseTo(Math.atan2(3, 4), 12);
  });

  test("of a body upside down is turned by half a turn", () => {
    expect(Math.abs(bodyCrop({ x: 0, y: 0 }, { x: 0, y: 10 }).turnRad)).toBeCloseTo(Math.PI, 12);
  });
});

describe("a place of a crop", () => {
  test("lies where a quarter turn puts it", () => {
    // Turned clockwise by a quarter, the crop's right is the picture's down.
    const crop: Crop = { x: 50, y: 60, size: 20, turnRad: Math.PI / 2 };
    const place = placeInPicture(crop, 1, 0.5);
    expect([place.x, place.y]).toEqual([expect.closeTo(50, 9), expect.closeTo(70, 9)]);
  });

  test("the top of the circle lies straight above the middle, however the body leans", () => {
    fc.assert(fc.property(fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }), fc.double({ min: 5, max: 300, noNaN: true }), (lean, far) => {
      const [middle, top] = [{ x: 10, y: 20 }, { x: 10 + far * Math.sin(lean), y: 20 - far * Math.cos(lean) }];
      const crop = bodyCrop(middle, top);
      const place = placeInPicture(crop, 0.5, 0.5 - 1 / (2 * 1.25));
      expect(place.x).toBeCloseTo(top.x, 6);
      expect(place.y).toBeCloseTo(top.y, 6);
    }));
  });
});

describe("sampling", () => {
  test("pixel for pixel gives the picture itself, between black and white", () => {
    const picture = ramp(8, 8);
    const out = sampleCrop(picture, { x: 4, y: 4, size: 8, turnRad: 0 }, 8, [0, 255], new Float32Array(8 * 8 * 3));
    expect(out[(2 * 8 + 3) * 3]).toBeCloseTo(3, 4);
    expect(out[(2 * 8 + 3) * 3 + 1]).toBeCloseTo(20, 4);
  });

  test("half a pixel aside is half way between two pixels, and beyond the picture it is black", () => {
    const picture = ramp(8, 8);
    const out = sampleCrop(picture, { x: 4.5, y: 4, size: 8, turnRad: 0 }, 8, [-1, 1], new Float32Array(8 * 8 * 3));
    expect(out[(2 * 8 + 3) * 3]).toBeCloseTo(-1 + (2 * 3.5) / 255, 5);
    expect([...out.slice((2 * 8 + 7) * 3, (2 * 8 + 7) * 3 + 3)]).toEqual([-1, -1, -1]);
  });
});
