import fc from "fast-check";
import { expect, test } from "vitest";
import type { MarkShape } from "../view";
import { drawnShape, isTooSmall, markHandles, moveHandle } from "./gesture";

const picture = { width: 1280, height: 720 };
const spot = fc.record({ x: fc.integer({ min: 0, max: 1280 }), y: fc.integer({ min: 0, max: 720 }) });
const by = fc.record({ x: fc.integer({ min: -2000, max: 2000 }), y: fc.integer({ min: -2000, max: 2000 }) });

test("a ring drawn from corner to corner touches both corners' sides, whichever corner came first", () => {
  const there = drawnShape("ring", { x: 10, y: 20 }, { x: 50, y: 80 });
  expect(there).toEqual({ v: 1, kind: "ring", cx: 30, cy: 50, rx: 20, ry: 30 });
  expect(drawnShape("ring", { x: 50, y: 80 }, { x: 10, y: 20 })).toEqual(there);
});
test("a whole line that is moved keeps its length and stays in the picture", () => {
  fc.assert(
    fc.property(spot, spot, by, (from, to, push) => {
      const line = moveHandle(drawnShape("line", from, to), "whole", push, picture);
      if (line.kind !== "line") throw new Error("kind changed");
      expect(line.x2 - line.x1).toBe(to.x - from.x);
      expect(line.y2 - line.y1).toBe(to.y - from.y);
      expect(Math.min(line.x1, line.x2)).toBeGreaterThanOrEqual(0);
      expect(Math.max(line.y1, line.y2)).toBeLessThanOrEqual(720);
    }),
  );
});
test("moving one end of a line leaves the other", () => {
  const line = drawnShape("line", { x: 10, y: 20 }, { x: 50, y: 80 });
  expect(moveHandle(line, "end", { x: 5, y: -5 }, picture)).toEqual({ v: 1, kind: "line", x1: 10, y1: 20, x2: 55, y2: 75 });
});
test("the side of a ring follows the hand and the middle stays", () => {
  const ring: MarkShape = { v: 1, kind: "ring", cx: 100, cy: 100, rx: 20, ry: 10 };
  const wider = moveHandle(ring, "side", { x: 7, y: 3 }, picture);
  expect(wider).toEqual({ ...ring, rx: 27 });
  expect(markHandles(wider)[0]).toEqual({ handle: "side", at: { x: 127, y: 100 } });
});
test("a tap draws nothing and empty words are nothing", () => {
  expect(isTooSmall(drawnShape("line", { x: 10, y: 20 }, { x: 11, y: 20 }), 6)).toBe(true);
  expect(isTooSmall(drawnShape("ring", { x: 10, y: 20 }, { x: 90, y: 21 }), 6)).toBe(true);
  expect(isTooSmall({ v: 1, kind: "words", x: 1, y: 1, text: "  " }, 6)).toBe(true);
  expect(isTooSmall(drawnShape("line", { x: 10, y: 20 }, { x: 60, y: 20 }), 6)).toBe(false);
});
