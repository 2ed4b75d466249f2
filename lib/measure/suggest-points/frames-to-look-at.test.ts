import { describe, expect, test } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { framesToLookAt, MOST_FRAMES, thinned } from "./frames-to-look-at";
import library from "@/seed/library/checkpoints.json";
import { isWeakSuggestion } from "./weak-suggestions";

const clip = (fps: number, seconds: number, contact: number, events = {}) => ({
  view: "side" as const, seconds: Array.from({ length: Math.round(fps * seconds) }, (_, i) => i / fps - contact), periodSeconds: 1 / fps, events: { contact: 0, ...events },
});
const LIBRARY = library.checkpoints as unknown as readonly CheckpointDefinition[];

describe("the frames at which the model looks", () => {
  test("with contact alone lie around it, not over all three seconds: closely in the swing, loosely before, none long after", () => {
    const { seconds, ...rest } = clip(240, 3, 2);
    const { frames, needed } = framesToLookAt({ seconds, ...rest }, []);
    const times = frames.map((frame) => seconds[frame] ?? NaN);
    expect(frames.length).toBeLessThanOrEqual(MOST_FRAMES);
    expect(Math.min(...times)).toBeCloseTo(-1.1, 2);
    expect(Math.max(...times)).toBeLessThanOrEqual(0.12 + 1e-9);
    expect(times.filter((time) => time >= -0.3).length).toBeGreaterThan(20);
    expect(times.filter((time) => time < -0.3).length).toBeLessThan(12);
    // The three frames from which a value at contact is taken.
    expect(needed).toEqual([478, 479, 480]);
  });

  test("an event brings the frames beside it, a checkpoint those of its stretch", () => {
    const given = clip(240, 3, 2, { plant: -0.2, launch: -0.15, finish: 0.5 });
    const { frames, needed } = framesToLookAt(given, []);
    expect(needed).toEqual(expect.arrayContaining([431, 432, 433, 599, 600, 601]));
    // Launch to contact is frames 444 to 480: every one of them, where without a checkpoint every fourth was enough.
    const between = (list: readonly number[]) => list.filter((frame) => frame >= 444 && frame <= 480).length;
    expect(between(framesToLookAt(given, LIBRARY).frames)).toBe(37);
    expect(between(frames)).toBeLessThan(20);
  });

  test("of another view's checkpoints bring none", () => {
    const given = { ...clip(240, 3, 2, { plant: -0.2, launch: -0.15 }), view: "rear" as const };
    expect(framesToLookAt(given, LIBRARY.filter(({ views }) => !views.measured.includes("rear")))).toEqual(framesToLookAt(given, []));
  });

  test("at a thousand frames a second stay within the most, and what is needed stays whole", () => {
    const events = { stance: -1, load: -0.6, plant: -0.2, launch: -0.15, extension: 0.05, finish: 0.4 };
    const { frames, needed } = framesToLookAt(clip(1000, 3, 2, events), LIBRARY);
    expect(frames.length).toBeLessThanOrEqual(MOST_FRAMES);
    expect(needed.every((frame) => frames.includes(frame))).toBe(true);
    expect([...frames].sort((a, b) => a - b)).toEqual(frames);
    expect(new Set(frames).size).toBe(frames.length);
  });

  test("a list is thinned evenly, its ends stay", () => {
    expect(thinned([0, 1, 2, 3, 4, 5, 6, 7, 8], 5)).toEqual([0, 2, 4, 6, 8]);
    expect([thinned([1, 2], 5), thinned([1, 2], 1), thinned([1, 2], 0)]).toEqual([[1, 2], [1], []]);
  });
});

test("elbows and wrists are weak in every view, head points unless they are seen from the side, and the rest are drafts", () => {
  expect((["el_f", "wr_b"] as const).every((point) => (["side", "front", "rear"] as const).every((view) => isWeakSuggestion(point, view)))).toBe(true);
  expect([isWeakSuggestion("ear_f", "side"), isWeakSuggestion("ear_f", "rear"), isWeakSuggestion("nose", "front")]).toEqual([false, true, true]);
  expect((["hip_f", "kn_b", "an_f", "sh_b", "heel_f", "toe_b"] as const).some((point) => isWeakSuggestion(point, "side") || isWeakSuggestion(point, "rear"))).toBe(false);
});
