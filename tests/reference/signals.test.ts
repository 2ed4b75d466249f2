import kept from "ml-savitzky-golay";
import { linearRegression } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { butterworthCoefficients, filterTwoPass } from "@/lib/measure/signals/butterworth";
import { centralDifference, secondDifference } from "@/lib/measure/signals/central-difference";
import { cubicSpline, splineValues } from "@/lib/measure/signals/cubic-spline";
import { lineThrough, residualAnalysis, residualRms } from "@/lib/measure/signals/residual-analysis";
import { savitzkyGolay } from "@/lib/measure/signals/savitzky-golay";
import { cases } from "./signals.json";

const x20 = cases["T5.4"].inputs.x20;

function expectAll(actual: ArrayLike<number>, expected: readonly number[], tolerance: number): void {
  expect(actual.length).toBe(expected.length);
  expected.forEach((value, i) => expect(Math.abs((actual[i] ?? NaN) - value), `at ${i}`).toBeLessThan(tolerance));
}

/** Gain of one section at a frequency, from its coefficients alone. */
function gainOf({ a0, a1, a2, b1, b2 }: ReturnType<typeof butterworthCoefficients>, hz: number, rateHz: number): number {
  const turn = (2 * Math.PI * hz) / rateHz;
  const size = (c0: number, c1: number, c2: number) => Math.hypot(c0 + c1 * Math.cos(turn) + c2 * Math.cos(2 * turn), c1 * Math.sin(turn) + c2 * Math.sin(2 * turn));
  return size(a0, a1, a2) / size(1, -b1, -b2);
}

describe("T5.1 to T5.3 Winter's coefficients", () => {
  it.each([["T5.1", 1], ["T5.2", 2]] as const)("%s: for %i pass(es) at 6 of 60 Hz they are the published ones", (id, passes) => {
    const { expected, tolerance, inputs } = cases[id];
    const own = butterworthCoefficients(inputs.fc, inputs.fs, passes);
    for (const name of ["a0", "a1", "a2", "b1", "b2"] as const) expect(Math.abs(own[name] - expected[name]), name).toBeLessThan(tolerance);
  });
  it.each([[6, 60, "scipy_tan_corrected_fc6_fs60"], [20, 240, "scipy_tan_corrected_fc20_fs240"]] as const)("at %i of %i Hz the sections are those of scipy at the corrected cut-off, and two passes have a gain of 0.7071 there", (fc, fs, name) => {
    const { expected, tolerance } = cases["T5.3"];
    const own = butterworthCoefficients(fc, fs);
    expectAll([own.a0, own.a1, own.a2], expected[name].b, tolerance);
    expectAll([1, -own.b1, -own.b2], expected[name].a, tolerance);
    expect(Math.abs(gainOf(own, fc, fs) ** 2 - expected[name].two_pass_gain_at_fc)).toBeLessThan(tolerance);
    expect(Math.abs(gainOf(own, fc, fs) ** 2 - Math.SQRT1_2)).toBeLessThan(tolerance);
  });
  it("the correction is Winter's, after pre-warping, and not the cut-off divided by 0.802, which is another filter", () => {
    const { b } = cases["T5.3"].expected.scipy_direct_fc_over_C_fc6_fs60;
    expect(Math.abs(butterworthCoefficients(6, 60).a0 - b[0]!)).toBeGreaterThan(0.002);
  });
});

describe("T5.4 two passes over twenty samples", () => {
  const { expected, tolerance } = cases["T5.4"];
  it("at 20 of 240 Hz they give what scipy's filtfilt gives with the same section", () => {
    expectAll(filterTwoPass(Float64Array.from(x20), 20, 240)!, expected.filtfilt_x20_scipy_tan_corrected_fc20_fs240, tolerance);
  });
  it("with the section of butter(2, 0.2), reached by the cut-off whose correction gives it, they give the published row", () => {
    const corrected = (Math.atan(Math.tan(0.1 * Math.PI) * (Math.SQRT2 - 1) ** 0.25) / Math.PI) * 60;
    expectAll(filterTwoPass(Float64Array.from(x20), corrected, 60)!, expected["filtfilt_default(padtype=odd,padlen=9)"], tolerance);
  });
  it("the end does not collapse as two passes from rest do", () => {
    const naive = expected.naive_two_pass_zero_state.at(-1)!;
    const own = filterTwoPass(Float64Array.from(x20), 20, 240)!.at(-1)!;
    expect([Math.abs(naive - 14.2) > 13, Math.abs(own - 14.2) < 0.05]).toEqual([true, true]);
  });
});

