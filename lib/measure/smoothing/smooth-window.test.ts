import SavitzkyGolay from "ml-savitzky-golay";
import { describe, expect, it } from "vitest";
import { seededRandom } from "@/lib/core/random";
import { meanOf, sampleSd } from "@/lib/measure/mean-and-sd";
import { bestGuesses } from "@/lib/measure/smoothing/best-guess";
import { parabolaFits, parabolaWeights, smoothThrough, weightIn, type ParabolaFit } from "@/lib/measure/smoothing/parabola-fit";
import { leastReachSeconds, WIDENINGS } from "@/lib/measure/smoothing/reach";
import { smoothedNoise } from "@/lib/measure/smoothing/window-noise";

const RATE = 240;
const COUNT = 121;
const seconds = Float64Array.from({ length: COUNT }, (_, i) => i / RATE - 0.25);
const sd = new Float64Array(COUNT).fill(1);
const knownIn = (values: Float64Array) => Uint8Array.from(values, (value) => (Number.isNaN(value) ? 0 : 1));
const fitsOf = (values: Float64Array, times = seconds) => parabolaFits(knownIn(values), times, WIDENINGS.map((widening) => widening * leastReachSeconds(1 / RATE)));
const smooth = (values: Float64Array, which: "least" | "wide" = "least") => {
  const fits = fitsOf(values);
  if (which === "wide") return bestGuesses(fits, [values], sd, 0, 0, COUNT)[0]!;
  const output = new Float64Array(COUNT);
  smoothThrough(fits[0]!, values, output);
  return output;
};
const rms = (values: Float64Array) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

describe("smoothing by parabolas of least squares", () => {
  it("is Savitzky and Golay's with even times (second opinion: ml-savitzky-golay)", () => {
    const random = seededRandom(4);
    const values = Float64Array.from(seconds, (t) => Math.sin(9 * t) + random.normal());
    const theirs = SavitzkyGolay(Array.from(values), 1 / RATE, { windowSize: 9, polynomial: 2, derivative: 0, pad: "none" }) as unknown as number[];
    const ours = smooth(values);
    theirs.forEach((value, i) => expect(ours[i + 4]).toBeCloseTo(value, 7));
  });
  it("leaves a parabola as it is, up to its ends and across holes", () => {
    const values = Float64Array.from(seconds, (t, i) => (i % 11 === 5 ? NaN : 3 - 2 * t + 40 * t * t));
    for (const which of ["least", "wide"] as const) smooth(values, which).forEach((value, i) => (Number.isNaN(values[i]!) ? expect(value).toBeNaN() : expect(value).toBeCloseTo(values[i]!, 8)));
  });
  it("leaves less noise on a flat curve the farther it looks, and follows a bend where it must", () => {
    const random = seededRandom(5);
    const noise = seconds.map(() => random.normal());
    expect(rms(smooth(noise))).toBeLessThan(0.65);
    expect(rms(smooth(noise, "wide"))).toBeLessThan(0.6 * rms(smooth(noise)));
    const bend = seconds.map((t) => 60 * Math.exp(-((t / 0.03) ** 2)));
    expect(Math.max(...smooth(bend, "wide"))).toBeGreaterThan(57);
  });
  it("smooths a stretch as it smooths the whole, also far from the time's zero", () => {
    const random = seededRandom(8);
    const late = seconds.map((time) => time + 40);
    const values = seconds.map(() => 500 + 20 * random.normal());
    const [whole, part] = [new Float64Array(COUNT), new Float64Array(COUNT).fill(NaN)];
    smoothThrough(fitsOf(values)[0]!, values, whole);
    smoothThrough(fitsOf(values, late)[0]!, values, part, 40, 70);
    for (let i = 40; i < 70; i++) expect(part[i]).toBeCloseTo(whole[i]!, 6);
  });
  it("refuses weights of fewer than five samples", () => {
    expect(() => parabolaWeights(4, 2)).toThrow(RangeError);
    expect(() => parabolaWeights(5, 5)).toThrow(RangeError);
  });
});

describe("noise drawn through the smoothing", () => {
  /** SD of a smoothed sample whose errors are alike by `alike` from one to the next, from the weights alone. */
  const expectedSd = (fit: ParabolaFit, own: Float64Array, alike: number, i: number) => {
    let variance = 0;
    for (let a = 0; a < COUNT; a++) for (let b = 0; b < COUNT; b++) variance += weightIn(fit, i, a) * weightIn(fit, i, b) * own[a]! * own[b]! * alike ** Math.abs(a - b);
    return Math.sqrt(variance);
  };
  const cases = [
    { name: "even and alike doubtful", alike: 0.4, known: sd, own: sd.map(() => 2), times: seconds },
    { name: "with holes and guessed points", alike: 0, known: sd.map((_, i) => (i % 9 === 4 ? NaN : 1)), own: sd.map((_, i) => (i % 4 ? 2 : 5)), times: seconds },
    { name: "at uneven times", alike: 0.4, known: sd, own: sd.map(() => 2), times: seconds.map((time, i) => time + (i % 2 ? 0.001 : 0)) },
  ];
  it.each(cases)("is as large as its weights say: $name", ({ alike, known, own, times }) => {
    const fit = fitsOf(known, times)[0]!;
    const noise = smoothedNoise(fit, own, alike, 1 / RATE, 0, COUNT);
    const base = known.map((value) => (Number.isNaN(value) ? NaN : 7));
    const drawn = Array.from({ length: 3000 }, (_, draw) => {
      const output = new Float64Array(COUNT);
      noise.add(draw * 131, base, output, 0, COUNT);
      return output;
    });
    for (const i of [0, 3, 60, 119]) {
      const values = drawn.map((output) => output[i]!);
      expect(Math.abs(meanOf(values) - 7)).toBeLessThan(0.2);
      expect(sampleSd(values)! / expectedSd(fit, own, alike, i)).toBeGreaterThan(0.93);
      expect(sampleSd(values)! / expectedSd(fit, own, alike, i)).toBeLessThan(1.07);
    }
  });
  it("is the same, to the six digits that the pool keeps, whether taken ready from the pool or summed up from the errors of the frames", () => {
    const fit = fitsOf(sd)[0]!;
    const [ready, summed] = [new Float64Array(COUNT), new Float64Array(COUNT)];
    const zero = new Float64Array(COUNT);
    smoothedNoise(fit, sd, 0.5, 1 / RATE, 0, COUNT).add(99, zero, ready, 0, COUNT);
    smoothedNoise(fit, sd.map((_, i) => 1 + i * 1e-12), 0.5, 1 / RATE, 0, COUNT).add(99, zero, summed, 0, COUNT);
    ready.forEach((value, i) => expect(value).toBeCloseTo(summed[i]!, 5));
  });
});
