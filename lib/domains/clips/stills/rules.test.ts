import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pointIds, type EventView, type PointId } from "../view";
import { cropWindow, frameOfEvent, sheetFrames, STILL_ASPECT } from "./rules";

const size = fc.record({ width: fc.integer({ min: 120, max: 4000 }), height: fc.integer({ min: 120, max: 4000 }) });
const placesIn = ({ width, height }: { width: number; height: number }) =>
  fc.array(fc.record({ point: fc.constantFrom(...pointIds), x: fc.double({ min: 0, max: width, noNaN: true }), y: fc.double({ min: 0, max: height, noNaN: true }) }), { maxLength: 60 });
const cases = size.chain((picture) => fc.tuple(fc.constant(picture), placesIn(picture)));
const hitter = (x: number, y: number, tall: number) =>
  ["nose", "sh_f", "sh_b", "hip_f", "kn_f", "an_f", "toe_b"].map((point, i) => ({ point: point as PointId, x: x + (i % 2 ? 1 : -1) * tall * 0.1, y: y - tall / 2 + (tall * i) / 6 }));

describe("the window of a clip's stills", () => {
  test("lies inside the picture in whole pixels and has the shape of a still", () => {
    fc.assert(
      fc.property(cases, ([picture, places]) => {
        const { x, y, width, height } = cropWindow(picture, places);
        expect([x, y, width, height].every(Number.isInteger)).toBe(true);
        expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
        expect(x + width).toBeLessThanOrEqual(picture.width);
        expect(y + height).toBeLessThanOrEqual(picture.height);
        expect(Math.abs(width - height * STILL_ASPECT)).toBeLessThanOrEqual(1);
      }),
    );
  });

  test("holds every point of a hitter who fits into it, at any place in the picture", () => {
    const picture = { width: 1280, height: 720 };
    fc.assert(
      fc.property(fc.integer({ min: 150, max: 1130 }), fc.integer({ min: 150, max: 560 }), fc.double({ min: 0.5, max: 2, noNaN: true }), (x, y, size) => {
        const points = hitter(x, y, size * Math.min(y, picture.height - y));
        const window = cropWindow(picture, points);
        for (const it of points) {
          expect(it.x).toBeGreaterThanOrEqual(window.x);
          expect(it.x).toBeLessThanOrEqual(window.x + window.width);
          expect(it.y).toBeGreaterThanOrEqual(window.y - 1);
          expect(it.y).toBeLessThanOrEqual(window.y + window.height + 1);
        }
      }),
    );
  });

  test("stays where it is when a point is nudged by a pixel in the middle of the body", () => {
    const points = hitter(600, 380, 400);
    const nudged = points.map((it) => (it.point === "hip_f" ? { ...it, x: it.x + 1, y: it.y - 1 } : it));
    expect(cropWindow({ width: 1280, height: 720 }, nudged)).toEqual(cropWindow({ width: 1280, height: 720 }, points));
  });

  test("is the middle of the picture, as tall as can be, while too few points show where the hitter stands", () => {
    expect(cropWindow({ width: 1280, height: 720 }, hitter(200, 300, 200).slice(0, 3))).toEqual({ x: 369, y: 0, width: 543, height: 720 });
    expect(cropWindow({ width: 720, height: 1280 }, [])).toEqual({ x: 1, y: 164, width: 719, height: 953 });
  });

  test("does not reach out for the tip of the bat", () => {
    const points = hitter(600, 380, 400);
    expect(cropWindow({ width: 1280, height: 720 }, [...points, { point: "tip", x: 1270, y: 10 }])).toEqual(cropWindow({ width: 1280, height: 720 }, points));
  });
});

describe("the frame of an event", () => {
  const at = (event: EventView["event"], frameIndex: number | null, tick: number | null = frameIndex): EventView => ({ event, frameIndex, tick, source: "coach", sdSeconds: null });
  const clip = { frameCount: 91, events: [at("load", 20), at("contact", 60), at("finish", 95), at("toe", null, null), at("plant", null, -7), at("stance", 12)] };

  test("is missing for its own reason: not set, outside the clip, or not lined up with it", () => {
    expect(frameOfEvent(clip, "load")).toEqual({ frameIndex: 20 });
    expect(frameOfEvent(clip, "launch")).toEqual({ why: "not-set" });
    expect(frameOfEvent(clip, "finish")).toEqual({ why: "outside" });
    expect(frameOfEvent(clip, "plant")).toEqual({ why: "outside" });
    expect(frameOfEvent(clip, "toe")).toEqual({ why: "not-lined-up" });
  });

  test("of those of the sheet every frame comes once, in order", () => {
    expect(sheetFrames({ ...clip, events: [at("contact", 60), at("load", 20), at("toe", 20), at("stance", 12)] })).toEqual([20, 60]);
  });
});