describe("T5.4 polynomials and differences over twenty samples", () => {
  const { expected, tolerance } = cases["T5.4"];
  const row = Float64Array.from(x20);
  const interval = 1 / 240;
  it.each([
    ["savgol_5_2", { windowSamples: 5, degree: 2 }, 1],
    ["savgol_7_3", { windowSamples: 7, degree: 3 }, 1],
    ["savgol_5_2_deriv1_delta1/240", { windowSamples: 5, degree: 2, derivative: 1, intervalSeconds: interval }, 1e3],
    ["savgol_7_3_deriv2_delta1/240", { windowSamples: 7, degree: 3, derivative: 2, intervalSeconds: interval }, 1e5],
  ] as const)("%s is the published row, ends and all (tolerance in shares of the row's size)", (name, options, size) => {
    expectAll(savitzkyGolay(row, options)!, expected[name], tolerance * size);
  });
  it("the kernels are (-3, 12, 17, 12, -3)/35 and (-2, 3, 6, 7, 6, 3, -2)/21, as published", () => {
    for (const [windowSamples, degree, weights] of [[5, 2, expected.savgol_coeffs_5_2], [7, 3, expected.savgol_coeffs_7_3]] as const) {
      const pulse = new Float64Array(21);
      pulse[10] = 1;
      const half = (windowSamples - 1) / 2;
      expectAll(savitzkyGolay(pulse, { windowSamples, degree })!.slice(10 - half, 11 + half), weights, tolerance);
    }
  });
  it("a kept library agrees away from the ends, in value and in slope", () => {
    const [value, slope] = [0, 1].map((derivative) => kept(x20, interval, { windowSize: 7, polynomial: 3, derivative }));
    expectAll(savitzkyGolay(row, { windowSamples: 7, degree: 3 })!.slice(3, -3), value!, tolerance);
    expectAll(savitzkyGolay(row, { windowSamples: 7, degree: 3, derivative: 1, intervalSeconds: interval })!.slice(3, -3), slope!, 1e3 * tolerance);
  });
  it.each([[1, "gradient_eo1_dt1/240"], [2, "gradient_eo2_dt1/240"]] as const)("central differences with ends of order %i are numpy's gradient", (order, name) => {
    expectAll(centralDifference(x20, x20.map((_, i) => i * interval), order), expected[name], 1e3 * tolerance);
  });
  it("over uneven times too, where a parabola is read exactly inside", () => {
    const { t, f, edge1, edge2 } = expected.gradient_uneven;
    expectAll(centralDifference(f, t, 1), edge1, tolerance);
    expectAll(centralDifference(f, t, 2), edge2, tolerance);
  });
  it("second differences are the published ones", () => {
    expectAll(secondDifference(x20, x20.map((_, i) => i * interval)).slice(1, -1), expected["second_central_diff_x20[1:-1]"], 1e5 * tolerance);
  });
});

describe("T5.5 cubic spline", () => {
  const { expected, tolerance } = cases["T5.5"];
  const { t, y, q, val, d1 } = expected["cubicspline_not-a-knot"];
  it("values and slopes between uneven knots are those of scipy's not-a-knot spline", () => {
    const spline = cubicSpline(t, y);
    expectAll(q.map(spline.value), val, tolerance);
    expectAll(splineValues(Float64Array.from(t), Float64Array.from(y), Float64Array.from(q)), val, tolerance);
    expectAll(q.map(spline.slope), d1, tolerance);
  });
  it("it is not the natural spline", () => {
    expect(Math.abs(cubicSpline(t, y).value(0.5) - expected.cubicspline_natural.val[0]!)).toBeGreaterThan(0.05);
  });
});

describe("T5.6 residual analysis", () => {
  const { inputs, expected, tolerance } = cases["T5.6"];
  const { fs, N, fc, rms_residual: published, line_24_40: line, fc_opt: chosen } = inputs;
  const raw = Float64Array.from({ length: N }, (_, i) => {
    const t = i / fs;
    const wave = (size: number, hz: number, phase: number) => size * Math.sin(2 * Math.PI * hz * t + phase);
    return 90 / (1 + Math.exp(-(t - 0.25) / 0.02)) + wave(0.6, 61, 0.3) + wave(0.4, 83, 1.1) + wave(0.5, 97, 2);
  });
  /** The published rows divide the cut-off by 0.802 instead of correcting after pre-warping: the cut-off at which ours is that filter. */
  const correction = (Math.SQRT2 - 1) ** 0.25;
  const sameFilter = (hz: number) => (fs / Math.PI) * Math.atan(correction * Math.tan((Math.PI * hz) / (correction * fs)));

  it("the signal is the published one", () => {
    expectAll(raw.slice(0, 5), expected.xs_first5, tolerance);
    expectAll(raw.slice(58, 63), expected.xs_58_62, tolerance);
  });
  it("the residual at each cut-off is the published one", () => {
    expectAll(fc.map((hz) => residualRms(raw, sameFilter(hz), fs)), published, tolerance);
  });
  it("the line through the noisy tail is the published one, and a kept library's", () => {
    const tail = fc.flatMap((hz, i) => (hz >= 24 && hz <= 40 ? [[hz, published[i]!]] : []));
    const own = lineThrough(tail.map(([hz]) => hz!), tail.map(([, residual]) => residual!));
    expect(Math.abs(own.intercept - line.intercept)).toBeLessThan(tolerance);
    expect(Math.abs(own.slope - line.slope)).toBeLessThan(tolerance);
    const { m, b } = linearRegression(tail);
    expectAll([own.slope, own.intercept], [m, b], tolerance);
  });
  it("the residual passes the intercept at the published cut-off", () => {
    expect(Math.abs(residualRms(raw, sameFilter(chosen), fs) - line.intercept)).toBeLessThan(tolerance);
  });
  it("with Winter's own correction the cut-off chosen is within half a hertz of the published one, made with the other correction", () => {
    const own = residualAnalysis(raw, fs, fc, [24, 40]);
    expect(Math.abs(own!.cutoffHz! - chosen)).toBeLessThan(0.5);
  });
  it.each([[8, "peak_angvel_fc8"], [14, "peak_angvel_fc14"], [20, "peak_angvel_fc20"]] as const)("the peak of the turn filtered at %i Hz is the published one, below the true 1125 degrees a second", (hz, name) => {
    const seconds = Array.from(raw, (_, i) => i / fs);
    const speeds = centralDifference(filterTwoPass(raw, sameFilter(hz), fs)!, seconds);
    const peak = Math.max(...speeds);
    expect(Math.abs(peak - expected[name].peak)).toBeLessThan(1e3 * tolerance);
    expect(speeds.indexOf(peak)).toBe(expected[name].index);
    expect(peak).toBeLessThan(expected.peak_angvel_true.peak_analytic);
  });
});
