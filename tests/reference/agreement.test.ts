import jStat from "jstat";
import { describe, expect, it } from "vitest";
import { agreementWord } from "@/lib/measure/several/agreement/agreement-words";
import { cohenKappa, tableOfCalls } from "@/lib/measure/several/agreement/cohen-kappa";
import { fleissKappa } from "@/lib/measure/several/agreement/fleiss-kappa";
import { intraclassCorrelation, type RaterModel } from "@/lib/measure/several/agreement/intraclass-correlation";
import { krippendorffAlpha } from "@/lib/measure/several/agreement/krippendorff-alpha";
import { limitsOfAgreement } from "@/lib/measure/several/agreement/limits-of-agreement";
import { meanSquares } from "@/lib/measure/several/agreement/mean-squares";
import { detectableDifference, estimationSd, measurementSd, measurementSdFromReliability, predictionSd } from "@/lib/measure/several/agreement/measurement-error";
import { chanceOfRise } from "@/lib/measure/several/rates/chance-of-rise";
import { exactInterval } from "@/lib/measure/several/rates/exact-interval";
import { nextTries } from "@/lib/measure/several/rates/next-tries";
import { JEFFREYS, MILD, successBelief, UNIFORM } from "@/lib/measure/several/rates/success-belief";
import { wilsonInterval } from "@/lib/measure/several/rates/wilson-interval";
import { typicalErrorOfPairs } from "@/lib/measure/several/typical-error";
import { isUnknown, type Answer } from "@/lib/measure/several/unknown";
import { cases } from "./agreement.json";

