import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerFactor } from "./answer-evidence";
import { normalShareBelow } from "./normal-share";
import { readingEvidence, readingRatio, type CheckpointLink, type ReadingEvidenceRules } from "./reading-evidence";

const rules: ReadingEvidenceRules = {
  reliability: { high: 1, medium: 0.75, low: 0.45 },
  sensitivity: { base: 0.35, slope: 0.55 },
  falsePositive: { base: 0.35, slope: -0.28 },
  clamp: [1 / 12, 12],
};
const adult = { isYouth: false, flightSeconds: 0.45 };
const link: CheckpointLink = { checkpoint: "knee", op: "<", value: 3, valueYouth: -1, weight: 0.8 };
const reading = (value: number, sd: number, reliability = "medium", checkpoint = "knee") => ({ checkpoint, value, sd, reliability });

describe("a reading's likelihood ratio", () => {
  it("is that of the rule, worked by hand, far past the threshold on either side", () => {
    // d = 0.8 · 0.75 = 0.6, sens = 0.68, fpr = 0.182
    expect(readingRatio([link], [reading(-50, 1)], rules, adult)?.ratio).toBeCloseTo(0.68 / 0.182, 12);
    expect(readingRatio([link], [reading(50, 1)], rules, adult)?.ratio).toBeCloseTo(0.32 / 0.818, 12);
  });

  it("is half and half at the threshold itself, with and without doubt", () => {
    for (const sd of [0, 2]) expect(readingRatio([link], [reading(3, sd)], rules, adult)?.ratio).toBeCloseTo(1, 12);
  });

  it("comes nearer to 1 the more doubtful the reading is", () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 2.5, noNaN: true }), fc.double({ min: 0.1, max: 10, noNaN: true }), (value, sd) => {
        const sure = readingRatio([link], [reading(value, sd)], rules, adult)!.ratio;
        const unsure = readingRatio([link], [reading(value, sd * 2)], rules, adult)!.ratio;
        expect(unsure).toBeGreaterThanOrEqual(1);
        expect(unsure).toBeLessThanOrEqual(sure);
      }),
    );
  });

  it("uses the threshold for players under 13, or of the flight, where there is one", () => {
    expect(readingRatio([link], [reading(0, 1)], rules, { ...adult, isYouth: true })?.parts[0]?.threshold).toBe(-1);
    expect(readingRatio([{ ...link, valueYouth: undefined }], [reading(0, 1)], rules, { ...adult, isYouth: true })?.parts[0]?.threshold).toBe(3);
    const ofFlight: CheckpointLink = { checkpoint: "plant", op: ">", value: 0.756, weight: 0.9, valueOfFlight: { seconds: 0.11 } };
    const plant = [reading(0.8, 0.02, "high", "plant")];
    expect(readingRatio([ofFlight], plant, rules, adult)?.parts[0]?.threshold).toBeCloseTo(1 - 0.11 / 0.45, 14);
    expect(readingRatio([ofFlight], plant, rules, { ...adult, flightSeconds: null })).toBeNull();
  });

  it("multiplies over the readings of a fault and is held within the limits, whatever their order", () => {
    const links = ["a", "b", "c"].map((checkpoint): CheckpointLink => ({ checkpoint, op: ">", value: 0, weight: 0.9 }));
    const far = (sign: number) => links.map(({ checkpoint }) => reading(sign * 9, 1, "high", checkpoint));
    const single = readingRatio(links.slice(0, 1), far(1), rules, adult)!;
    expect(readingRatio(links.slice(0, 2), far(1), rules, { ...adult })!.ratio).toBe(Math.min(12, single.ratio ** 2));
    expect(readingRatio(links, far(1), rules, adult)?.ratio).toBe(12);
    expect(readingRatio(links, far(-1), rules, adult)?.ratio).toBe(1 / 12);
    expect(readingRatio([...links].reverse(), far(1).reverse(), rules, adult)).toEqual(readingRatio(links, far(1), rules, adult));
  });

  it("is absent for a fault of which no reading speaks", () => {
    const faults = [{ id: "soft", checkpoints: [link] }, { id: "other", checkpoints: [{ ...link, checkpoint: "hip" }] }];
    expect(Object.keys(readingEvidence(faults, [reading(0, 1)], rules, adult))).toEqual(["soft"]);
  });

  it("refuses what it cannot read, naming the checkpoint", () => {
    expect(() => readingRatio([link], [reading(1, -1)], rules, adult)).toThrow(/"knee" needs a value and a standard deviation/);
    expect(() => readingRatio([link], [reading(1, 1, "sure")], rules, adult)).toThrow(/"knee" has no known reliability \("sure"\)/);
    expect(() => readingRatio([{ ...link, op: "=" }], [reading(1, 1)], rules, adult)).toThrow(/"knee" has no known side/);
    expect(() => readingRatio([{ ...link, weight: 2 }], [reading(1, 1)], rules, adult)).toThrow(/weight outside/);
    expect(() => readingRatio([link], [reading(1, 1), reading(2, 1)], rules, adult)).toThrow(/speaks once/);
  });
});

describe("the share of a normal below a limit", () => {
  it.each([[0, 0.5], [1, 0.8413447460685429], [-1, 0.15865525393145705], [2.5, 0.9937903346742238], [-3, 0.0013498980316300933], [-5, 2.866515718791939e-7], [8, 1]])("is right at %s", (z, share) => {
    expect(Math.abs(normalShareBelow(z) / share - 1)).toBeLessThan(1e-12);
  });
  it("adds to 1 with its mirror image", () => {
    fc.assert(fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (z) => {
      expect(normalShareBelow(z) + normalShareBelow(-z)).toBeCloseTo(1, 14);
    }));
  });
});

describe("an answer as a factor", () => {
  const question = {
    id: "handle-fit",
    bearsOn: ["palm", "grip"],
    answers: [{ id: "fits", base: 0.8, likelihoodRatios: { grip: 0.1875, palm: 0.6875 } }, { id: "gap", base: 0.2, likelihoodRatios: { grip: 4.25, palm: 2.25 } }],
  };
  it("is base times ratio for one present node, and normalised over the answers for several", () => {
    const gap = answerFactor(question, "gap");
    expect(gap.nodes).toEqual(["grip", "palm"]);
    expect(gap.likelihoods[0]).toBeCloseTo(0.2, 14);
    expect(gap.likelihoods[1]).toBeCloseTo(0.85, 14);
    expect(gap.likelihoods[2]).toBeCloseTo(0.45, 14);
    expect(gap.likelihoods[3]).toBeCloseTo((0.2 * 4.25 * 2.25) / (0.2 * 4.25 * 2.25 + 0.8 * 0.1875 * 0.6875), 14);
    const fits = answerFactor(question, "fits");
    gap.likelihoods.forEach((p, i) => expect(p + fits.likelihoods[i]!).toBeCloseTo(1, 14));
  });
  it("refuses an answer that the question does not have", () => {
    expect(() => answerFactor(question, "other")).toThrow(/"handle-fit" has no answer "other"/);
  });
});
