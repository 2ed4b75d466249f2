import fc from "fast-check";
import { expect, test } from "vitest";
import { frameShownAt, seekPlaces } from "./frame-shown";

const uneven = fc.array(fc.integer({ min: 2000, max: 40_000 }), { minLength: 1, maxLength: 60 }).map((gaps) => {
  let at = 0;
  return [0, ...gaps.map((gap) => (at += gap))];
});

test("a presented time tells its frame on even and uneven clips, also when the browser rounds it to the microsecond", () => {
  fc.assert(fc.property(uneven, fc.nat(1000), fc.integer({ min: -1, max: 1 }), (times, which, off) => {
    const frame = which % times.length;
    expect(frameShownAt(times, ((times[frame] ?? 0) + off) / 1e6)).toBe(frame);
  }));
});
test("a time at which no frame starts is no frame's", () => {
  fc.assert(fc.property(uneven, fc.nat(1000), (times, which) => {
    const i = which % (times.length - 1);
    expect(frameShownAt(times, ((times[i] ?? 0) + (times[i + 1] ?? 0)) / 2e6)).toBeNull();
  }));
});
test("every place an element is sent to lies inside the frame that is wanted", () => {
  fc.assert(fc.property(uneven, fc.nat(1000), (times, which) => {
    const frame = which % (times.length - 1);
    for (const place of seekPlaces(times, frame)) {
      expect(place * 1e6).toBeGreaterThan(times[frame] ?? 0);
      expect(place * 1e6).toBeLessThan(times[frame + 1] ?? 0);
    }
  }));
});
