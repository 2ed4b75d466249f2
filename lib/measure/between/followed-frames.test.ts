import { describe, expect, it } from "vitest";
import { betweenPassage, betweenSamples } from "@/lib/measure/between/between-passage";
import { filledTrack } from "@/lib/measure/between/filled-track";
import { followedFrames, placeSdPx } from "@/lib/measure/between/followed-frames";
import { noPassage } from "@/lib/measure/smoothing/passage";
import type { Track } from "@/lib/measure/tracks";

const seconds = Array.from({ length: 30 }, (_, i) => i / 100);
const track = (byHand: readonly number[], followed: readonly number[]): Track => {
  const frames = [...byHand, ...followed].sort((a, b) => a - b);
  const row = Float64Array.from(seconds, (_, i) => (frames.includes(i) ? i * i : NaN));
  return { point: "tip", frames, h: row, v: row.slice(), suggestedFrames: new Set(), followed: new Map(followed.map((frame) => [frame, 0.6])), framesOutside: [] };
};

describe("places that were followed from placed ones", () => {
  it("have the noise of the hand-placed frames beside them by how near they lie, and their own", () => {
    const own = track([10, 20], [12, 15]);
    expect(followedFrames(own, seconds)).toMatchObject([{ frame: 12, knots: [10, 20] }, { frame: 15, knots: [10, 20] }]);
    expect(placeSdPx(own, 12, seconds, () => 2)).toBeCloseTo(Math.hypot(0.6, 2 * 0.8, 2 * 0.2), 9);
    expect(placeSdPx(own, 10, seconds, () => 2)).toBe(2);
  });

  it("lean on one frame whole when the other was taken away, and on none as a place by itself", () => {
    expect(followedFrames(track([10], [12]), seconds)).toMatchObject([{ frame: 12, knots: [10], weights: [1] }]);
    expect(placeSdPx(track([], [12]), 12, seconds, () => 2)).toBeCloseTo(Math.hypot(0.6, 2), 9);
  });

  it("keep their own places in a passage, move with the frames they were followed from, and a curve between them moves too", () => {
    const filled = filledTrack(track([10, 20], [11, 13, 14, 15, 16, 17, 18, 19]), { seconds, periodSeconds: 0.01, contactSeconds: Infinity }, 100);
    expect(filled.between.map(({ frame }) => frame)).toEqual([11, 13, 14, 15, 16, 17, 18, 19, 12]);
    const samples = betweenSamples(filled.between, 0, 30);
    const passage = betweenPassage(noPassage({ from: 11, to: 16 }), samples, 30);
    const passed = (values: Float64Array) => {
      const out = new Float64Array(30).fill(NaN);
      passage.pass(values, out);
      return out;
    };
    const places = passed(samples.blanked(filled.h));
    for (const frame of [11, 13, 14, 15]) expect(places[frame]).toBeCloseTo(frame * frame, 9);
    expect(places[12]).toBeCloseTo(144, 1);
    const noise = new Float64Array(30);
    noise[10] = 1;
    const moved = passed(noise);
    for (const frame of [11, 13, 15]) expect(moved[frame]).toBeCloseTo((20 - frame) / 10, 9);
    expect(moved[12]).toBeCloseTo(0.8, 1);
    const own = new Float64Array(30);
    own[14] = 1;
    expect(passed(own)[14]).toBe(1);
    expect(passed(own)[15]).toBe(0);
  });
});
