import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clockSecondsOf } from "../rules";
import { beginPlaying, playTurn, type Played, type Playing } from "./play-turn";
import { rates } from "./play-rates";
import { clockOn } from "./playing-pace";

const FRAMES = 720;
/** Uneven as phones film: every frame up to a third of an interval late, at about 240 a second. */
const uneven = Array.from({ length: FRAMES }, (_, i) => i * 375 + ((i * 7919) % 125));
const clipOf = (realSecondsPerFileSecond = 1) => ({ frameTimes: { timeBaseNum: 1, timeBaseDen: 90_000, ticks: uneven }, realSecondsPerFileSecond, timeBasis: "measured" as const });
/** Pictures of which every one is ready, or one so often. */
const pictures = (every = 1) => ({ frameCount: FRAMES, want: () => undefined, draw: (frame: number) => frame % every === 0 });

function play(played: Played, from: number, turns: readonly number[]): readonly Playing[] {
  let now = beginPlaying(played, from);
  return turns.map((passed) => (now = playTurn(now, played, passed)));
}

describe("playing", () => {
  test("the four rates are real time, a half, a quarter and an eighth of it", () => {
    expect(rates.map(([rate]) => rate)).toEqual([1, 1 / 2, 1 / 4, 1 / 8]);
  });

  test("at each of the four rates the time shown goes on by that part of what has passed, within a frame, however evenly the screen is painted and in whatever slow motion the file plays", () => {
    fc.assert(
      fc.property(fc.constantFrom(...rates.map(([rate]) => rate)), fc.constantFrom(1, 1 / 8, 1 / 4), fc.array(fc.double({ min: 0.004, max: 0.05, noNaN: true }), { minLength: 5, maxLength: 30 }), (rate, slowMotion, turns) => {
        const clip = clipOf(slowMotion);
        const longestFrame = (500 / 90_000) * slowMotion;
        let passed = 0;
        for (const [i, now] of play({ clip, source: pictures(), rate }, 10, turns).entries()) {
          passed += turns[i] ?? 0;
          if (now.frame >= FRAMES - 1) return;
          const shown = clockSecondsOf(clip, now.frame, null) - clockSecondsOf(clip, 10, null);
          const behind = passed * rate - shown;
          expect(behind).toBeGreaterThanOrEqual(-1e-6);
          expect(behind).toBeLessThan(longestFrame);
          expect(now.isSlow).not.toBe(true);
        }
      }),
    );
  });

  test("a second of real time takes a second, two, four and eight", () => {
    const at60 = Array.from({ length: 60 }, () => 1 / 60);
    const shown = rates.map(([rate]) => clockSecondsOf(clipOf(), play({ clip: clipOf(), source: pictures(), rate }, 0, at60).at(-1)?.frame ?? 0, null));
    for (const [i, [rate]] of rates.entries()) expect(Math.abs((shown[i] ?? 0) - rate)).toBeLessThan(0.006);
  });

  test("of pictures that come too slowly only those that are ready are shown, and it says that it is slower than asked", () => {
    const slow = { frameCount: FRAMES, want: () => undefined, draw: (frame: number) => frame <= ready };
    let ready = 0;
    let now = beginPlaying({ clip: clipOf(), source: slow }, 0);
    for (let turn = 0; turn < 60; turn++) {
      ready = turn * 2;
      now = playTurn(now, { clip: clipOf(), source: slow, rate: 1 }, 1 / 60);
      expect(now.frame).toBeLessThanOrEqual(ready);
    }
    expect(now.isSlow).toBe(true);
    expect(now.seconds - clockSecondsOf(clipOf(), now.frame, null)).toBeLessThanOrEqual(0.15 + 1e-9);
  });

  test("the clock that several clips share runs at the rate too, waits for their pictures and never goes back", () => {
    for (const [rate] of rates) {
      let seconds = -0.4;
      for (let turn = 0; turn < 30; turn++) seconds = clockOn(seconds, 1 / 60, rate, Infinity);
      expect(seconds).toBeCloseTo(-0.4 + rate / 2, 9);
      expect(clockOn(seconds, 1 / 60, rate, seconds + 0.001)).toBeCloseTo(seconds + 0.001, 9);
      expect(clockOn(seconds, 1 / 60, rate, seconds - 1)).toBe(seconds);
    }
  });

  test("from the last frame it begins at the first, and a page that was put aside goes on where it stood", () => {
    expect(beginPlaying({ clip: clipOf(), source: pictures() }, FRAMES - 1)).toMatchObject({ frame: 0, seconds: 0 });
    const [aside] = play({ clip: clipOf(), source: pictures(), rate: 1 }, 0, [3600]);
    expect(aside?.seconds).toBeLessThanOrEqual(0.1);
  });
});
