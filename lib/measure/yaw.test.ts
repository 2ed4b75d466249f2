import fc from "fast-check";
import { expect, it } from "vitest";
import { clampedYawDeg, LARGEST_YAW_DEG, yawOf } from "@/lib/measure/yaw";

it("half the full width is 30 degrees, open toward the pitcher when the back point is nearer the plate", () => {
  expect([yawOf(25, 50).deg, yawOf(-25, 50).deg, yawOf(0, 50).deg].map((deg) => Math.round((deg ?? NaN) * 1e9) / 1e9)).toEqual([30, -30, 0]);
});
it("up to 70 degrees the turn comes back; beyond it is refused and says so", () => {
  fc.assert(fc.property(fc.double({ min: -90, max: 90, noNaN: true }), (deg) => {
    const { deg: found, say } = yawOf(40 * Math.sin((deg * Math.PI) / 180), 40);
    if (Math.abs(deg) < LARGEST_YAW_DEG - 1e-6) expect(Math.abs((found ?? NaN) - deg)).toBeLessThan(1e-6);
    if (Math.abs(deg) > LARGEST_YAW_DEG + 1e-6) expect([found, say === null]).toEqual([null, false]);
  }));
});
it("a width above the full width is said with how much, and is no turn", () => {
  expect(yawOf(54, 50)).toMatchObject({ deg: null, widthRatio: 1.08, isWiderThanFull: true, say: expect.stringContaining("8 % wider") });
});
it("without a full width there is no turn", () => {
  for (const width of [0, -1, NaN]) expect([yawOf(10, width).deg, clampedYawDeg(10, width)]).toEqual([null, NaN]);
});
it("for rules the ratio is clamped, so that what is too wide counts as turned too far", () => {
  expect(Math.abs(clampedYawDeg(60, 50) - 90)).toBeLessThan(1e-9);
});
