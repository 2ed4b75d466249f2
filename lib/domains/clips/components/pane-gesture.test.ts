import fc from "fast-check";
import { expect, test } from "vitest";
import { placementOf, toPicture, wholeLook } from "../rules";
import { beginPane, movePane, type Pane } from "./pane-gesture";

const spot = fc.record({ x: fc.double({ min: 0, max: 390, noNaN: true }), y: fc.double({ min: 0, max: 300, noNaN: true }) });
const picture = { width: 1280, height: 720 };
const paneOf = (isFlipped: boolean): Pane => ({ picture, box: { width: 390, height: 300 }, isFlipped });

test("while two fingers spread, the place of the picture between them stays between them, flipped or not", () => {
  fc.assert(
    fc.property(fc.boolean(), fc.double({ min: 1.5, max: 4, noNaN: true }), (isFlipped, wider) => {
      const pane = paneOf(isFlipped);
      const look = { zoom: 2, centre: { x: 640, y: 360 } };
      const [a, b] = [{ x: 160, y: 150 }, { x: 230, y: 150 }] as const;
      const about = toPicture(placementOf(look, picture, pane.box, isFlipped), { x: 195, y: 150 });
      const spread = [{ x: 195 - 35 * wider, y: 150 }, { x: 195 + 35 * wider, y: 150 }];
      const after = movePane(beginPane({ kind: "none" }, look, [a, b]), spread, pane);
      if (!after) throw new Error("a pinch moves the look");
      const still = toPicture(placementOf(after, picture, pane.box, isFlipped), { x: 195, y: 150 });
      expect(Math.hypot(still.x - about.x, still.y - about.y)).toBeLessThan(1e-6);
      expect(after.zoom).toBeCloseTo(Math.min(8, 2 * wider), 6);
    }),
  );
});
test("a push moves the picture with the finger, also when it is flipped", () => {
  fc.assert(
    fc.property(spot, spot, fc.boolean(), (from, to, isFlipped) => {
      const pane = paneOf(isFlipped);
      const look = { zoom: 8, centre: { x: 640, y: 360 } };
      const held = toPicture(placementOf(look, picture, pane.box, isFlipped), from);
      const after = movePane(beginPane({ kind: "none" }, look, [from]), [to], pane);
      if (!after) throw new Error("a push moves the look");
      const there = toPicture(placementOf(after, picture, pane.box, isFlipped), to);
      expect(Math.hypot(there.x - held.x, there.y - held.y)).toBeLessThan(1e-6);
    }),
  );
});
test("a push that becomes a pinch still knows the look it began with", () => {
  const look = wholeLook(picture);
  const push = beginPane({ kind: "none" }, look, [{ x: 1, y: 1 }]);
  const pinch = beginPane(push, { zoom: 3, centre: { x: 1, y: 1 } }, [{ x: 1, y: 1 }, { x: 9, y: 9 }]);
  expect(pinch).toMatchObject({ kind: "pinch", before: look });
});
