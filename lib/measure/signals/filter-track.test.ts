import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { filterTwoPass } from "@/lib/measure/signals/butterworth";
import { cubicSpline } from "@/lib/measure/signals/cubic-spline";
import { filterTrack, planTrackFilter } from "@/lib/measure/signals/filter-track";
import { piecesOf } from "@/lib/measure/signals/pieces";
import { evenTimes, isUneven } from "@/lib/measure/signals/resample";

const even = (count: number, rateHz = 240, from = 0) => Array.from({ length: count }, (_, i) => from + i / rateHz);
const wave = (seconds: readonly number[]) => Float64Array.from(seconds, (t) => 100 * Math.sin(2 * Math.PI * 1.5 * t));
const holed = (values: Float64Array, ...frames: number[]) => values.map((value, i) => (frames.includes(i) ? NaN : value));

describe("the runs of a track", () => {
  it("go on over a gap of three intervals and end at a longer one", () => {
    const seconds = even(40);
    expect(piecesOf(holed(wave(seconds), 10, 11), seconds, 1 / 240, null).length).toBe(1);
    const [first, second] = piecesOf(holed(wave(seconds), 10, 11, 12), seconds, 1 / 240, null);
    expect([first?.frames.at(-1), second?.frames[0]]).toEqual([9, 13]);
  });
  it("never go across contact; its own frame ends one and starts the next", () => {
    const seconds = even(40, 240, -20 / 240);
    const [before, after] = piecesOf(wave(seconds), seconds, 1 / 240, 0);
    expect([before?.side, before?.frames.at(-1), after?.side, after?.frames[0]]).toEqual(["before", 20, "after", 20]);
    const [until, from] = piecesOf(wave(seconds), seconds, 1 / 240, 0.3 / 240);
    expect([until?.frames.at(-1), from?.frames[0]]).toEqual([20, 21]);
  });
});

describe("uneven times", () => {
  it("are those with an interval more than 2 % off the median", () => {
    const seconds = even(20);
    const moved = (share: number) => seconds.map((t, i) => (i === 7 ? t + share / 240 : t));
    expect([0, 0.019, 0.021, -0.021].map((share) => isUneven(moved(share), 1 / 240))).toEqual([false, false, true, true]);
  });
  it("become even ones from the same first to the same last sample", () => {
    const times = evenTimes([0, 0.9, 2.2, 3, 4.3], 1);
    expect([times[0], times.at(-1), times.length]).toEqual([0, 4.3, 5]);
  });
});

