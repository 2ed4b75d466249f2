import { describe, expect, it } from "vitest";
import { butterworthCoefficients, filterTwoPass } from "@/lib/measure/signals/butterworth";
import { cubicSpline } from "@/lib/measure/signals/cubic-spline";
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

describe("T5.5 cubic spline", () => {
  const { expected, tolerance } = cases["T5.5"];
  const { t, y, q, val, d1 } = expected["cubicspline_not-a-knot"];
  it("values and slopes between uneven knots are those of scipy's not-a-knot spline", () => {
    const spline = cubicSpline(t, y);
    expectAll(q.map(spline.value), val, tolerance);
    expectAll(q.map(spline.slope), d1, tolerance);
  });
  it("it is not the natural spline", () => {
    expect(Math.abs(cubicSpline(t, y).value(0.5) - expected.cubicspline_natural.val[0]!)).toBeGreaterThan(0.05);
  });
});
