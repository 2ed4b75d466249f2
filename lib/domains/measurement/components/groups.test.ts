import { describe, expect, test } from "vitest";
import type { Reading } from "@/lib/measure/reading";
import { groupOf, limitWords } from "./groups";
import { takenAt } from "./taken-at";

const reading = (own: Partial<Reading>): Reading =>
  ({ checkpointId: "a", value: 1, sd: 0.1, isGrey: false, verdict: "fine", band: null, inputsUsed: { frames: [], points: [], events: [], scaleFrameIndexes: [] }, ...own }) as Reading;

describe("readings on the swing view", () => {
  test("a reading without a value is not read, and one that is not trusted never stands among those with a verdict", () => {
    expect(groupOf(reading({ value: null, verdict: null }))).toBe("not-read");
    expect(groupOf(reading({ isGrey: true, verdict: null }))).toBe("not-sure");
    expect(groupOf(reading({ verdict: null }))).toBe("no-verdict");
    expect(groupOf(reading({ verdict: "watch" }))).toBe("watch");
  });
  test("limits are said on the sides that have one", () => {
    const band = (low: number | null, high: number | null) => limitWords(reading({ band: { ok: [low, high], act: [low, high] } }));
    expect(band(-5, 20)).toBe("fine from −5 to 20");
    expect(band(null, 0.13)).toBe("fine up to 0.13");
    expect(band(0.4, null)).toBe("fine from 0.4 on");
    expect(limitWords(reading({}))).toBeNull();
  });
  test("a reading is looked at on the frames of its events in the order of time, and not on those outside the clip", () => {
    const event = (name: "plant" | "contact" | "finish", frameIndex: number | null) => ({ event: name, frameIndex, tick: 0, source: "coach" as const, sdSeconds: null });
    const inputsUsed = { frames: [{ frameIndex: 41, at: "plant" as const, points: [] }], points: [], events: ["contact" as const, "plant" as const, "finish" as const], scaleFrameIndexes: [] };
    const seen = takenAt(reading({ inputsUsed }), [event("contact", 90), event("plant", 40), event("finish", null)]);
    expect(seen).toEqual([{ event: "plant", frameIndex: 40 }, { event: "contact", frameIndex: 90 }]);
  });
});
