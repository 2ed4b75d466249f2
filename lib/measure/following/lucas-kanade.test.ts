import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import type { GreyPicture } from "./grey-picture";
import { findPatch } from "./lucas-kanade";
import { patchAround } from "./patch";
import { pyramidOf } from "./pyramid";

const SIZE = 120;
const SHAPE = { radius: 9, ahead: 0 };

/** A smooth texture known at every place, so that its shift by any part of a pixel is exact. */
const texture = (x: number, y: number) => 128 + 30 * Math.sin(0.31 * x + 0.12 * y) + 25 * Math.cos(0.17 * y - 0.22 * x) + 20 * Math.sin(0.09 * x * 1.7 + 0.27 * y);

function picture(of: (x: number, y: number) => number): GreyPicture {
  const values = new Float32Array(SIZE * SIZE);
  for (let v = 0; v < SIZE; v++) for (let u = 0; u < SIZE; u++) values[v * SIZE + u] = of(u + 0.5, v + 0.5);
  return { widthPx: SIZE, heightPx: SIZE, values };
}

const shifted = (dx: number, dy: number) => picture((x, y) => texture(x - dx, y - dy));
const place = { x: 58.3, y: 61.8 };
const find = (from: GreyPicture, to: GreyPicture, { start = place, turnRad = 0, levels = 3 } = {}) => findPatch(patchAround(pyramidOf(from, levels), place, 0, SHAPE), SHAPE, pyramidOf(to, levels), start, turnRad);
const foundIn = (...args: Parameters<typeof find>) => {
  const found = find(...args);
  if (typeof found === "string") throw new Error(found);
  return found;
};

describe("a patch looked for in another picture", () => {
  it("is found to a fiftieth of a pixel wherever a texture was shifted, by parts of a pixel and by several", () => {
    fc.assert(fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true }), (dx, dy) => {
      const found = foundIn(shifted(0, 0), shifted(dx, dy));
      expect(Math.hypot(found.x - place.x - dx, found.y - place.y - dy)).toBeLessThan(0.02);
    }), { numRuns: 40 });
  });

  it("is found by its pyramid where it went further than its picture alone can say", () => {
    const broad = (dx: number) => picture((x, y) => 128 + 60 * Math.exp(-(((x - dx - 50) / 9) ** 2) - ((y - 60) / 7) ** 2) - 40 * Math.exp(-(((x - dx - 62) / 6) ** 2) - ((y - 66) / 8) ** 2));
    const isHeld = (found: ReturnType<typeof find>) => typeof found !== "string" && Math.hypot(found.x - place.x - 19, found.y - place.y) < 0.05;
    expect(isHeld(find(broad(0), broad(19), { levels: 1 }))).toBe(false);
    expect(isHeld(find(broad(0), broad(19), { levels: 3 }))).toBe(true);
  });

  it("is found where what it lies on has turned, when it is told by how much", () => {
    const turn = 0.35;
    const turned = picture((x, y) => texture(place.x + (x - place.x) * Math.cos(turn) + (y - place.y) * Math.sin(turn), place.y - (x - place.x) * Math.sin(turn) + (y - place.y) * Math.cos(turn)));
    const found = foundIn(shifted(0, 0), turned, { start: { x: place.x + 3, y: place.y - 2 }, turnRad: turn });
    expect(Math.hypot(found.x - place.x, found.y - place.y)).toBeLessThan(0.03);
    expect(found.residual).toBeLessThan(0.5);
  });

  it("is not moved by light that makes all of it brighter", () => {
    const brighter = picture((x, y) => 25 + texture(x - 1.4, y + 0.6));
    const found = foundIn(shifted(0, 0), brighter);
    expect(Math.hypot(found.x - place.x - 1.4, found.y - place.y + 0.6)).toBeLessThan(0.02);
  });

  it("is refused where nothing changes, and along an edge, where it cannot be told how far it slid", () => {
    expect(find(picture(() => 90), picture(() => 90))).toBe("flat");
    const edge = picture((x, y) => 120 + 60 * Math.tanh((x + 0.5 * y - 90) / 2));
    expect(find(edge, edge)).toBe("flat");
    expect(find(picture((x) => texture(x, 0)), picture((x) => texture(x - 1, 0)))).toBe("flat");
  });

  it("is refused at the rim of the picture", () => {
    expect(find(shifted(0, 0), shifted(0, 0), { start: { x: 4, y: 60 } })).toBe("outside");
  });

  it("says an SD that a sensor's noise makes, within a quarter", () => {
    const random = seededRandom("sensor");
    const clean = patchAround(pyramidOf(shifted(0, 0), 2), place, 0, SHAPE);
    const runs = Array.from({ length: 120 }, () => {
      const [dx, dy] = [random.uniform(), random.uniform()];
      const noisy = picture((x, y) => texture(x - dx, y - dy) + 4 * random.normal());
      const found = findPatch(clean, SHAPE, pyramidOf(noisy, 2), place, 0);
      if (typeof found === "string") throw new Error(found);
      return { off: Math.hypot(found.x - place.x - dx, found.y - place.y - dy), said: found.sdPx };
    });
    const actual = Math.sqrt(runs.reduce((sum, { off }) => sum + off * off, 0) / runs.length / 2);
    const said = runs.reduce((sum, it) => sum + it.said, 0) / runs.length;
    expect(said / actual).toBeGreaterThan(0.75);
    expect(said / actual).toBeLessThan(1.25);
  });
});

describe("a pyramid", () => {
  it("smooths as Bouguet's low pass does before every halving, and leaves an even picture even", () => {
    const dot = picture((x, y) => (Math.floor(x) === 40 && Math.floor(y) === 60 ? 256 : 0));
    const half = pyramidOf(dot, 2).levels[1]!;
    const at = (x: number, y: number) => half.values[y * half.widthPx + x];
    expect(half.widthPx).toBe(60);
    expect(at(20, 30)).toBeCloseTo(256 * (3 / 8) ** 2, 4);
    expect(at(21, 30)).toBeCloseTo((256 * 3) / 8 / 16, 4);
    expect(at(19, 31)).toBeCloseTo(256 / 16 / 16, 4);
    expect([...pyramidOf(picture(() => 77), 3).levels[2]!.values].every((value) => Math.abs(value - 77) < 1e-3)).toBe(true);
  });

  it("gives a cut-out piece the places of the whole picture", () => {
    const whole = shifted(0, 0);
    const [left, top, size] = [20, 24, 80];
    const values = Float32Array.from({ length: size * size }, (_, i) => texture(left + (i % size) + 0.5, top + Math.floor(i / size) + 0.5));
    const piece = { widthPx: size, heightPx: size, values, leftPx: left, topPx: top };
    const found = foundIn(whole, piece, { start: { x: place.x + 1, y: place.y + 1 } });
    expect(Math.hypot(found.x - place.x, found.y - place.y)).toBeLessThan(0.01);
  });
});
