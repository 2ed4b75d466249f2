import { describe, expect, test } from "vitest";
import type { FrameTimes } from "./frame-times";
import { realTimeOf } from "./filmed-rate";

const evenTimes = (fps: number, count = 120): FrameTimes => ({ timeBaseNum: 1, timeBaseDen: 90000, ticks: Array.from({ length: count }, (_, i) => Math.round((i * 90000) / fps)) });

describe("real time of a file", () => {
  test("240 frames a second that play at 30, or at 29.97, are an eighth of real time", () => {
    expect(realTimeOf(evenTimes(30), "240")).toEqual({ realSecondsPerFileSecond: 1 / 8, timeBasis: "stated" });
    expect(realTimeOf(evenTimes(29.97), "240")).toEqual({ realSecondsPerFileSecond: 1 / 8, timeBasis: "stated" });
    expect(realTimeOf(evenTimes(30), "120").realSecondsPerFileSecond).toBe(1 / 4);
  });

  test("a file that holds its 240 a second is taken as it is, also when slow motion was said", () => {
    expect(realTimeOf(evenTimes(240), "as-file")).toEqual({ realSecondsPerFileSecond: 1, timeBasis: "measured" });
    expect(realTimeOf(evenTimes(240), "240").realSecondsPerFileSecond).toBe(1);
    expect(realTimeOf(evenTimes(240), "120").realSecondsPerFileSecond).toBe(1);
  });

  test("a file that says itself how fast it was filmed needs no answer", () => {
    expect(realTimeOf(evenTimes(30), "as-file", 240)).toEqual({ realSecondsPerFileSecond: 1 / 8, timeBasis: "measured" });
  });

  test("nobody knows the time of a file with slow and normal stretches, of one frame, or when nobody says", () => {
    const mixed = { ...evenTimes(30), ticks: Array.from({ length: 60 }, (_, i) => (i < 40 ? i * 3000 : 120000 + (i - 40) * 750)) };
    expect(realTimeOf(mixed, "240").timeBasis).toBe("unknown");
    expect(realTimeOf({ timeBaseNum: 1, timeBaseDen: 30, ticks: [0] }, "as-file").timeBasis).toBe("unknown");
    expect(realTimeOf(evenTimes(30), "unknown").timeBasis).toBe("unknown");
  });

  test("a file of even times without slow motion keeps its mixed intervals as they are", () => {
    const phone = { timeBaseNum: 1, timeBaseDen: 600, ticks: [0, 20, 40, 61, 80, 100, 140, 160] };
    expect(realTimeOf(phone, "as-file")).toEqual({ realSecondsPerFileSecond: 1, timeBasis: "measured" });
  });
});
