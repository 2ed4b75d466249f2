import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { correlationFor, frameCorrelation, residualCorrelationOf } from "@/lib/measure/frame-correlation";
import { POINT_IDS, type PointId } from "@/lib/measure/points";
import { tracksOf } from "@/lib/measure/tracks";
import { filmed, hitter } from "@/lib/measure/swing.fixture";

/** A swing whose points err by a first-order autoregression, in pixels. */
function erring(correlation: number, sdPx: number, seed: number) {
  const random = seededRandom(seed);
  const errors = new Map<PointId, [number, number]>(POINT_IDS.map((point) => [point, [random.normal(), random.normal()]]));
  const shot = filmed((seconds) => Object.fromEntries(Object.entries(hitter(seconds)).map(([point, place]) => {
    const own = errors.get(point as PointId) ?? [0, 0];
    const next = own.map((error) => correlation * error + Math.sqrt(1 - correlation ** 2) * random.normal()) as [number, number];
    errors.set(point as PointId, next);
    return [point, [place[0] + sdPx * next[0], place[1] + sdPx * next[1]]];
  })));
  return tracksOf(shot.clip, "right")!;
}
const noise = () => 1.5;

describe("how alike the errors of neighbouring frames are", () => {
  it.each([0, 0.3, 0.6, 0.8])("is found again within 0.15 where it is %s", (correlation) => {
    for (const seed of [1, 2, 3]) expect(Math.abs(frameCorrelation(erring(correlation, 1.5, seed), noise) - correlation)).toBeLessThanOrEqual(0.15);
  });
  it("is 0 where points are placed far better than the model says, or where hardly any are", () => {
    expect(frameCorrelation(erring(0, 0, 1), noise)).toBe(0);
    expect(frameCorrelation(tracksOf(filmed((seconds) => (seconds > 0 ? hitter(seconds) : {})).clip, "right")!, noise)).toBe(0);
  });
  it("grows with what is left beside the parabolas, and is undone by it", () => {
    for (const reach of [2, 4, 7]) {
      for (const correlation of [0.1, 0.5, 0.8]) expect(correlationFor(residualCorrelationOf(correlation, reach), reach)).toBeCloseTo(correlation, 5);
      expect(residualCorrelationOf(0.6, reach)).toBeGreaterThan(residualCorrelationOf(0.2, reach));
    }
  });
});
