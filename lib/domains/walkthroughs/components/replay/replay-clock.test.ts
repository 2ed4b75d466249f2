import { describe, expect, test } from "vitest";
import type { Stretch } from "../../rules";
import { ReplayClock, type Voice } from "./replay-clock";

/** A voice that plays by its own clock, a little faster or slower than the device's. */
class PlayedVoice implements Voice {
  src = "";
  playbackRate = 1;
  paused = true;
  readyState = 4;
  private at = 0;
  constructor(private readonly lengthS: number) {}
  get currentTime() {
    return this.at;
  }
  set currentTime(seconds: number) {
    this.at = seconds;
  }
  get ended() {
    return this.at >= this.lengthS;
  }
  play() {
    this.paused = false;
    return Promise.resolve();
  }
  pause() {
    this.paused = true;
  }
  pass(seconds: number) {
    if (!this.paused) this.at = Math.min(this.lengthS, this.at + seconds * this.playbackRate);
  }
}

const stretches: readonly Stretch[] = [{ id: "a", takeId: "one", fromMs: 2000, toMs: 5000 }, { id: "b", takeId: "two", fromMs: 0, toMs: 2000 }, { id: "c", takeId: "one", fromMs: 5000, toMs: 9000 }];

function opened(lengthS = 8, given = stretches, areThere = () => true) {
  const voice = new PlayedVoice(lengthS);
  const voices = { one: { url: "/one", lengthMs: lengthS * 1000 }, two: { url: null, lengthMs: 0 } };
  const clock = new ReplayClock(voice, given, voices);
  let steady = 1000;
  const pass = (ms: number, voiceRuns = 1) => {
    for (let left = ms; left > 0; left -= 10) {
      steady += 10;
      voice.pass(0.01 * voiceRuns);
      clock.turn(steady, areThere());
    }
  };
  return { voice, clock, pass };
}

describe("the clock of a replay", () => {
  test("is the voice while one is heard, however the device's own clock runs", () => {
    const { voice, clock, pass } = opened();
    clock.play();
    expect(voice.currentTime).toBe(2);
    pass(2000, 1.02);
    expect(clock.ms).toBeCloseTo(2040, 6);
    expect(clock.ms).toBeCloseTo(voice.currentTime * 1000 - 2000, 6);
  });

  test("waits for a voice that has no data yet, and goes on by the device where nobody speaks", () => {
    const { voice, clock, pass } = opened();
    clock.play();
    voice.readyState = 1;
    pass(500, 0);
    expect(clock.ms).toBe(0);
    voice.readyState = 4;
    pass(3000);
    expect(clock.ms).toBeCloseTo(3000, -1);
    // The second stretch has no voice: what the audio element says does not count.
    pass(1500);
    expect(voice.paused).toBe(true);
    expect(clock.ms).toBeGreaterThan(4400);
    pass(700);
    expect([voice.src, voice.paused]).toEqual(["/one", false]);
    expect(voice.currentTime).toBeGreaterThanOrEqual(5);
    // The voice ends after eight seconds, the talk a second later.
    pass(3000);
    expect(voice.ended).toBe(true);
    pass(1200);
    expect([clock.ms, clock.isRunning]).toEqual([9000, false]);
  });

  test("neighbours in one take are heard on without a break", () => {
    const { voice, clock, pass } = opened(20, [{ id: "a", takeId: "one", fromMs: 0, toMs: 1000 }, { id: "b", takeId: "one", fromMs: 1000, toMs: 3000 }]);
    clock.play();
    pass(990);
    voice.pass(0.013);
    const before = voice.currentTime;
    pass(10);
    expect(voice.currentTime).toBeCloseTo(before + 0.01, 6);
  });

  test("goes to any instant, holds there, and plays on at another rate", () => {
    const { voice, clock, pass } = opened();
    clock.seek(6000);
    expect([clock.ms, voice.currentTime, voice.paused]).toEqual([6000, 6, true]);
    pass(500);
    expect(clock.ms).toBe(6000);
    clock.setRate(1.5);
    clock.play();
    pass(1000);
    expect(clock.ms).toBeCloseTo(7500, -1);
    clock.hold();
    pass(1000);
    expect(clock.ms).toBeCloseTo(7500, -1);
    clock.seek(99_000);
    clock.play();
    expect(clock.ms).toBe(0);
  });

  test("after a jump begins with the pictures of where it landed, at the very instant that was asked for, and after a second without them", () => {
    let areThere = true;
    const { voice, clock, pass } = opened(8, stretches, () => areThere);
    clock.play();
    pass(500);
    areThere = false;
    clock.seek(1500);
    expect(voice.paused).toBe(true);
    pass(400);
    expect([clock.ms, voice.currentTime, clock.isRunning]).toEqual([1500, 3.5, true]);
    areThere = true;
    pass(10);
    expect(voice.paused).toBe(false);
    pass(300);
    expect(clock.ms).toBeCloseTo(1800, 6);
    areThere = false;
    clock.seek(200);
    pass(990);
    expect(clock.ms).toBe(200);
    pass(520);
    expect(clock.ms).toBeCloseTo(700, 6);
  });

  test("a jump while it holds waits for nothing, and neither does pressing Play", () => {
    const { voice, clock, pass } = opened(8, stretches, () => false);
    clock.seek(1500);
    clock.play();
    expect(voice.paused).toBe(false);
    pass(100);
    expect(clock.ms).toBeCloseTo(1600, 6);
  });
});
