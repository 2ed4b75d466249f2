import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { betweenFrames } from "@/lib/measure/between/between-frames";
import { filledTrack } from "@/lib/measure/between/filled-track";
import { framesStillWanted } from "@/lib/measure/between/frames-still-wanted";
import { nextBestFrame } from "@/lib/measure/between/next-best-frame";
import type { Track } from "@/lib/measure/tracks";

const COUNT = 30;
const seconds = Array.from({ length: COUNT }, (_, i) => (i - 20) / 240);
const clock = { seconds, periodSeconds: 1 / 240, contactSeconds: 0 };
/** A tip that turns fast toward contact. */
const path = (frame: number) => 300 * Math.cos(6 * (seconds[frame] ?? 0) + 400 * (seconds[frame] ?? 0) ** 3);
const trackOf = (frames: readonly number[]): Track => {
  const [h, v] = [new Float64Array(COUNT).fill(NaN), new Float64Array(COUNT).fill(NaN)];
  for (const frame of frames) [h[frame], v[frame]] = [path(frame), path(frame) / 2];
  return { point: "tip", frames, h, v, suggestedFrames: new Set(), framesOutside: [] };
};
const anyPlaced = fc.uniqueArray(fc.integer({ min: 0, max: COUNT - 1 }), { maxLength: 20 }).map((frames) => frames.sort((a, b) => a - b));
const isComplete = (frames: readonly number[], placed: readonly number[]) => {
  const known = new Set([...placed, ...betweenFrames(placed, clock).map(({ frame }) => frame)]);
  return frames.every((frame) => known.has(frame));
};
const points = (placed: readonly number[]) => ({ placed: () => placed, isUnseen: () => false });
const TORSO_PX = 150;
const NOISE_PX = 1.8;
/** A change of the mean by this many variances of a placed point is none. */
const HARDLY = 0.02;

describe("the frames that are still wanted", () => {
  it("leave no hole, and no fewer would do", () => {
    fc.assert(fc.property(anyPlaced, fc.integer({ min: 2, max: 18 }), (placed, first) => {
      const frames = [first, first + 1, first + 2, first + 3, first + 4, first + 5, first + 6, first + 7];
      const plan = framesStillWanted([{ point: "tip", frames, readings: 1 }], points(placed), clock).map(({ frame }) => frame);
      const with_ = (more: readonly number[]) => [...new Set([...placed, ...more])].sort((a, b) => a - b);
      expect(isComplete(frames, with_(plan))).toBe(true);
      const subsets = Array.from({ length: 2 ** frames.length }, (_, bits) => frames.filter((_, i) => bits & (1 << i)));
      expect(subsets.filter((subset) => subset.length < plan.length).some((subset) => isComplete(frames, with_(subset)))).toBe(false);
    }), { numRuns: 60 });
  });
  it("name every wanted point that is not placed there, and none on a frame where it cannot be seen", () => {
    const stretches = [{ point: "tip", frames: [0, 1, 2, 3], readings: 1 }, { point: "knob", frames: [0, 1, 2, 3], readings: 1 }] as const;
    const plan = framesStillWanted(stretches, { placed: (point) => (point === "knob" ? [0] : []), isUnseen: (_, frame) => frame === 3 }, clock);
    expect(plan).toEqual([{ frame: 0, points: ["tip"] }, { frame: 2, points: ["tip", "knob"] }]);
  });
});

describe("the next best frame", () => {
  /** Mean variance over the stretch in variances of a placed point, from the whole track. */
  const doubtOf = (frames: readonly number[], placed: readonly number[]) => {
    const filled = filledTrack(trackOf(placed), clock, TORSO_PX);
    const own = new Map(betweenFrames(placed, clock).map(({ frame, weights }) => [frame, weights.reduce((sum, weight) => sum + weight * weight, 0) + ((filled.stray[frame] ?? NaN) / NOISE_PX) ** 2]));
    return frames.reduce((sum, frame) => sum + (placed.includes(frame) ? 1 : Math.min(30, own.get(frame) ?? 30)), 0) / frames.length;
  };
  it("lowers the doubt of the stretch by nine tenths of what the best of all frames would, told by placing each in turn", () => {
    const frames = Array.from({ length: 20 }, (_, i) => i);
    const everyThird = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 12, maxLength: 12 }).map((steps) => steps.reduce<number[]>((all, step) => [...all, (all.at(-1) ?? 0) + step], [0]).filter((frame) => frame < 20).concat(20));
    fc.assert(fc.property(everyThird, (placed) => {
      if (!isComplete(frames, placed)) return;
      const tracks = { seconds, periodSeconds: clock.periodSeconds, byPoint: { tip: trackOf(placed) } };
      const best = nextBestFrame([{ point: "tip", frames, readings: 1 }], points(placed), { tracks, contactSeconds: 0, torsoPx: TORSO_PX, noisePx: NOISE_PX });
      const lowered = frames.filter((frame) => !placed.includes(frame)).map((frame) => ({ frame, by: doubtOf(frames, placed) - doubtOf(frames, [...placed, frame].sort((a, b) => a - b)) }));
      if (!best) return expect(lowered).toEqual([]);
      expect(best.stillWanted).toBe(0);
      const most = Math.max(...lowered.map(({ by }) => by));
      expect(lowered.find(({ frame }) => frame === best.frame)?.by).toBeGreaterThanOrEqual(0.9 * most - HARDLY);
    }), { numRuns: 100 });
  });
  it("is null when every wanted point is placed", () => {
    const all = Array.from({ length: COUNT }, (_, i) => i);
    const tracks = { seconds, periodSeconds: clock.periodSeconds, byPoint: { tip: trackOf(all) } };
    expect(nextBestFrame([{ point: "tip", frames: [3, 4, 5], readings: 1 }], points(all), { tracks, contactSeconds: 0, torsoPx: TORSO_PX, noisePx: NOISE_PX })).toBeNull();
  });
});
