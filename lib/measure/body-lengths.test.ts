import { expect, it } from "vitest";
import { bodyLength, type LengthId } from "@/lib/measure/body-lengths";
import { medianSdFactor, percentile } from "@/lib/measure/order-statistics";
import { filmed, hitter, torso, type Filming, type Places } from "@/lib/measure/swing.fixture";
import { tracksOf } from "@/lib/measure/tracks";

function lengthOf(id: LengthId, placesAt: (seconds: number) => Places, filming: Filming = {}) {
  const { clip, swing } = filmed(placesAt, filming);
  const tracks = tracksOf(clip, swing.side);
  return tracks && bodyLength(id, tracks, swing.events, () => 2);
}
const within = (from: number, to: number, places: (seconds: number) => Places) => (t: number) => (t > from && t < to ? places(t) : {});

it("the torso is the median over the quarter second up to the stance, and later frames do not count", () => {
  const length = lengthOf("T", (t) => torso(0, 100, [0, t <= -0.999 ? 100 : 60]));
  expect([length?.value, length?.isRough]).toEqual([100, false]);
});
it("without stance frames it is taken before toe touch, rough, and without those before contact, late, with twice the doubt", () => {
  const rough = lengthOf("T", within(-0.501, -0.498, () => torso()));
  const late = lengthOf("T", within(-0.101, -0.098, () => torso()));
  const still = lengthOf("T", within(-1.001, -0.998, () => torso()));
  expect([rough?.isRough, rough?.isLate, late?.isRough, late?.isLate]).toEqual([true, false, true, true]);
  expect(rough?.sd).toBeCloseTo(2 * (still?.sd ?? NaN), 9);
  expect(still?.sd).toBeCloseTo(2, 9);
  expect(lengthOf("T", within(0.01, 1, () => torso()))).toBeNull();
});
it("the side-view foot is 0.52 of the torso", () => {
  const [foot, trunk] = [lengthOf("Fs", hitter), lengthOf("T", hitter)];
  expect(foot?.value).toBeCloseTo(0.52 * (trunk?.value ?? NaN), 12);
  expect(foot?.sd).toBeCloseTo(0.52 * (trunk?.sd ?? NaN), 12);
});
it("the bat is its 95th percentile from the stance on; under ten frames rough, under three none", () => {
  const bat = (length: number): Places => ({ knob: [0, 0], tip: [0, length] });
  expect(lengthOf("Lb", (t) => bat(t < -1.01 ? 500 : 80))?.value).toBeCloseTo(80, 9);
  const few = lengthOf("Lb", within(-0.07, -0.045, () => bat(80)));
  expect([few?.isRough, few?.value]).toEqual([true, 80]);
  expect(lengthOf("Lb", within(-0.07, -0.064, () => bat(80)))).toBeNull();
});
it("a bat placed around contact only, where it points at the camera, has no length; one frame away from contact gives it", () => {
  const bat = (t: number): Places => ({ knob: [0, 0], tip: [0, t < -0.04 ? 80 : 30] });
  expect(lengthOf("Lb", within(-0.04, 0.04, bat))).toBeNull();
  expect(lengthOf("Lb", (t) => (Math.abs(t) < 0.009 || Math.abs(t + 0.1) < 0.001 ? bat(t) : {}))?.value).toBeGreaterThan(60);
});
it("a length that is not three of its SDs long is no length", () => {
  expect(lengthOf("T", () => torso(0, 100, [0, 1]))).toBeNull();
});
it("percentiles lie linearly between order statistics", () => {
  expect(percentile([3, 1, 2, 4], 0.95)).toBeCloseTo(3.85, 12);
  expect(() => percentile([1], 2)).toThrow(RangeError);
});
it("the SD of a median is exact for one and two values and within 3 % of the exact order statistic for three and four", () => {
  expect(medianSdFactor(1)).toBeCloseTo(1, 12);
  expect(medianSdFactor(2)).toBeCloseTo(Math.SQRT1_2, 12);
  expect(Math.abs(medianSdFactor(3) / Math.sqrt(0.4487) - 1)).toBeLessThan(0.03);
  expect(Math.abs(medianSdFactor(4) / Math.sqrt(0.2982) - 1)).toBeLessThan(0.03);
});
