import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cutAround, cutsOf, cutterCommandOf, KEY_FRAMES_APART, LEAST_FRAMES, snapped, withEnd } from "./rules";

const times = (count: number, fps = 240) => ({ timeBaseNum: 1, timeBaseDen: 90_000, ticks: Array.from({ length: count }, (_, i) => 900 + (i * 90_000) / fps) });
const press = (key: string, more = {}) => ({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });

describe("a cut", () => {
  test("begins on a key frame at or before where it was set, less than one group away, and stays inside the film", () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 5000 }), fc.integer({ min: -50, max: 6000 }), fc.integer({ min: -50, max: 6000 }), (frameCount, firstFrame, lastFrame) => {
        const cut = snapped({ firstFrame, lastFrame, contactFrame: null }, frameCount);
        expect(cut.firstFrame % KEY_FRAMES_APART).toBe(0);
        expect(cut.firstFrame).toBeGreaterThanOrEqual(0);
        expect(cut.lastFrame).toBeLessThan(frameCount);
        if (firstFrame >= 0) expect(firstFrame - cut.firstFrame).toBeLessThan(KEY_FRAMES_APART);
      }),
    );
  });
  test("of what was found lies at its seconds, with the crack as contact and none where only motion spoke", () => {
    const found = { contactSeconds: 5, fromSeconds: 3.2, toSeconds: 6.2, score: 1 };
    expect(cutsOf([{ ...found, by: "both" }, { ...found, by: "motion" }], times(2400))).toEqual([
      { firstFrame: 768, lastFrame: 1488, contactFrame: 1200 },
      { firstFrame: 768, lastFrame: 1488, contactFrame: null },
    ]);
  });
  test("around a frame holds it, in real seconds also of slow motion", () => {
    expect(cutAround(1200, times(2400), 1)).toEqual({ firstFrame: 768, lastFrame: 1488, contactFrame: null });
    expect(cutAround(1200, times(2400, 30), 1 / 8)).toEqual({ firstFrame: 768, lastFrame: 1488, contactFrame: null });
    expect(cutAround(3, times(2400), 1)).toMatchObject({ firstFrame: 0 });
  });
  test("whose end is moved past the other is not moved, and a contact outside is let go", () => {
    const cut = { firstFrame: 80, lastFrame: 200, contactFrame: 150 };
    expect(withEnd(cut, "first", 200, 1000)).toBeNull();
    expect(withEnd(cut, "last", 80 + LEAST_FRAMES - 2, 1000)).toBeNull();
    expect(withEnd(cut, "last", 120, 1000)).toEqual({ firstFrame: 80, lastFrame: 120, contactFrame: null });
    expect(withEnd(cut, "first", 100, 1000)).toEqual({ firstFrame: 96, lastFrame: 200, contactFrame: 150 });
  });
});

test("every key of the cutter does one thing, and the browser's own are left alone", () => {
  expect(["ArrowLeft", "ArrowDown", "a", "Delete", "[", "]", "2"].map((key) => cutterCommandOf(press(key), 3))).toEqual([
    { kind: "step", by: -1 }, { kind: "next-cut", by: 1 }, { kind: "add" }, { kind: "drop" }, { kind: "end", end: "first" }, { kind: "end", end: "last" }, { kind: "give", tile: 1 },
  ]);
  expect([press("4"), press("Enter"), press("a", { ctrlKey: true })].map((it) => cutterCommandOf(it, 3))).toEqual([null, null, null]);
});
