import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BETWEEN_REACH_INTERVALS, betweenFrames } from "@/lib/measure/between/between-frames";

const CONTACT = 0.2;
const clock = { seconds: Array.from({ length: 60 }, (_, i) => i / 100), periodSeconds: 0.01, contactSeconds: CONTACT };
const anyPlaced = fc.uniqueArray(fc.integer({ min: 0, max: 59 }), { maxLength: 40 }).map((frames) => frames.sort((a, b) => a - b));
const frames = (placed: readonly number[], contactSeconds = Infinity) => betweenFrames(placed, { ...clock, contactSeconds }).map(({ frame }) => frame);

describe("frames between placed ones", () => {
  it("are those of holes of at most three intervals, and a larger hole stays open", () => {
    expect(frames([3, 4, 6, 9, 13, 14])).toEqual([5, 7, 8]);
  });
  it("never lie across contact, whose own frame ends the curve before it and begins the one after it", () => {
    expect(frames([18, 21, 22, 24], CONTACT)).toEqual([23]);
    const found = betweenFrames([16, 18, 20, 22, 24], clock);
    expect(found.map(({ frame, knots }) => [frame, ...knots])).toEqual([[17, 16, 18, 20], [19, 16, 18, 20], [21, 20, 22, 24], [23, 20, 22, 24]]);
  });
  it("are none of the placed ones, and are made of placed ones on their own side that no larger hole cuts off", () => {
    fc.assert(fc.property(anyPlaced, (placed) => {
      for (const { frame, knots, left } of betweenFrames(placed, clock)) {
        expect(placed).not.toContain(frame);
        expect(knots.every((knot) => placed.includes(knot))).toBe(true);
        expect((knots[left] ?? NaN) < frame && frame < (knots[left + 1] ?? NaN)).toBe(true);
        knots.slice(1).forEach((knot, i) => expect(knot - (knots[i] ?? NaN)).toBeLessThanOrEqual(3));
        expect(knots.every((knot) => knot <= 20) || knots.every((knot) => knot >= 20)).toBe(true);
      }
    }));
  });
  it("depend on nothing further away than the reach that is said", () => {
    fc.assert(fc.property(anyPlaced, (placed) => {
      for (const { frame, knots } of betweenFrames(placed, clock)) for (const knot of knots) expect(Math.abs(knot - frame)).toBeLessThan(BETWEEN_REACH_INTERVALS);
    }));
  });
});