function known<T extends object>(answer: Answer<T>): T {
  if (isUnknown(answer)) throw new Error(answer.unknown);
  return answer;
}
function expectNear(actual: number | null | undefined, expected: number, tolerance: number): void {
  expect(Math.abs((actual ?? NaN) - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
}
const single = (data: readonly (readonly number[])[], model: RaterModel) => known(intraclassCorrelation(known(meanSquares(data)), model));
const MODELS = [["one-way", "ICC11", "ICC1k"], ["random", "ICC21", "ICC2k"], ["fixed", "ICC31", "ICC3k"]] as const;

describe("T6.14 Shrout and Fleiss: six things, four judges", () => {
  const { inputs, expected, tolerance } = cases["T6.14"];
  it("mean squares are the published ones", () => {
    const { between, columns, error, within, sdTotal } = known(meanSquares(inputs.data));
    for (const [own, theirs] of [[between, expected.BMS], [columns, expected.JMS], [error, expected.EMS], [within, expected.WMS], [sdTotal, expected.SD_total]] as const) expectNear(own, theirs, tolerance);
  });
  it.each(MODELS)("%s: correlation for one judge and for the mean of all", (model, one, all) => {
    expectNear(single(inputs.data, model).single, expected[one], tolerance);
    expectNear(single(inputs.data, model).average, expected[all], tolerance);
  });
  it.each(MODELS)("%s: the interval is the one of a common package (from memory, two digits)", (model) => {
    const [low, high] = expected.intervals_from_memory[model];
    expectNear(single(inputs.data, model).low, low ?? NaN, 0.006);
    expectNear(single(inputs.data, model).high, high ?? NaN, 0.006);
  });
  it("the SD of one judgement and its smallest detectable difference follow", () => {
    const squares = known(meanSquares(inputs.data));
    expectNear(measurementSd(squares), expected.SEM_sqrtEMS, tolerance);
    expectNear(detectableDifference(measurementSd(squares)), expected.MDC95_from_EMS, tolerance);
    expectNear(measurementSdFromReliability(squares.sdTotal, expected.ICC21), expected.SEM_SDtot_ICC21, tolerance);
  });
});

describe.each(["T6.15", "T6.16"] as const)("%s two trials", (id) => {
  const { expected, tolerance } = cases[id];
  const data: number[][] = id === "T6.15" ? cases[id].inputs.x.map((x, i) => [x, cases["T6.15"].inputs.y[i] ?? NaN]) : cases["T6.16"].inputs.data;
  it.each(MODELS)("%s correlation", (model, one) => expectNear(single(data, model).single, expected[one], tolerance));
  it("typical error, measurement SD, detectable difference and limits of agreement", () => {
    const squares = known(meanSquares(data));
    const pairs = data.map(([a, b]) => [a ?? NaN, b ?? NaN] as const);
    const limits = known(limitsOfAgreement(pairs));
    expectNear(known(typicalErrorOfPairs(pairs)).sd, expected.typical_error, tolerance);
    expectNear(measurementSd(squares), expected.SEM_sqrtEMS, tolerance);
    expectNear(detectableDifference(measurementSd(squares)), expected.MDC95_from_EMS, tolerance);
    expectNear(limits.bias.value, expected.mean_diff, tolerance);
    expectNear(limits.sdOfDifferences, expected.SD_diff, tolerance);
    expectNear(limits.lower.value, expected.LoA[0] ?? NaN, tolerance);
    expectNear(limits.upper.value, expected.LoA[1] ?? NaN, tolerance);
  });
});

describe("T6.15 Weir 2005, set A", () => {
  it("SEM, SEE and SEP are the published ones to one digit", () => {
    const { inputs, expected } = cases["T6.15"];
    const data = inputs.x.map((x, i) => [x, inputs.y[i] ?? NaN]);
    const squares = known(meanSquares(data));
    expectNear(measurementSd(squares), expected.SEM_published, 0.05);
    const icc = single(data, "fixed").single;
    expectNear(predictionSd(squares.sdTotal, icc), expected.SEP, 1e-6);
    expectNear(predictionSd(squares.sdTotal, icc), expected.SEP_published, 0.05);
    expectNear(estimationSd(squares.sdTotal, icc), expected.SEE, 1e-6);
    expectNear(estimationSd(squares.sdTotal, icc), expected.SEE_published, 0.05);
  });
});

describe("T6.17 error from a published SD and reliability", () => {
  it("SD 5 with 0.90", () => {
    const { expected, tolerance } = cases["T6.17"];
    const sd = measurementSdFromReliability(expected.SD, expected.ICC);
    expectNear(sd, expected.SEM, tolerance);
    expectNear(detectableDifference(sd), expected.MDC95, tolerance);
    expectNear(detectableDifference(sd, 0.9), expected.MDC90, tolerance);
  });
});

describe("kappa", () => {
  it("T7.1 two by two", () => {
    const { inputs, expected, tolerance } = cases["T7.1"];
    const { observed, expected: chance, kappa } = cohenKappa(inputs.table);
    expectNear(observed, expected.po, tolerance);
    expectNear(chance, expected.pe, tolerance);
    expectNear(kappa, expected.kappa, tolerance);
  });
  it("T7.2 with both SEs, interval and weights as a statistics package prints them", () => {
    const { inputs, expected, tolerance } = cases["T7.2"];
    const plain = cohenKappa(inputs.table);
    const printed = expected.SAS_printed;
    expectNear(plain.kappa, printed.kappa, tolerance);
    expectNear(plain.se, printed.ASE, tolerance);
    expectNear(plain.se, expected.ASE, 1e-9);
    expectNear(plain.seOfNone, printed.ASE0, tolerance);
    expectNear((plain.kappa ?? NaN) / (plain.seOfNone ?? NaN), printed.Z, tolerance);
    expectNear(plain.low, printed.CI[0] ?? NaN, tolerance);
    expectNear(plain.high, printed.CI[1] ?? NaN, tolerance);
    expectNear(cohenKappa(inputs.table, "linear").kappa, printed.weighted_linear, tolerance);
    expectNear(cohenKappa(inputs.table, "linear").kappa, expected.linear, 1e-9);
    expectNear(cohenKappa(inputs.table, "quadratic").kappa, expected.quadratic, 1e-9);
  });
  it("T7.3 the scale given decides: without its unused category as one package has it, with it as the whole scale says", () => {
    const { inputs, expected, tolerance } = cases["T7.3"];
    const [, second = [], third = []] = inputs.raters;
    const calls = second.map((call, i) => [call, third[i] ?? NaN] as const);
    const used = [...new Set(calls.flat())].sort((a, b) => a - b);
    expectNear(cohenKappa(tableOfCalls(calls, used)).kappa, expected.none, tolerance);
    expectNear(cohenKappa(tableOfCalls(calls, used), "linear").kappa, expected.equal, tolerance);
    expectNear(cohenKappa(tableOfCalls(calls, used), "quadratic").kappa, expected.squared, tolerance);
    const whole = tableOfCalls(calls, [1, 2, 3, 4, 5, 6]);
    expectNear(cohenKappa(whole, "linear").kappa, 0.1262136, tolerance);
    expectNear(cohenKappa(whole, "quadratic").kappa, 0.229798, tolerance);
  });
  it("T7.4 Fleiss, fourteen raters", () => {
    const { inputs, expected, tolerance } = cases["T7.4"];
    const found = fleissKappa(inputs.table);
    expectNear(found.kappa, expected.kappa, tolerance);
    expectNear(found.kappa, 0.21, 0.0005);
    expectNear(found.observed, expected.Pbar, tolerance);
    expectNear(found.expected, expected.Pe, tolerance);
    expected.Pi.forEach((share, i) => expectNear(found.byThing[i], share, tolerance));
    expected.p.forEach((share, i) => expectNear(found.shares[i], share, tolerance));
  });
  it("T7.5 Fleiss 1971, thirty patients, with z", () => {
    const { inputs, expected, tolerance } = cases["T7.5"];
    const found = fleissKappa(inputs.counts);
    expectNear(found.kappa, expected.kappa, tolerance);
    expectNear(found.z, 17.65183, 1e-5);
    expectNear(found.expected, expected.Pe, tolerance);
  });
  it("Landis and Koch's words; chance alone leaves no kappa and still says how often both agree", () => {
    expect([-0.1, 0.1, 0.3, 0.5, 0.7, 0.9].map(agreementWord)).toEqual(["poor", "slight", "fair", "moderate", "substantial", "almost perfect"]);
    expect(cohenKappa([[7, 0], [0, 0]])).toMatchObject({ kappa: null, observed: 1 });
    expect(fleissKappa([[3, 0], [3, 0]])).toMatchObject({ kappa: null, observed: 1 });
    expect(agreementWord(null)).toBeNull();
  });
});

describe("Krippendorff's alpha", () => {
  const SCALES = ["nominal", "ordinal", "interval", "ratio"] as const;
  it.each(SCALES)("T7.6 four coders, %s (interval: published value from memory, digits computed)", (scale) => {
    const { inputs, expected, tolerance } = cases["T7.6"];
    const [alpha, pairable] = expected[scale];
    expectNear(krippendorffAlpha(inputs.rows, scale).alpha, alpha ?? NaN, tolerance);
    expect(krippendorffAlpha(inputs.rows, scale).pairable).toBe(pairable);
  });
  it.each(["nominal", "ordinal", "interval"] as const)("T7.7 three coders with many gaps, %s", (scale) => {
    const { inputs, expected, tolerance } = cases["T7.7"];
    const coders = inputs.rows.map((row) => [...row].map((mark) => (mark === "*" ? null : Number(mark))));
    expectNear(krippendorffAlpha(coders, scale).alpha, expected[scale][0] ?? NaN, tolerance);
  });
  it("T7.8 two coders", () => {
    const { inputs, expected, tolerance } = cases["T7.8"];
    expectNear(krippendorffAlpha(inputs.binary, "nominal").alpha, expected.binary, tolerance);
    expectNear(krippendorffAlpha(inputs.nominal, "nominal").alpha, expected.nominal, tolerance);
  });
});

describe("shares from few tries", () => {
  it.each(Object.entries(cases["T10.1"].expected.full))("T10.1 Wilson's interval of %s", (text, [low, high]) => {
    const [k = NaN, n = NaN] = text.split("/").map(Number);
    expectNear(wilsonInterval({ k, n }).low, low ?? NaN, 1e-9);
    expectNear(wilsonInterval({ k, n }).high, high ?? NaN, 1e-9);
  });
  it("T10.1 the four of Newcombe's table to four digits", () => {
    const { inputs, expected, tolerance } = cases["T10.1"];
    inputs.cases.forEach(([k = NaN, n = NaN], i) => {
      expectNear(wilsonInterval({ k, n }).low, expected["4dp"][i]?.[0] ?? NaN, tolerance);
      expectNear(wilsonInterval({ k, n }).high, expected["4dp"][i]?.[1] ?? NaN, tolerance);
    });
  });
  it.each([["beta_uniform", UNIFORM], ["beta_jeffreys", JEFFREYS], ["beta_2_2", MILD]] as const)("T10.2 what is thought of a share, %s", (name, before) => {
    const { expected, tolerance } = cases["T10.2"];
    for (const [text, theirs] of Object.entries(expected[name])) {
      const [k = NaN, n = NaN] = text.split("/").map(Number);
      const own = successBelief({ k, n }, before);
      expect([own.shapes.a, own.shapes.b]).toEqual(theirs.post);
      expectNear(own.mean, theirs.mean, tolerance);
      expectNear(own.median, theirs.median, tolerance);
      expectNear(own.interval.low, theirs.ci95[0] ?? NaN, tolerance);
      expectNear(own.interval.high, theirs.ci95[1] ?? NaN, tolerance);
      expectNear(own.chanceAbove(0.5), theirs.P_gt_half, tolerance);
      expectNear(own.chanceAbove(0.6), theirs.P_gt_0_6, tolerance);
      if (theirs.mode === null) expect(own.mode).toBeNull();
      else expectNear(own.mode, theirs.mode, tolerance);
    }
  });
  it("T10.2 the exact interval of 7 of 10", () => {
    const [low, high] = cases["T10.2"].expected["clopper_7/10"];
    expectNear(exactInterval({ k: 7, n: 10 }).low, low ?? NaN, 1e-9);
    expectNear(exactInterval({ k: 7, n: 10 }).high, high ?? NaN, 1e-9);
  });
  it("T10.3 the next five tries", () => {
    const { expected, tolerance } = cases["T10.3"];
    const next = nextTries(5, { a: 8, b: 4 });
    expected.pmf.forEach((chance, k) => expectNear(next.chances[k], chance, tolerance));
    expectNear(next.mean, expected.mean, tolerance);
    expectNear(next.variance, expected.var, tolerance);
    expectNear((next.chances[4] ?? NaN) + (next.chances[5] ?? NaN), expected["P(X>=4)"], tolerance);
  });
  it("T10.4 from 4 of 10 to 7 of 10 is not yet evidence of a rise", () => {
    expectNear(chanceOfRise({ k: 4, n: 10 }, { k: 7, n: 10 }), cases["T10.4"].expected, cases["T10.4"].tolerance);
    expect(chanceOfRise({ k: 4, n: 10 }, { k: 7, n: 10 })).toBeLessThan(0.95);
  });
  it("a general library gives the same exact interval and the same SD of pairs", () => {
    expectNear(exactInterval({ k: 3, n: 8 }).low, jStat.beta.inv(0.025, 3, 6), 1e-8);
    expectNear(exactInterval({ k: 3, n: 8 }).high, jStat.beta.inv(0.975, 4, 5), 1e-8);
    const pairs = cases["T6.16"].inputs.data.map(([a, b]) => [a ?? NaN, b ?? NaN] as const);
    expectNear(known(limitsOfAgreement(pairs)).sdOfDifferences, jStat.stdev(pairs.map(([a, b]) => b - a), true), 1e-12);
  });
});
