import { describe, expect, it } from "vitest";
import { answerFactor } from "./answer-evidence";
import { buildGraph } from "./graph";
import { chooseNextQuestion, type OfferedQuestion } from "./next-question";
import { findPosteriors } from "./posteriors";
import type { RankingInput, RankingRules } from "./ranking-types";
import { scoreNodes } from "./scores";
import { NO_EVIDENCE, type Evidence, type GraphParts } from "./types";

const rules: RankingRules = {
  scoreWeights: { symptoms: 0.5, self: 0.2 }, minProbability: 0.3, nearTie: { share: 0.15 }, maxShown: 3, askFirst: { maxShown: 3 },
  likelihood: { likely: { from: 0.65 }, maybe: { from: 0.3 } },
};
const parts: GraphParts = {
  nodes: [
    { id: "told", kind: "root", prior: { any: 0.2 } },
    { id: "weak", kind: "root", prior: { any: 0.3 } },
    ...["spin", "open", "drag"].map((id) => ({ id, kind: "fault", leak: { any: 0.1 } })),
  ],
  edges: [
    { cause: "told", effect: "spin", strength: 0.6 }, { cause: "weak", effect: "spin", strength: 0.3 }, { cause: "weak", effect: "drag", strength: 0.4 },
    { cause: "spin", effect: "open", strength: 0.5 }, { cause: "open", effect: "drag", strength: 0.3 },
  ],
  faults: ["spin", "open", "drag"].map((id, i) => ({ id, name: id, phase: `p${i}`, symptoms: [] })),
  symptoms: [],
  phases: [0, 1, 2].map((order) => ({ id: `p${order}`, order })),
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const question = (id: string, bearsOn: string[], costSeconds: number, ratio: number): OfferedQuestion => ({
  id, bearsOn, costSeconds,
  answers: [
    { id: "yes", base: 0.2, likelihoodRatios: Object.fromEntries(bearsOn.map((node) => [node, ratio])) },
    { id: "no", base: 0.8, likelihoodRatios: Object.fromEntries(bearsOn.map((node) => [node, (1 - 0.2 * ratio) / 0.8])) },
  ],
});
const evidence: Evidence = { ...NO_EVIDENCE, calls: { open: "seen" }, readings: { spin: 2.5, drag: 3 } };
const input: RankingInput = { level: "any", isSlapper: false, evidence, changeable: {} };

const readOnly: Evidence = { ...NO_EVIDENCE, readings: { spin: 2.5 } };

const posteriorsOf = (given: Evidence) => {
  const found = findPosteriors(graph, given);
  if (found.outcome !== "exact") throw new Error("too wide");
  return found;
};
const normalised = (given: Evidence, probability: Readonly<Record<string, number>>) => {
  const scores = [...scoreNodes(graph, given, probability, rules.scoreWeights)];
  const sum = scores.reduce((total, score) => total + score, 0);
  return scores.map((score) => score / sum);
};
/** The value straight from its definition: every answer entered as evidence. */
function valueByDefinition(asked: OfferedQuestion, given: Evidence): number {
  const now = posteriorsOf(given);
  const before = normalised(given, now.probability);
  const moved = asked.answers.map(({ id }) => {
    const after = posteriorsOf({ ...given, answers: [answerFactor(asked, id)] });
    const shift = normalised(given, after.probability).reduce((sum, score, i) => sum + Math.abs(score - before[i]!), 0);
    return Math.exp(after.logLikelihood - now.logLikelihood) * 0.5 * shift;
  });
  return moved.reduce((sum, part) => sum + part, 0) / (0.5 + asked.costSeconds / 60);
}
const choose = (questions: readonly OfferedQuestion[], of = input, minValue = 0.001) => chooseNextQuestion(graph, rules, of, questions, minValue);

describe("the next question", () => {
  it.each<[string, OfferedQuestion, Evidence]>([
    ["about a root", question("q", ["told"], 30, 4), evidence],
    ["about a fault with readings and two roots", question("q", ["spin", "told", "weak"], 60, 2), evidence],
    ["partly about a fault that was called", question("q", ["open", "weak"], 10, 3), evidence],
    ["about a fault in front of a call", question("q", ["open"], 30, 4), { ...NO_EVIDENCE, calls: { spin: "seen" } }],
    ["about a fault in front of all evidence and a root behind it", question("q", ["told", "open"], 30, 2), readOnly],
    ["about a fault whose cause lies in front as well", question("q", ["drag", "weak"], 30, 2), readOnly],
  ])("%s is worth what its definition says, with answers entered as evidence", (_, asked, given) => {
    const next = choose([asked], { ...input, evidence: given }, 0);
    const worth = valueByDefinition(asked, given);
    if (next.outcome !== "ask") {
      expect(worth).toBeCloseTo(0, 12);
      return;
    }
    expect(next.question.value).toBeCloseTo(worth, 12);
    expect(next.question.answers.reduce((sum, answer) => sum + answer.probability, 0)).toBeCloseTo(1, 12);
  });

  it("says what an answer moves most, and never a fault in front of the evidence, which has no posterior to move from", () => {
    const next = choose([question("q", ["drag", "weak"], 30, 2)], { ...input, evidence: readOnly }, 0);
    if (next.outcome !== "ask") throw new Error(next.outcome);
    const before = posteriorsOf(readOnly).probability;
    for (const { moved } of next.question.answers) {
      expect(moved?.id).toBe("weak");
      expect(moved?.from).toBeCloseTo(before.weak!, 12);
    }
  });

  it("is the one that moves the scores most for its time, and of equals the cheaper, then the smaller id", () => {
    const chosen = (...questions: OfferedQuestion[]) => {
      const next = choose(questions);
      return next.outcome === "ask" ? next.question.id : null;
    };
    expect(chosen(question("mild", ["told"], 30, 1.2), question("sharp", ["told"], 30, 4))).toBe("sharp");
    expect(chosen(question("slow", ["told"], 300, 4), question("quick", ["told"], 10, 4))).toBe("quick");
    expect(chosen(question("b", ["told"], 30, 4), question("a", ["told"], 30, 4))).toBe("a");
  });

  it("is never a gate, nothing already answered, and nothing about called nodes alone", () => {
    const asked = question("q", ["told"], 30, 4);
    const none = { outcome: "nothing-more", notWorkedOut: [] };
    expect(choose([{ ...asked, gate: true }])).toEqual(none);
    expect(choose([asked], { ...input, evidence: { ...evidence, answers: [answerFactor(asked, "yes")] } })).toEqual(none);
    expect(choose([question("q", ["open"], 30, 4)])).toEqual(none);
    expect(choose([asked], input, 0.9)).toEqual(none);
  });

  it("shows for each answer which candidate would then stand first", () => {
    const next = choose([question("q", ["spin"], 30, 4.5)]);
    if (next.outcome !== "ask") throw new Error(next.outcome);
    expect(next.question.answers.map((answer) => [answer.id, answer.firstCandidate])).toEqual([["yes", "spin"], ["no", "open"]]);
  });
});
