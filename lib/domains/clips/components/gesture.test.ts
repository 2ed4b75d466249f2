import fc from "fast-check";
import { expect, test } from "vitest";
import type { MarkShape } from "../view";
import { drawnShape, drawnTo, isTooSmall, markHandles, moveHandle, nextDrawing, type Drawing } from "./gesture";

const picture = { width: 1280, height: 720 };
const spot = fc.record({ x: fc.integer({ min: 0, max: 1280 }), y: fc.integer({ min: 0, max: 720 }) });
const by = fc.record({ x: fc.integer({ min: -2000, max: 2000 }), y: fc.integer({ min: -2000, max: 2000 }) });

test("a ring drawn from corner to corner touches both corners' sides, whichever corner came first", () => {
  const there = drawnShape({ tool: "ring", from: { x: 10, y: 20 }, to: { x: 50, y: 80 } });
  expect(there).toEqual({ v: 1, kind: "ring", cx: 30, cy: 50, rx: 20, ry: 30 });
  expect(drawnShape({ tool: "ring", from: { x: 50, y: 80 }, to: { x: 10, y: 20 } })).toEqual(there);
});
test("a whole line that is moved keeps its length and stays in the picture", () => {
  fc.assert(
    fc.property(spot, spot, by, (from, to, push) => {
      const line = moveHandle(drawnShape({ tool: "line", from, to }), "whole", push, picture);
      if (line.kind !== "line") throw new Error("kind changed");
      expect(line.x2 - line.x1).toBe(to.x - from.x);
      expect(line.y2 - line.y1).toBe(to.y - from.y);
      expect(Math.min(line.x1, line.x2)).toBeGreaterThanOrEqual(0);
      expect(Math.max(line.y1, line.y2)).toBeLessThanOrEqual(720);
    }),
  );
});
test("moving one end of a line leaves the other", () => {
  const line = drawnShape({ tool: "line", from: { x: 10, y: 20 }, to: { x: 50, y: 80 } });
  expect(moveHandle(line, "end", { x: 5, y: -5 }, picture)).toEqual({ v: 1, kind: "line", x1: 10, y1: 20, x2: 55, y2: 75 });
});
test("the side of a ring follows the hand and the middle stays", () => {
  const ring: MarkShape = { v: 1, kind: "ring", cx: 100, cy: 100, rx: 20, ry: 10 };
  const wider = moveHandle(ring, "side", { x: 7, y: 3 }, picture);
  expect(wider).toEqual({ ...ring, rx: 27 });
  expect(markHandles(wider)[0]).toEqual({ handle: "side", at: { x: 127, y: 100 } });
});
test("a tap draws nothing and empty words are nothing", () => {
  expect(isTooSmall(drawnShape({ tool: "line", from: { x: 10, y: 20 }, to: { x: 11, y: 20 } }), 6)).toBe(true);
  expect(isTooSmall(drawnShape({ tool: "ring", from: { x: 10, y: 20 }, to: { x: 90, y: 21 } }), 6)).toBe(true);
  expect(isTooSmall({ v: 1, kind: "words", x: 1, y: 1, text: "  " }, 6)).toBe(true);
  expect(isTooSmall(drawnShape({ tool: "line", from: { x: 10, y: 20 }, to: { x: 60, y: 20 } }), 6)).toBe(false);
});
test("an angle is drawn in two steps: its first arm is a line, its second makes it an angle", () => {
  const arm: Drawing = { tool: "angle", from: { x: 10, y: 10 }, to: { x: 50, y: 10 } };
  expect(drawnShape(arm).kind).toBe("line");
  const second = nextDrawing(arm);
  expect(second && drawnShape(drawnTo(second, { x: 50, y: 60 }))).toEqual({ v: 1, kind: "angle", x1: 10, y1: 10, x2: 50, y2: 10, x3: 50, y3: 60 });
  expect(second && nextDrawing(second)).toBeNull();
  expect(nextDrawing({ ...arm, tool: "line" })).toBeNull();
});
test("an angle without a second arm is too small to have been meant", () => {
  expect(isTooSmall({ v: 1, kind: "angle", x1: 10, y1: 10, x2: 90, y2: 10, x3: 91, y3: 10 }, 6)).toBe(true);
});
test("a pen keeps where the hand has been, and a hand that rests adds nothing", () => {
  let drawing: Drawing = { tool: "pen", from: { x: 0, y: 0 }, to: { x: 0, y: 0 } };
  for (const to of [{ x: 40, y: 0 }, { x: 40, y: 0.2 }, { x: 40, y: 30 }]) drawing = drawnTo(drawing, to);
  expect(drawnShape(drawing)).toEqual({ v: 1, kind: "pen", places: [[0, 0], [40, 0], [40, 30]] });
  expect(isTooSmall(drawnShape({ tool: "pen", from: { x: 5, y: 5 }, to: { x: 6, y: 5 } }), 6)).toBe(true);
});
test("whole angles and pen strokes that are moved keep their form and stay in the picture", () => {
  fc.assert(
    fc.property(spot, spot, spot, by, (a, b, c, push) => {
      const shapes: MarkShape[] = [drawnShape({ tool: "angle", from: a, corner: b, to: c }), { v: 1, kind: "pen", places: [[a.x, a.y], [b.x, b.y], [c.x, c.y]] }];
      for (const shape of shapes) {
        const moved = moveHandle(shape, "whole", push, picture);
        const places = (of: MarkShape) => (of.kind === "angle" ? [of.x1, of.y1, of.x2, of.y2, of.x3, of.y3] : of.kind === "pen" ? of.places.flat() : []);
        const [before, after] = [places(shape), places(moved)];
        const [dx, dy] = [after[0]! - before[0]!, after[1]! - before[1]!];
        after.forEach((value, i) => {
          expect(value - before[i]!).toBe(i % 2 ? dy : dx);
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThanOrEqual(i % 2 ? picture.height : picture.width);
        });
      }
    }),
  );
});
