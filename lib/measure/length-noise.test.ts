import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { lengthenedBy, noiseSeen, percentileFreedOfNoise } from "@/lib/measure/length-noise";
import { percentile } from "@/lib/measure/order-statistics";

/** Mean and SD, in SDs of the noise, of what an estimate misses the 95th percentile of the true lengths by. */
function misses(trueLengths: readonly number[], sd: number, freed: (lengths: readonly number[], sd: number) => number, draws = 120) {
  const random = seededRandom("lengths");
  const truth = percentile(trueLengths, 0.95);
  const own = Array.from({ length: draws }, () => (freed(trueLengths.map((length) => length + sd * random.normal()), sd) - truth) / sd);
  return own.reduce((sum, miss) => sum + miss, 0) / draws;
}
const over = (n: number, length: (share: number) => number) => Array.from({ length: n }, (_, i) => length((i + 0.5) / n));
const asItStands = (lengths: readonly number[]) => percentile(lengths, 0.95);

describe("a high percentile of noisy lengths", () => {
  const shapes: readonly [string, (share: number) => number][] = [
    ["a length that never changes", () => 100],
    ["a length that is whole for a third of the frames", (t) => (t < 0.3 ? 100 : 40 + 40 * t)],
    ["a width that opens and closes", (t) => 20 + 80 * Math.sin(Math.PI * t) ** 2],
    ["a width that turns through twice", (t) => 100 * Math.abs(Math.sin(1.5 * Math.PI * t + 0.3))],
  ];
  for (const n of [150, 500]) {
    it.each(shapes)(`${n} frames, %s: freed of noise, the bias is about a third of one frame's SD or less`, (_, shape) => {
      for (const sd of [2, 6]) expect(Math.abs(misses(over(n, shape), sd, percentileFreedOfNoise))).toBeLessThan(0.4);
    });
  }
  it("as it stands, a length that never changes reads more than one and a half SDs too long", () => {
    expect(misses(over(150, () => 100), 2, asItStands)).toBeGreaterThan(1.5);
  });
  it("it is never lengthened, nor shortened by more than noise can do", () => {
    const random = seededRandom("any");
    for (let draw = 0; draw < 200; draw++) {
      const lengths = Array.from({ length: 3 + (draw % 40) }, () => 100 * random.uniform());
      const freed = percentileFreedOfNoise(lengths, 3);
      expect(freed).toBeLessThanOrEqual(asItStands(lengths));
      expect(freed).toBeGreaterThanOrEqual(asItStands(lengths) - 1.7 * 3 - 1e-9);
    }
  });
  it("without noise, or with fewer than ten lengths, it is the percentile as it stands", () => {
    const lengths = over(50, (t) => 60 + 40 * t);
    expect(percentileFreedOfNoise(lengths, 0)).toBe(asItStands(lengths));
    expect(percentileFreedOfNoise(lengths.slice(0, 9), 3)).toBe(asItStands(lengths.slice(0, 9)));
  });
});

describe("noise", () => {
  const seconds = over(2000, (t) => t * 2);
  const random = seededRandom("seen");
  const noisy = (sd: number) => seconds.map((t) => 60 + 30 * Math.sin(3 * t) + sd * random.normal());
  const seen = (values: readonly number[], assumed: number) => noiseSeen(values, values.map(() => assumed ** 2), seconds, 0.05);
  it("that is what is assumed is seen whole, a third of it as a ninth of the variance, none as none", () => {
    expect(seen(noisy(2), 2)).toBeGreaterThan(0.85);
    expect(Math.abs(seen(noisy(2 / 3), 2) - 1 / 9)).toBeLessThan(0.03);
    expect(seen(noisy(0), 2)).toBeLessThan(1e-4);
  });
  it("louder than assumed counts as assumed, and without neighbours it is taken as assumed", () => {
    expect(seen(noisy(6), 2)).toBe(1);
    expect(noiseSeen([1, 2, 3], [1, 1, 1], [0, 1, 2], 0.05)).toBe(1);
  });
  it("lengthens a short vector by s^2 / 2L, within a tenth of that down to five SDs", () => {
    const turn = seededRandom("vector");
    const [length, sd, draws] = [10, 2, 200_000];
    let sum = 0;
    for (let draw = 0; draw < draws; draw++) sum += Math.hypot(length + sd * turn.normal(), sd * turn.normal());
    expect(Math.abs((sum / draws - length) / lengthenedBy(length, sd) - 1)).toBeLessThan(0.1);
    expect(lengthenedBy(0, 2)).toBe(0);
  });
});
