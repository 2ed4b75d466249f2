import { describe, expect, it } from "vitest";
import { makeFactor, type Factor } from "@/lib/reason/factor";
import { buildGraph } from "@/lib/reason/graph";
import { solveMarginals } from "@/lib/reason/marginals";
import { presentGiven } from "@/lib/reason/noisy-or-factors";
import { chooseNextQuestion } from "@/lib/reason/next-question";
import { findPosteriors } from "@/lib/reason/posteriors";
import { rankCauses } from "@/lib/reason/ranking";
import { NO_EVIDENCE, type Evidence, type GraphParts, type Sight } from "@/lib/reason/types";
import causes from "@/seed/library/causes.json";
import drills from "@/seed/library/drills.json";
import faults from "@/seed/library/faults.json";
import phases from "@/seed/library/phases.json";
import questions from "@/seed/library/questions.json";
import symptoms from "@/seed/library/symptoms.json";
import terms from "@/seed/library/terms.json";
import cases from "./reason.json";

/** A network of plain tables: present[i] = P(node | parents), bit k of i is the state of parents[k]. */
interface PlainNode {
  readonly id: string;
  readonly parents: readonly string[];
  readonly present: readonly number[];
}

function factorsOf(network: readonly PlainNode[], evidence: Readonly<Record<string, number>>): Factor[] {
  const place = (id: string) => network.findIndex((node) => node.id === id);
  const tables = network.map((node) => makeFactor([...node.parents.map(place), place(node.id)], [...node.present.map((p) => 1 - p), ...node.present]));
  return [...tables, ...Object.entries(evidence).map(([id, state]) => makeFactor([place(id)], state ? [0, 1] : [1, 0]))];
}

function posteriorsOf(network: readonly PlainNode[], evidence: Readonly<Record<string, number>>) {
  const solved = solveMarginals(network.length, factorsOf(network, evidence));
  if (solved.outcome === "too-wide") throw new Error("too wide");
  return { total: Math.exp(solved.logTotal), of: (id: string) => solved.share[network.findIndex((node) => node.id === id)] ?? NaN };
}

function twoLayerParts(prior: readonly number[], strengths: readonly (readonly number[])[], leak: readonly number[]): GraphParts {
  return {
    nodes: [
      ...prior.map((p, i) => ({ id: `D${i + 1}`, kind: "root", prior: { any: p } })),
      ...leak.map((l, i) => ({ id: `F${i + 1}`, kind: "fault", leak: { any: l } })),
    ],
    edges: strengths.flatMap((row, f) => row.map((strength, d) => ({ cause: `D${d + 1}`, effect: `F${f + 1}`, strength }))),
    faults: leak.map((_, i) => ({ id: `F${i + 1}`, name: `finding ${i + 1}`, phase: "p", symptoms: [] })),
    symptoms: [],
    phases: [{ id: "p", order: 1 }],
    symptomLeak: 0,
  };
}

const sights = (states: Readonly<Record<string, number>>): Record<string, Sight> =>
  Object.fromEntries(Object.entries(states).map(([id, state]) => [id, state ? "seen" : "not-seen"]));

