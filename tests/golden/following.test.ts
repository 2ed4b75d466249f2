import { describe, expect, it } from "vitest";
import { swingSpec } from "@/seed/media/spec";
import { followedPlaces, summaryOf } from "./followed-places";

// Small pictures: the torso is 70 pixels long, a placed point is 1.5 pixels off.
const small = { widthPx: 640, heightPx: 360, seconds: 1.7 } as const;
const found = [
  followedPlaces({ spec: swingSpec({ ...small, seed: 41, view: "side", task: "toss" }), framesPerSecond: 240, shutterSeconds: 0, fromSeconds: -0.27, framesApart: [6, 12] }),
  followedPlaces({ spec: swingSpec({ ...small, seed: 47, view: "rear", body: "adult", side: "left" }), framesPerSecond: 120, shutterSeconds: 0, fromSeconds: -0.35, framesApart: [4, 8] }),
].flat();

describe.each(["knob", "tip"] as const)("the %s of drawn swings, followed between placed frames", (point) => {
  const own = found.filter((it) => it.point === point);
  const held = own.filter(({ off }) => off !== null);

  it("is followed to half of the frames and more, and to nine of ten before the bat is quick", () => {
    expect(held.length / own.length).toBeGreaterThan(0.5);
    const early = own.filter(({ speedPx, secondsFromContact }) => speedPx < 3 && secondsFromContact < -0.15);
    expect(early.length).toBeGreaterThan(20);
    expect(early.filter(({ off }) => off !== null).length / early.length).toBeGreaterThan(0.9);
  });

  it("stops where it does not hold: no place is far off, and the 95 % interval that is said holds in 90 of 100 and more", () => {
    const { coverage, medianPx, p95Px } = summaryOf(own);
    expect(Math.max(...held.map(({ off }) => off?.px ?? NaN))).toBeLessThan(7);
    expect(medianPx).toBeLessThan(2);
    expect(p95Px).toBeLessThan(4);
    expect(coverage).toBeGreaterThan(0.9);
  });

  it("lies nearer than the curve from which it began, on the same frames", () => {
    const rms = (values: readonly number[]) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
    expect(rms(held.map(({ off }) => off?.px ?? NaN))).toBeLessThan(rms(held.map(({ courseOffPx }) => courseOffPx)));
  });
});
