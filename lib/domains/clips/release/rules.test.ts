import { describe, expect, test } from "vitest";
import { heardRelease } from "./rules";

/** 240 frames a second of real time, three seconds. */
const clip = { frameTimes: { timeBaseNum: 1, timeBaseDen: 240, ticks: Array.from({ length: 720 }, (_, i) => i) }, realSecondsPerFileSecond: 1, timeBasis: "measured" } as const;
const contact = 480;
const at = (...seconds: number[]) => ({ contact, before: seconds.map((it) => contact + Math.round(it * 240)) });

describe("the release that a machine is heard to make", () => {
  test("lies a ball's flight before contact, earlier than its sound by the sound's own way", () => {
    const found = heardRelease(at(-0.5), "machine", clip);
    expect((contact - (found?.frameIndex ?? 0)) / 240).toBeCloseTo(0.542, 2);
    expect(found?.sdSeconds).toBe(0.015);
  });
  test("of several sounds is the last that a flight allows", () => {
    expect(heardRelease(at(-1.4, -0.9, -0.6, -0.1), "machine", clip)).toEqual(heardRelease(at(-0.6), "machine", clip));
  });
  test("is not guessed where no flight would put it, off a tee, from a hand, or without real time", () => {
    expect(heardRelease(at(-0.1, -1.5), "machine", clip)).toBeNull();
    for (const task of ["tee", "toss", "live", "game", "dry"]) expect(heardRelease(at(-0.5), task, clip)).toBeNull();
    expect(heardRelease(at(-0.5), "machine", { ...clip, timeBasis: "unknown" })).toBeNull();
  });
  test("is counted in real seconds: slow motion stretches the frames between", () => {
    const slow = { ...clip, frameTimes: { ...clip.frameTimes, timeBaseDen: 30 }, realSecondsPerFileSecond: 1 / 8 };
    expect(heardRelease(at(-0.5), "machine", slow)).toEqual(heardRelease(at(-0.5), "machine", clip));
  });
  test("is not there when the film began later than the ball left", () => {
    const late = { ...clip, frameTimes: { ...clip.frameTimes, ticks: clip.frameTimes.ticks.slice(0, 130) } };
    expect(heardRelease({ contact: 125, before: [3] }, "machine", late)).toBeNull();
  });
});
