import fc from "fast-check";
import { describe, expect, it } from "vitest";
import library from "@/seed/library/checkpoints.json";
import { IMPOSSIBLE_MARGIN, likelySlowMotion, SLOW_FACTORS, TELLING_BANDS, TELLING_INTERVALS, type TellingId } from "./slow-motion";

const clock = { realSecondsPerFileSecond: 1, fileFps: 30, task: "live" } as const;
const landing = (seconds: number, sdSeconds = 0.005) => [{ id: "plant-to-contact-time" as const, seconds, sdSeconds }];

describe("a clock that cannot be right", () => {
  it("landing to contact of 1.36 s at 30 frames a second asks for 240 and eight times", () => {
    const likely = likelySlowMotion(landing(1.36), clock);
    expect(likely).toMatchObject({ factor: 8, realSecondsPerFileSecond: 1 / 8, filmedFps: 240 });
    expect(likely?.question).toBe("Landing to contact would be 1.36 s. Was this filmed at 240 and slowed 8 times?");
    expect(likely?.secondsThen).toBeCloseTo(0.17, 9);
  });
  it("every usual landing that a phone slowed four or eight times is found again with its factor", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.15, max: 0.26, noNaN: true }), fc.constantFrom([8, 30], [4, 60], [4, 30]), (real, [factor = NaN, fileFps = NaN]) => {
        const likely = likelySlowMotion([...landing(real * factor), { id: "launch-to-contact-time", seconds: real * 0.82 * factor, sdSeconds: 0.01 }], { ...clock, fileFps });
        expect(likely?.factor).toBe(factor);
        expect(likely?.secondsThen).toBeCloseTo(real, 9);
      }),
    );
  });
  it("at 60 frames a second nothing slower than four times is asked, since no phone films at 480", () => {
    expect(likelySlowMotion(landing(1.36), { ...clock, fileFps: 60 })?.factor).toBe(4);
    expect(likelySlowMotion(landing(2.2), { ...clock, fileFps: 60 })).toBeNull();
  });
  it("a time that was stated slow while the file plays as life is far too short, and real speed is asked for", () => {
    const likely = likelySlowMotion(landing(0.2 / 8, 0.001), { ...clock, realSecondsPerFileSecond: 1 / 8, fileFps: 240 });
    expect(likely).toMatchObject({ factor: 1, realSecondsPerFileSecond: 1 });
    expect(likely?.question).toBe("Landing to contact would be 0.03 s. Does the file play at real speed?");
  });
  it("a clip stated as slowed four times that was slowed eight times is told from its landing", () => {
    const likely = likelySlowMotion([...landing(0.55), { id: "launch-to-contact-time", seconds: 0.45, sdSeconds: 0.01 }], { ...clock, realSecondsPerFileSecond: 1 / 4 });
    expect(likely).toMatchObject({ factor: 8 });
    expect(likely?.secondsThen).toBeCloseTo(0.275, 9);
  });
  it("no possible swing is asked about", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.11, max: 0.34, noNaN: true }), fc.constantFrom(1, 1 / 2, 1 / 4, 1 / 8), (seconds, present) => {
        expect(likelySlowMotion(landing(seconds), { ...clock, realSecondsPerFileSecond: present })).toBeNull();
      }),
    );
  });
  it("a doubt as large as the excess asks nothing", () => {
    expect(likelySlowMotion(landing(0.6, 0.05), clock)).toBeNull();
    expect(likelySlowMotion(landing(0.6, 0.01), clock)?.factor).toBe(4);
  });
  it("off a tee a hitter may wait after landing, so only the launch tells", () => {
    const tee = { ...clock, task: "tee" } as const;
    expect(likelySlowMotion(landing(1.36), tee)).toBeNull();
    const launch = [{ id: "launch-to-contact-time" as const, seconds: 1.28, sdSeconds: 0.03 }];
    expect(likelySlowMotion([...landing(3), ...launch], tee)).toMatchObject({ factor: 8, question: "Launch to contact would be 1.28 s. Was this filmed at 240 and slowed 8 times?" });
  });
  it("without the file's own rate it names the factor only", () => {
    expect(likelySlowMotion(landing(1.5), { ...clock, fileFps: null })?.question).toBe("Landing to contact would be 1.50 s. Was this slowed 8 times?");
  });
  it("nothing marked, times that are no times, and times that no phone explains ask nothing", () => {
    expect(likelySlowMotion([], clock)).toBeNull();
    for (const seconds of [NaN, -1, 0, Infinity]) expect(likelySlowMotion(landing(seconds), clock)).toBeNull();
    expect(likelySlowMotion(landing(20), clock)).toBeNull();
    expect(() => likelySlowMotion([], { ...clock, realSecondsPerFileSecond: 0 })).toThrow(RangeError);
  });
});

describe("what is possible", () => {
  it("is the library's bands, adults and youth together, half as long or short again", () => {
    for (const id of Object.keys(TELLING_BANDS) as TellingId[]) {
      const found = library.checkpoints.find((it) => it.id === id);
      const bands = [found?.band, found && "bandYouth" in found ? found.bandYouth : undefined].flatMap((it) => (it ? [it] : []));
      const lowest = Math.min(...bands.map(({ act, ok }) => act?.[0] ?? ok?.[0] ?? NaN));
      const highest = Math.max(...bands.map(({ act }) => act?.[1] ?? NaN));
      expect(TELLING_BANDS[id].act).toEqual([lowest, highest]);
      expect(TELLING_BANDS[id].ok).toEqual([Math.min(...bands.map(({ ok }) => ok?.[0] ?? NaN)), Math.max(...bands.map(({ ok }) => ok?.[1] ?? NaN))]);
      const own = TELLING_INTERVALS.find((it) => it.id === id);
      expect(own?.shortestSeconds).toBeCloseTo(lowest / IMPOSSIBLE_MARGIN, 12);
      expect(own?.longestSeconds).toBeCloseTo(highest * IMPOSSIBLE_MARGIN, 12);
      const tasks = found?.nullWhen.flatMap((rule) => ("is" in rule && rule.fact === "task" ? (rule.is ?? []) : [])) ?? [];
      expect(own?.saysNothingOn).toEqual(tasks);
    }
  });
  it("is told only among factors that phones make", () => {
    expect(SLOW_FACTORS).toEqual([1, 2, 4, 8]);
  });
});
