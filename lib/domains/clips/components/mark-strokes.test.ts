import { describe, expect, test } from "vitest";
import { markShapeForm, MOST_PEN_PLACES } from "../schema";
import { markAngleDeg, sayAngle, strokePath } from "./mark-strokes";

const angle = (x1: number, y1: number, x3: number, y3: number) => ({ v: 1, kind: "angle", x1, y1, x2: 100, y2: 100, x3, y3 }) as const;

describe("an angle drawn on a frame", () => {
  test("is the one between its arms, whichever arm came first and however long they are", () => {
    expect(markAngleDeg(angle(200, 100, 100, 40))).toBeCloseTo(90, 9);
    expect(markAngleDeg(angle(100, 40, 400, 100))).toBeCloseTo(90, 9);
    expect(markAngleDeg(angle(0, 100, 300, 100))).toBeCloseTo(180, 9);
    expect(sayAngle(angle(200, 100, 200, 0))).toBe("45°");
  });
  test("with an arm of no length says nothing", () => {
    expect(sayAngle(angle(100, 100, 200, 0))).toBe("");
  });
});

describe("a stroke of the pen", () => {
  test("is refused with one place, with too many, or with a place that is no number", () => {
    const pen = (places: unknown) => markShapeForm.safeParse({ v: 1, kind: "pen", places }).success;
    expect([pen([[1, 2], [3, 4]]), pen([[1, 2]]), pen(Array.from({ length: MOST_PEN_PLACES + 1 }, () => [1, 2])), pen([[1, NaN], [3, 4]])]).toEqual([true, false, false, false]);
  });
});

test("a stroke is drawn through its places, moved to where the picture stands", () => {
  expect(strokePath({ v: 1, kind: "pen", places: [[1, 2], [3, 4]] }, ({ x, y }) => ({ x: 2 * x + 10, y: 2 * y }))).toBe("M12 4L16 8");
});
