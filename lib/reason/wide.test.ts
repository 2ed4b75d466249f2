import { describe, expect, it } from "vitest";
import { buildGraph } from "./graph";
import { findPosteriors } from "./posteriors";
import { rankCauses } from "./ranking";
import { samplePosteriors } from "./sampled-posteriors";
import { findSteadiness, shake } from "./steady";
import { NO_EVIDENCE, type Evidence, type GraphParts } from "./types";
import { seededRandom } from "@/lib/core/random";

/** Sixteen roots that all lead to fourteen effects: nothing falls apart. */
const ROOTS = Array.from({ length: 16 }, (_, i) => `r${i}`);
const FAULTS = Array.from({ length: 14 }, (_, i) => `f${i}`);
const random = seededRandom(4);
const parts: GraphParts = {
  nodes: [
    ...ROOTS.map((id) => ({ id, kind: "root", prior: { any: 0.05 + 0.3 * random.uniform() } })),
    ...FAULTS.map((id) => ({ id, kind: "fault", leak: { any: 0.04 + 0.1 * random.uniform() } })),
  ],
  edges: FAULTS.flatMap((effect) => ROOTS.map((cause) => ({ cause, effect, strength: 0.05 + 0.6 * random.uniform() ** 2 }))),
  faults: FAULTS.map((id) => ({ id, name: id, phase: "p", symptoms: [] })),
  symptoms: [],
  phases: [{ id: "p", order: 1 }],
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const rules = {
  scoreWeights: { symptoms: 0.5, self: 0.2 }, minProbability: 0.3, nearTie: { share: 0.15 }, maxShown: 3, askFirst: { maxShown: 3 },
  likelihood: { likely: { from: 0.65 }, maybe: { from: 0.3 } },
};
const evidenceOf = (seed: number): Evidence => {
  const draw = seededRandom(seed);
  return { ...NO_EVIDENCE, readings: Object.fromEntries(FAULTS.map((id) => [id, Math.exp(1.5 * draw.normal())])) };
};

/** Readings of the roots as well, which are the nodes that are drawn. */
const readOfAll = (seed: number): Evidence => {
  const draw = seededRandom(100 + seed);
  return { ...NO_EVIDENCE, readings: Object.fromEntries([...ROOTS, ...FAULTS].map((id) => [id, Math.exp(1.5 * draw.normal())])) };
};

describe("a sampled answer", () => {
  it("weighs the readings of the nodes that are drawn", () => {
    for (let seed = 1; seed <= 2; seed++) {
      const exact = findPosteriors(graph, readOfAll(seed));
      if (exact.outcome !== "exact") throw new Error("too wide");
      const sampled = samplePosteriors(graph, readOfAll(seed), { draws: 300, seed });
      const farthest = Math.max(...Object.entries(exact.probability).map(([id, p]) => Math.abs(p - (sampled.probability[id] ?? NaN))));
      expect(farthest).toBeLessThanOrEqual(sampled.error);
    }
  }, 120_000);

  it("lies within its stated error of the exact one, and the error says something", () => {
    for (let seed = 1; seed <= 2; seed++) {
      const exact = findPosteriors(graph, evidenceOf(seed));
      if (exact.outcome !== "exact") throw new Error("too wide");
      const sampled = samplePosteriors(graph, evidenceOf(seed), { draws: 300, seed });
      expect(Object.keys(sampled.probability).sort()).toEqual(Object.keys(exact.probability).sort());
      const farthest = Math.max(...Object.entries(exact.probability).map(([id, p]) => Math.abs(p - (sampled.probability[id] ?? NaN))));
      expect(farthest).toBeLessThanOrEqual(sampled.error);
      expect(sampled.error).toBeGreaterThan(0.005);
      expect(sampled.error).toBeLessThan(0.5);
    }
  }, 120_000);

  it("is the same again for the same seed, and stands in the ranking only where exact work is out of reach", () => {
    const input = { level: "any", isSlapper: false, evidence: evidenceOf(3), changeable: {} };
    const sample = { draws: 80, seed: 7 };
    const sampled = rankCauses(graph, rules, input, { widthCap: 5, sample });
    expect(sampled).toEqual(rankCauses(graph, rules, { ...input, evidence: evidenceOf(3) }, { widthCap: 5, sample }));
    expect(sampled.outcome === "ranked" && sampled.sampled?.draws).toBeGreaterThan(0);
    const exact = rankCauses(graph, rules, input, { sample });
    expect(exact.outcome === "ranked" && exact.sampled).toBeNull();
    expect(rankCauses(graph, rules, input, { widthCap: 5 }).outcome).toBe("too-wide");
  }, 60_000);
});

describe("steadiness", () => {
  const small: GraphParts = {
    ...parts,
    nodes: [{ id: "r", kind: "root", prior: { any: 0.2 } }, ...["a", "b", "c"].map((id) => ({ id, kind: "fault", leak: { any: 0.1 } }))],
    edges: [{ cause: "a", effect: "c", strength: 0.5 }, { cause: "b", effect: "c", strength: 0.5 }, { cause: "r", effect: "a", strength: 0.3 }],
    faults: ["a", "b", "c"].map((id) => ({ id, name: id, phase: "p", symptoms: [] })),
  };
  const rule = { draws: 200, seed: 1, sdLogOdds: 0.5, steadyFrom: 0.8 };
  const close = { ...rules, nearTie: { share: 0 } };
  const ask = (edges: GraphParts["edges"], evidence: Partial<Evidence>) =>
    findSteadiness(buildGraph({ ...small, edges }, "any", { isSlapper: false }), close, { level: "any", isSlapper: false, evidence: { ...NO_EVIDENCE, ...evidence }, changeable: {} }, rule);
  const even = small.edges;
  const uneven = [{ cause: "a", effect: "c", strength: 0.8 }, { cause: "b", effect: "c", strength: 0.2 }];

  it("depends on guesses where two causes are equally strong, and is steady where one is far stronger", () => {
    const seen = { calls: { a: "seen", b: "seen", c: "seen" } } as const;
    expect(ask(even, seen)).toMatchObject({ isSteady: false });
    expect(ask(uneven, seen)).toMatchObject({ first: "a", isSteady: true });
    expect(ask(even, seen)).toEqual(ask([...even].reverse(), seen));
    expect(ask(even, {})).toBeNull();
  });

  it("moves the log odds by the stated spread and leaves 0 and 1 alone", () => {
    const edges = [{ cause: "a", effect: "c", strength: 0.3 }, { cause: "b", effect: "c", strength: 1 }];
    const source = seededRandom(2);
    const of = buildGraph({ ...small, edges }, "any", { isSlapper: false });
    const moved = Array.from({ length: 4000 }, () => shake(of, source, 0.5).nodes.find(({ id }) => id === "c")?.parents.map(({ strength }) => strength) ?? []);
    const logOdds = moved.map(([first = NaN]) => Math.log(first / (1 - first)) - Math.log(0.3 / 0.7));
    const mean = logOdds.reduce((sum, x) => sum + x, 0) / logOdds.length;
    const sd = Math.sqrt(logOdds.reduce((sum, x) => sum + (x - mean) ** 2, 0) / logOdds.length);
    expect(Math.abs(mean)).toBeLessThan(0.04);
    expect(Math.abs(sd - 0.5)).toBeLessThan(0.03);
    expect(moved.every(([, second]) => second === 1)).toBe(true);
  });
});
