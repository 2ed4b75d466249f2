import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { readCheckpoint } from "@/lib/measure/read-checkpoint";
import { namedWords, numberWords, readingWords } from "@/lib/measure/reading-words";
import { event, filmed, hitter, onEvents, torso, type Filming } from "@/lib/measure/swing.fixture";
import library from "@/seed/library/checkpoints.json";

const read = (id: string, shot: ReturnType<typeof filmed>) => readCheckpoint((library.checkpoints as unknown as CheckpointDefinition[]).find((one) => one.id === id)!, shot.clip, shot.swing);
const plant = (seconds: number, filming: Filming = {}) => filmed(hitter, { ...filming, swing: { events: { plant: event(seconds, 0.006), contact: event(0, 0.0012) } } });

describe("a number has no more digits than its doubt bears", () => {
  it.each<[number, number, string, string]>([
    [0.1912, 0.0104, "seconds (captured time)", "0.19 s ± 0.01"],
    [12.34, 2.9, "degrees", "12° ± 3"],
    [123.4, 14, "degrees", "120° ± 20"],
    [123.4, 10, "degrees", "120° ± 10"],
    [-0.118, 0.0312, "torso lengths", "−0.12 torso lengths ± 0.03"],
    [0.96, 0.096, "ratio", "1.0 ratio ± 0.1"],
    [-0.001, 0.04, "bat lengths", "0.00 bat lengths ± 0.04"],
    [7.7, 0, "degrees", "7.70°"],
  ])("%d with %d in %s is %s", (value, sd, unit, words) => expect(numberWords(value, sd, unit)).toBe(words));
  it("the shown value is within half its last place, and the shown doubt never a fifth too small", () => {
    fc.assert(fc.property(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: 1e-4, max: 100, noNaN: true }), (value, sd) => {
      const [shown, doubt] = numberWords(value, sd, "").replaceAll("−", "-").split(" ± ").map(Number) as [number, number];
      expect(doubt).toBeGreaterThanOrEqual(0.8 * sd - 1e-9);
      expect(Math.abs(shown - value)).toBeLessThanOrEqual(doubt / 2 + 1e-9);
    }));
  });
  it("refuses what is not a number", () => {
    expect(() => numberWords(NaN, 1, "")).toThrow(RangeError);
    expect(() => numberWords(1, -1, "")).toThrow(RangeError);
  });
});

describe("words come first", () => {
  it("a reading inside its band is fine, one far beyond is to talk about, with its size", () => {
    expect(readingWords(read("plant-to-contact-time", plant(-0.19)))).toEqual({ words: "Fine", number: "0.190 s ± 0.006", why: [] });
    expect(readingWords(read("plant-to-contact-time", plant(-0.42))).words).toBe("Talk about it, large");
  });
  it("a grey reading is not judged and says why", () => {
    expect(readingWords(read("plant-to-contact-time", plant(-0.19, { fps: 60 })))).toMatchObject({ words: "Not sure enough to judge", why: ["Filmed at 60 frames a second; this needs 120"] });
  });
  it("a missing reading has no number and says what is missing", () => {
    expect(readingWords(read("launch-to-contact-time", plant(-0.19)))).toEqual({ words: "Cannot read it", number: null, why: ["Launch is not marked"] });
  });
  it("a doubt that cannot know the timing says so", () => {
    const alone = read("front-side-stack", onEvents({ stance: torso(), contact: { an_f: [100, 0], ...torso() } }));
    expect(readingWords(alone).why.at(-1)).toMatch(/leaves out when exactly/);
    expect(namedWords(alone.named[0]!)).toBe("hips toward the catcher");
  });
});