describe("published networks", () => {
  it("T8.1: a noisy-OR without leak gives the fever table", () => {
    const ids = ["cold", "flu", "malaria"] as const;
    const { inhibitors } = cases["T8.1"].inputs;
    const parents = ids.map((id, index) => ({ index, strength: 1 - inhibitors[id] }));
    const fever = { id: "fever", kind: "fault" as const, name: "fever", isGate: false, phaseOrder: 1, leak: 0, parents };
    for (const [key, expected] of Object.entries(cases["T8.1"].expected)) {
      const states = key.split(",").map((part) => part.endsWith("1"));
      expect(presentGiven(fever, (index) => states[index] ?? false)).toBeCloseTo(expected, 12);
    }
  });

  it("T8.2: a leak acts as one more cause that is always present", () => {
    const parents = [0.4, 0.8].map((strength, index) => ({ index, strength }));
    const node = { id: "fever", kind: "fault" as const, name: "fever", isGate: false, phaseOrder: 1, leak: cases["T8.2"].inputs.leak, parents };
    expect(presentGiven(node, () => false)).toBeCloseTo(cases["T8.2"].expected.none, 12);
    expect(presentGiven(node, (index) => index === 0)).toBeCloseTo(cases["T8.2"].expected["cold only"], 12);
    expect(presentGiven(node, () => true)).toBeCloseTo(cases["T8.2"].expected["cold+flu"], 12);
  });

  it("T8.3: the burglary network gives its published posteriors, explaining away among them", () => {
    const network: PlainNode[] = [
      { id: "B", parents: [], present: [0.001] },
      { id: "E", parents: [], present: [0.002] },
      { id: "A", parents: ["E", "B"], present: [0.001, 0.29, 0.94, 0.95] },
      { id: "J", parents: ["A"], present: [0.05, 0.9] },
      { id: "M", parents: ["A"], present: [0.01, 0.7] },
    ];
    const want = cases["T8.3"].expected;
    const jm = posteriorsOf(network, { J: 1, M: 1 });
    expect(jm.of("B")).toBeCloseTo(want["P(B|j,m)"], 9);
    expect(jm.of("E")).toBeCloseTo(want["P(E|j,m)"], 9);
    expect(jm.of("A")).toBeCloseTo(want["P(A|j,m)"], 9);
    expect(jm.total).toBeCloseTo(want["P(j,m)"], 12);
    expect(posteriorsOf(network, { J: 1 }).of("B")).toBeCloseTo(want["P(B|j)"], 9);
    expect(posteriorsOf(network, { M: 1 }).of("B")).toBeCloseTo(want["P(B|m)"], 9);
    expect(posteriorsOf(network, { A: 1 }).of("B")).toBeCloseTo(want["P(B|a)"], 9);
    expect(posteriorsOf(network, { A: 1, E: 1 }).of("B")).toBeCloseTo(want["P(B|a,e)"], 9);
    expect(posteriorsOf(network, { B: 1 }).of("J")).toBeCloseTo(want["P(J|B)"], 9);
    expect(posteriorsOf(network, { B: 1 }).of("M")).toBeCloseTo(want["P(M|B)"], 9);
    const none = posteriorsOf(network, {});
    expect([none.of("A"), none.of("J"), none.of("M")].map((p) => p.toFixed(9))).toEqual([want["P(A)"], want["P(J)"], want["P(M)"]].map((p) => p.toFixed(9)));
    expect(posteriorsOf(network, { J: 1, M: 1, A: 1, B: 0, E: 0 }).total).toBeCloseTo(want["P(j,m,a,~b,~e)"], 12);
  });

  it("T8.4: the Asia network gives its published posteriors for every set of evidence", () => {
    let compared = 0;
    for (const [key, posteriors] of Object.entries(cases["T8.4"].expected)) {
      const evidence = Object.fromEntries(key === "prior" ? [] : key.slice(1).split(",").map((part) => [part[0] ?? "", Number(part[2])]));
      const found = posteriorsOf(cases.facts["F8.1"].network, evidence);
      for (const [id, expected] of Object.entries(posteriors)) {
        expect(found.of(id), `${id} ${key}`).toBeCloseTo(expected, 9);
        compared += 1;
      }
    }
    expect(compared).toBe(36);
  });

  it("T8.5: two layers of noisy-OR give posteriors and probability of the evidence, seen and not seen", () => {
    const { inputs, expected } = cases["T8.5"];
    const graph = buildGraph(twoLayerParts(inputs.prior, inputs["lambda[finding][fault]"], inputs.leak), "any", { isSlapper: false });
    for (const { evidence, P_evidence, posterior } of expected.cases) {
      const found = findPosteriors(graph, { ...NO_EVIDENCE, calls: sights(evidence as Record<string, number>) }, { alsoFor: ["D1", "D2", "D3"] });
      if (found.outcome !== "exact") throw new Error("too wide");
      expect(Math.exp(found.logLikelihood)).toBeCloseTo(P_evidence, 12);
      posterior.forEach((p, i) => expect(found.probability[`D${i + 1}`], `D${i + 1}`).toBeCloseTo(p, 12));
    }
  });
});