describe("a filtered track", () => {
  it("over even times without a hole is the plain filter's row", () => {
    const seconds = even(90);
    const track = filterTrack(wave(seconds), seconds, null, 10);
    expect(track.values).toEqual(filterTwoPass(wave(seconds), 10, 240));
    expect(track.reason).toBeNull();
  });
  it("before contact does not know what comes after it, nor the other way", () => {
    const seconds = even(120, 240, -0.25);
    const jump = wave(seconds).map((value, i) => (seconds[i]! > 1e-9 ? value + 500 : value));
    const [plain, jumped] = [wave(seconds), jump].map((values) => filterTrack(values, seconds, 0, 20));
    for (let i = 0; i <= 60; i++) expect(jumped!.values[i]).toBe(plain!.values[i]);
    expect(jumped!.pieces.map(({ side, frames }) => [side, frames.length])).toEqual([["before", 61], ["after", 60]]);
    expect(jumped!.values[60]).toBe(jumped!.pieces[0]!.values.at(-1));
    expect(jumped!.pieces[1]!.values[0]).not.toBe(jumped!.values[60]);
  });
  it("over uneven times follows the movement that the filter over even times gives", () => {
    const random = seededRandom("uneven");
    const seconds = even(200).map((t, i) => (i === 0 || i === 199 ? t : t + (0.35 * (random.uniform() - 0.5)) / 240));
    const steady = cubicSpline(even(200), filterTwoPass(wave(even(200)), 10, 240)!);
    const uneven = filterTrack(wave(seconds), seconds, null, 10).values;
    uneven.forEach((value, i) => expect(Math.abs(value - steady.value(seconds[i]!))).toBeLessThan(0.05));
  });
  it("is filled in nowhere: frames without the point stay without it, though the filter reads across small holes", () => {
    const seconds = even(80);
    const filtered = filterTrack(holed(wave(seconds), 20, 21, 40), seconds, null, 10).values;
    expect([...filtered.keys()].filter((i) => Number.isNaN(filtered[i]))).toEqual([20, 21, 40]);
    const whole = filterTwoPass(wave(seconds), 10, 240)!;
    filtered.forEach((value, i) => {
      if (!Number.isNaN(value)) expect(Math.abs(value - whole[i]!)).toBeLessThan(0.05);
    });
  });
  it("has no value in a run of fewer than twelve samples, and says so when there is no other", () => {
    const seconds = even(40);
    const values = holed(wave(seconds), 11, 12, 13);
    expect([...filterTrack(values, seconds, null, 10).values].findIndex((value) => !Number.isNaN(value))).toBe(14);
    expect(filterTrack(wave(even(11)), even(11), null, 10).reason).toBe("short-piece");
  });
  it("planned once and used again gives the same, whatever was filtered between", () => {
    const seconds = even(90, 120, -0.5).map((t, i) => t + (i % 5 === 2 ? 0.001 : 0));
    const plan = planTrackFilter(wave(seconds), seconds, 0, 10);
    const [one, two, three] = [0, 1, 2].map(() => new Float64Array(90));
    plan.filter(wave(seconds), one!);
    plan.filter(wave(seconds).map((value) => -3 * value), two!);
    plan.filter(wave(seconds), three!);
    expect(three).toEqual(one);
    expect(one).toEqual(filterTrack(wave(seconds), seconds, 0, 10).values);
  });
  it("moves and scales with the track", () => {
    const seconds = even(60).map((t, i) => t + (i % 7 === 3 ? 0.0005 : 0));
    fc.assert(fc.property(fc.double({ min: -9, max: 9, noNaN: true }), fc.double({ min: -900, max: 900, noNaN: true }), (zoom, shift) => {
      const [plain, changed] = [wave(seconds), wave(seconds).map((value) => zoom * value + shift)].map((values) => filterTrack(values, seconds, null, 10).values);
      changed!.forEach((value, i) => expect(Math.abs(value - zoom * plain![i]! - shift)).toBeLessThan(1e-6));
    }));
  });
  it.each([
    ["no frames", [], [], "no-rate"],
    ["one frame", [1], [0], "no-rate"],
    ["times that go back", Array(20).fill(1), [...even(19), 0.01], "no-rate"],
    ["NaN times", Array(20).fill(1), Array(20).fill(NaN), "no-rate"],
    ["no points", Array(20).fill(NaN), even(20), "no-points"],
    ["infinite points", Array(20).fill(Infinity), even(20), "no-points"],
    ["15 frames a second", Array(60).fill(1), even(60, 15), "slow-frames"],
  ] as const)("of %s is unknown and says why", (_, values, seconds, reason) => {
    const track = filterTrack(Float64Array.from(values), seconds as readonly number[], 0, 10);
    expect([track.reason, track.pieces, track.values.every(Number.isNaN)]).toEqual([reason, [], true]);
  });
  it("refuses a cut-off that is not above 0", () => {
    for (const hz of [0, -1, NaN, Infinity]) expect(() => filterTrack(new Float64Array(20), even(20), 0, hz)).toThrow(RangeError);
  });
  it("takes ten thousand frames", () => {
    const seconds = even(10_000);
    expect(filterTrack(wave(seconds), seconds, 20, 10).values.every(Number.isFinite)).toBe(true);
  });
});
