import fc from "fast-check";
import { mean, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { intervalError, momentOnFrame } from "./interval-error";

const even = (fps: number) => Array.from({ length: 20 }, (_, i) => i / fps);

describe("a moment on a frame", () => {
  it("on even frames it is the frame's own time with P over the root of twelve", () => {
    fc.assert(
      fc.property(fc.integer({ min: 15, max: 1000 }), fc.integer({ min: 0, max: 19 }), (fps, frame) => {
        const moment = momentOnFrame(even(fps), frame);
        expect(moment?.seconds).toBeCloseTo(frame / fps, 9);
        expect(moment?.sdSeconds).toBeCloseTo(1 / fps / Math.sqrt(12), 9);
      }),
    );
  });
  it("where a file goes from normal to slow, simulated moments agree in middle and spread", () => {
    const seconds = [0, 1 / 30, 2 / 30, 2 / 30 + 1 / 240, 2 / 30 + 2 / 240];
    const random = seededRandom("moments");
    const nearest = Array.from({ length: 40_000 }, () => random.uniform() * (2 / 30 + 2 / 240)).filter((at) => {
      const gaps = seconds.map((it) => Math.abs(it - at));
      return gaps.indexOf(Math.min(...gaps)) === 2;
    });
    const moment = momentOnFrame(seconds, 2);
    expect(mean(nearest)).toBeCloseTo(moment?.seconds ?? NaN, 3);
    expect(sampleStandardDeviation(nearest) / (moment?.sdSeconds ?? NaN)).toBeCloseTo(1, 1);
    expect(moment?.seconds).toBeLessThan(2 / 30);
  });
  it("a lone frame, a frame that is not there and times that stand still say nothing", () => {
    expect(momentOnFrame([1], 0)).toBeNull();
    expect(momentOnFrame(even(240), 20)).toBeNull();
    expect(momentOnFrame(even(240), -1)).toBeNull();
    expect(momentOnFrame([0, 0, 1], 1)).toBeNull();
    expect(momentOnFrame([0, NaN, 1], 0)).toBeNull();
  });
});

describe("the error of an interval", () => {
  it("no order of its ends changes it, and a larger doubt never makes it smaller", () => {
    const end = fc.record({ sdSeconds: fc.double({ min: 0, max: 0.1, noNaN: true }), periodSeconds: fc.double({ min: 0.001, max: 0.05, noNaN: true }) });
    fc.assert(
      fc.property(end, end, (a, b) => {
        expect(intervalError(a, b)).toEqual(intervalError(b, a));
        const wider = intervalError({ ...a, sdSeconds: a.sdSeconds + 0.01 }, b)?.sdSeconds ?? NaN;
        expect(wider).toBeGreaterThanOrEqual(intervalError(a, b)?.sdSeconds ?? NaN);
      }),
    );
  });
  it("ends on two clips of different rates each bring their own frames", () => {
    const both = intervalError({ sdSeconds: 0, periodSeconds: 1 / 60 }, { sdSeconds: 0, periodSeconds: 1 / 240 });
    expect(both?.sdSeconds).toBeCloseTo(Math.hypot(1 / 60, 1 / 240) / Math.sqrt(12), 12);
    expect(both?.mostSeconds).toBeCloseTo((1 / 60 + 1 / 240) / 2, 12);
  });
  it("an end that nobody knows leaves it unknown; a frame interval of nothing is refused", () => {
    expect(intervalError({ sdSeconds: NaN, periodSeconds: 0.01 }, { sdSeconds: 0, periodSeconds: 0.01 })).toBeNull();
    expect(() => intervalError({ sdSeconds: 0, periodSeconds: 0 }, { sdSeconds: 0, periodSeconds: 0.01 })).toThrow(RangeError);
  });
});