describe("the starter library's worked cases", () => {
  const parts: GraphParts = { ...causes, ...faults, ...symptoms, ...phases, symptomLeak: causes.model.symptomLeak };
  const rules = { ...causes.ranking, likelihood: terms.likelihoodRule };

  const changeableAt = (level: string) => {
    const best: Record<string, number> = {};
    for (const drill of drills.drills) {
      if (drill.levels.includes(level)) for (const { fault, effect } of drill.faults) best[fault] = Math.max(best[fault] ?? 0, effect);
    }
    return best;
  };

  const evidenceOf = (worked: (typeof causes.ranking.workedCases)[number]): Evidence => ({
    ...NO_EVIDENCE,
    calls: { ...sights(Object.fromEntries(worked.seen.map((id) => [id, 1]))), ...sights(Object.fromEntries(worked.notSeen.map((id) => [id, 0]))) },
    symptoms: sights(Object.fromEntries((worked.symptoms ?? []).map((id) => [id, 1]))),
    readings: (worked.readings ?? {}) as Record<string, number>,
  });

  it.each(causes.ranking.workedCases.map((worked) => [worked.id, worked] as const))("%s: the first candidates and what to ask first stand in the stated order", (_, worked) => {
    const graph = buildGraph(parts, worked.level, { isSlapper: false });
    const result = rankCauses(graph, rules, { level: worked.level, isSlapper: false, evidence: evidenceOf(worked), changeable: changeableAt(worked.level) });
    if (result.outcome !== "ranked") throw new Error("too wide");
    expect(result.candidates.map((candidate) => candidate.id).slice(0, worked.expect.first.length)).toEqual(worked.expect.first);
    expect(result.askFirst.map((cause) => cause.id).slice(0, worked.expect.askFirst.length)).toEqual(worked.expect.askFirst);
  }, 60_000);

  it("twist: a library read in the opposite order, with other names, gives the same numbers to the last bit", () => {
    const worked = causes.ranking.workedCases[0];
    if (!worked) throw new Error("no case");
    const flipped: GraphParts = {
      ...parts,
      nodes: [...parts.nodes].reverse(),
      edges: [...parts.edges].reverse(),
      faults: [...parts.faults].reverse().map((fault) => ({ ...fault, name: `other ${fault.name}` })),
      symptoms: [...parts.symptoms].reverse(),
    };
    const evidence = evidenceOf(worked);
    const other = { ...evidence, calls: Object.fromEntries(Object.entries(evidence.calls).reverse()) };
    const run = (from: GraphParts, given: Evidence) => {
      const graph = buildGraph(from, worked.level, { isSlapper: false });
      const result = rankCauses(graph, rules, { level: worked.level, isSlapper: false, evidence: given, changeable: changeableAt(worked.level) });
      if (result.outcome !== "ranked") throw new Error("too wide");
      return { ...result, candidates: result.candidates.map(({ name: _, ...rest }) => rest), askFirst: result.askFirst.map(({ name: _, ...rest }) => rest) };
    };
    expect(run(flipped, other)).toEqual(run(parts, evidence));
  }, 60_000);

  it.each([
    ["twist", { "back-foot-overspin": 0.96, "no-back-hip-load": 0.5, "front-shoulder-opens": 0.53, "ins-spin-foot": 0.43, "tim-no-start-cue": 0.33 }],
    ["drag-at-nine", { "back-elbow-leads": 0.6, "back-elbow-no-load": 0.2, "barrel-drag": 0.2, "phys-grip-forearm-weak": 0.28, "eq-bat-heavy": 0.25 }],
    ["fear-at-nine", { "step-out": 0.79, "front-shoulder-opens": 0.7, "hips-open-early": 0.26, "per-fear": 1.2, "app-pull-all": 0.28 }],
  ] as const)("%s: the scores are stated beside the rule", (id, scores) => {
    const worked = causes.ranking.workedCases.find((one) => one.id === id);
    if (!worked) throw new Error(id);
    const graph = buildGraph(parts, worked.level, { isSlapper: false });
    const result = rankCauses(graph, rules, { level: worked.level, isSlapper: false, evidence: evidenceOf(worked), changeable: changeableAt(worked.level) });
    if (result.outcome !== "ranked") throw new Error("too wide");
    const found = new Map([...result.candidates, ...result.askFirst].map((node) => [node.id, node.score]));
    for (const [node, score] of Object.entries(scores)) expect(found.get(node)?.toFixed(2), node).toBe(score.toFixed(2));
  }, 60_000);

  it.each(causes.ranking.workedCases.filter((worked) => worked.expect.question).map((worked) => [worked.id, worked] as const))("%s: the question that moves the order most for its time is the stated one", (_, worked) => {
    const graph = buildGraph(parts, worked.level, { isSlapper: false });
    const input = { level: worked.level, isSlapper: false, evidence: evidenceOf(worked), changeable: changeableAt(worked.level) };
    const next = chooseNextQuestion(graph, rules, input, questions.questions, questions.method.minValue);
    expect(next.outcome === "ask" && next.question.id).toBe(worked.expect.question);
  }, 60_000);
});
