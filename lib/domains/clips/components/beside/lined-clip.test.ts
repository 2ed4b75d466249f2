import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EventId, EventView } from "../../view";
import { besideClip } from "./beside-clip.fixture";
import { commonSeconds, frameAt, isBeyond, lineUp, linedClip, ownSeconds } from "./lined-clip";
import { matchedStretches, toCommon, toOwn } from "./stretches";

const even = (fps: number, count: number) => Array.from({ length: count }, (_, i) => Math.round((i * 90_000) / fps));
const event = (event: EventId, frameIndex: number, ticks: readonly number[]): EventView => ({ event, frameIndex, tick: ticks[frameIndex] ?? 0, source: "coach", sdSeconds: null });
const at = (ticks: readonly number[], contact: number, more: Partial<Parameters<typeof besideClip>[0]> = {}) =>
  besideClip({ ticks, events: [event("contact", contact, ticks)], ...more });
const uneven = [0, 375, 900, 1125, 1600, 2250, 2600, 3100, 3375];

describe("clips on one clock", () => {
  test("N54: four clips of different rates, one uneven and one in slow motion, all read 0.000 at contact", () => {
    const clips = [at(even(240, 400), 200, { id: "a" }), at(even(60, 90), 40, { id: "b" }), at(uneven, 5, { id: "c" }), at(even(30, 400), 222, { id: "d", realSecondsPerFileSecond: 1 / 8 })];
    for (const lined of lineUp(clips, false)) expect(commonSeconds(lined, frameAt(lined, 0))).toBe(0);
  });
  test("N13: an instant shows of each clip the frame nearest to it in real time, whatever its rate", () => {
    const lined = lineUp([at(even(240, 400), 200, { id: "a" }), at(uneven, 5, { id: "c" }), at(even(30, 400), 222, { id: "d", realSecondsPerFileSecond: 1 / 8 })], false);
    fc.assert(
      fc.property(fc.double({ min: -2, max: 2, noNaN: true }), (seconds) => {
        for (const it of lined) {
          const shown = Math.abs(ownSeconds(it, frameAt(it, seconds)) - seconds);
          const frames = Array.from({ length: it.frameCount }, (_, i) => Math.abs(ownSeconds(it, i) - seconds));
          expect(shown).toBeLessThanOrEqual(Math.min(...frames) + 1e-9);
        }
      }),
    );
  });
  test("slow motion counts real seconds: eight frames of a file that plays 240 at 30 are a thirtieth of a second", () => {
    const slow = linedClip(at(even(30, 400), 222, { realSecondsPerFileSecond: 1 / 8 }));
    expect(ownSeconds(slow, 230)).toBeCloseTo(1 / 30, 9);
  });
  test("a clip without contact, or without known time, is not lined up and says why", () => {
    expect(linedClip(besideClip({ ticks: uneven, events: [] })).notLined).toBe("no-contact");
    expect(linedClip(at(uneven, 5, { timeBasis: "unknown" })).notLined).toBe("time-unknown");
  });
  test("beyond its film a clip stays on its last frame and is said to be beyond", () => {
    const short = linedClip(at(uneven, 5));
    expect(frameAt(short, 5)).toBe(8);
    expect(isBeyond(short, 5)).toBe(true);
    expect(isBeyond(short, ownSeconds(short, 8))).toBe(false);
  });
});

describe("stretched to match", () => {
  const names = ["load", "toe", "plant", "launch", "extension", "finish"] as const;
  const swing = fc.array(fc.double({ min: 0.01, max: 0.4, noNaN: true }), { minLength: 6, maxLength: 6 }).map((steps) => {
    let time = -steps.slice(0, 4).reduce((a, b) => a + b, 0);
    const timed = names.slice(0, 4).map((event, i) => ({ event: event as EventId, seconds: (time += steps[i] ?? 0) - (steps[3] ?? 0) / 2 }));
    const extension = steps[4] ?? 0.1;
    return [...timed, { event: "contact" as EventId, seconds: 0 }, { event: "extension" as EventId, seconds: extension }, { event: "finish" as EventId, seconds: extension + (steps[5] ?? 0.1) }];
  });
  test("every shared event falls on its twin, contact stays 0, and no instant changes places with another", () => {
    fc.assert(
      fc.property(swing, swing, fc.double({ min: -2, max: 2, noNaN: true }), fc.double({ min: 0.001, max: 1, noNaN: true }), (own, common, seconds, later) => {
        const stretches = matchedStretches(own, common);
        own.forEach(({ seconds: it }, i) => expect(toCommon(stretches, it)).toBeCloseTo(common[i]?.seconds ?? NaN, 9));
        expect(toCommon(stretches, 0)).toBe(0);
        expect(toCommon(stretches, seconds + later)).toBeGreaterThan(toCommon(stretches, seconds));
        expect(toOwn(stretches, toCommon(stretches, seconds))).toBeCloseTo(seconds, 6);
      }),
    );
  });
  test("an event that comes in another order is left out rather than turning time round", () => {
    const own = [{ event: "toe" as const, seconds: -0.3 }, { event: "load" as const, seconds: -0.2 }];
    const common = [{ event: "load" as const, seconds: -0.4 }, { event: "toe" as const, seconds: -0.25 }];
    expect(matchedStretches(own, common)).toEqual([{ own: -0.2, common: -0.4 }, { own: 0, common: 0 }]);
  });
  test("it is the first clip's time that counts, and the frame shown still tells its own seconds", () => {
    const ticks = even(240, 400);
    const clips = [
      besideClip({ id: "a", ticks, events: [event("plant", 150, ticks), event("contact", 200, ticks)] }),
      besideClip({ id: "b", ticks, events: [event("plant", 170, ticks), event("contact", 200, ticks)] }),
    ];
    const [first, second] = lineUp(clips, true);
    if (!first || !second) throw new Error("two clips");
    expect(frameAt(second, commonSeconds(first, 150))).toBe(170);
    expect(ownSeconds(second, 170)).toBeCloseTo(-0.125, 9);
  });
});
