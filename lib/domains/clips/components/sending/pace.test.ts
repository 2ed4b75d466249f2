import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { paceOf, sayPace, withSample, type PaceSample } from "./pace";

const collect = (all: readonly PaceSample[]) => all.reduce<readonly PaceSample[]>((kept, it) => withSample(kept, it), []);

describe("the pace of a sending", () => {
  test("of an even line is its speed, and the time left is what is left over it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5_000_000 }), fc.integer({ min: 2, max: 60 }), fc.integer({ min: 0, max: 10 ** 9 }), (perSecond, seconds, left) => {
        const samples = collect(Array.from({ length: seconds + 1 }, (_, s) => ({ atMs: s * 1000, bytes: s * perSecond })));
        const pace = paceOf(samples, seconds * perSecond + left);
        expect(pace?.bytesPerSecond).toBeCloseTo(perSecond, 6);
        expect(pace?.secondsLeft).toBeCloseTo(left / perSecond, 6);
      }),
    );
  });
  test("forgets what was ten seconds ago: a line that got slower is told as it is now", () => {
    const fast = Array.from({ length: 10 }, (_, s) => ({ atMs: s * 1000, bytes: s * 1e6 }));
    const slow = Array.from({ length: 12 }, (_, s) => ({ atMs: 10_000 + s * 1000, bytes: 1e7 + s * 1e4 }));
    expect(paceOf(collect([...fast, ...slow]), 2e7)?.bytesPerSecond).toBeCloseTo(1e4, 6);
  });
  test("is not told before it is known, when nothing moves, and begins anew when bytes go back", () => {
    expect(paceOf(collect([{ atMs: 0, bytes: 0 }, { atMs: 400, bytes: 5e6 }]), 1e7)).toBeNull();
    expect(paceOf(collect([{ atMs: 0, bytes: 7 }, { atMs: 9000, bytes: 7 }]), 1e7)).toBeNull();
    expect(collect([{ atMs: 0, bytes: 900 }, { atMs: 2000, bytes: 100 }])).toEqual([{ atMs: 2000, bytes: 100 }]);
  });
  test("is said in steps a person can use", () => {
    expect(sayPace({ bytesPerSecond: 2_400_000, secondsLeft: 37 })).toBe("2.4 MB a second, about 40 s left");
    expect(sayPace({ bytesPerSecond: 80_000, secondsLeft: 200 })).toBe("80 KB a second, about 4 min left");
    expect(sayPace({ bytesPerSecond: 80_000, secondsLeft: 2 })).toBe("80 KB a second, nearly there");
  });
});
