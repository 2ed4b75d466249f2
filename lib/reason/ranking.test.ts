import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { buildGraph } from "./graph";
import { orderInGroups, rankCauses } from "./ranking";
import type { Candidate, RankingInput, RankingRules } from "./ranking-types";
import { reachFrom } from "./reach";
import { scoreNodes } from "./scores";
import { NO_EVIDENCE, type Evidence, type GraphParts } from "./types";

const rules: RankingRules = {
  scoreWeights: { symptoms: 0.5, self: 0.2 },
  minProbability: 0.3,
  nearTie: { share: 0.15 },
  maxShown: 3,
  askFirst: { maxShown: 3 },
  likelihood: { likely: { from: 0.65 }, maybe: { from: 0.3 } },
};

const fault = (id: string, leak: number) => ({ id, kind: "fault", leak: { any: leak } });
const root = (id: string, prior: number, gate = false) => ({ id, kind: "root", name: id, prior: { any: prior }, gate });
const parts: GraphParts = {
  nodes: [root("told", 0.2), root("pain", 0.1, true), fault("spin", 0.1), fault("open", 0.1), fault("fold", 0.1), fault("alone", 0.1)],
  edges: [
    { cause: "told", effect: "spin", strength: 0.6 },
    { cause: "pain", effect: "spin", strength: 0.6 },
    { cause: "spin", effect: "open", strength: 0.5 },
    { cause: "spin", effect: "fold", strength: 0.2 },
    { cause: "open", effect: "fold", strength: 0.4 },
  ],
  faults: [
    { id: "spin", name: "Spin", phase: "one", symptoms: [] },
    { id: "open", name: "Open", phase: "two", symptoms: [{ id: "roll", strength: 0.3 }] },
    { id: "fold", name: "Fold", phase: "two", symptoms: [{ id: "roll", strength: 0.1 }] },
    { id: "alone", name: "Alone", phase: "one", symptoms: [] },
  ],
  symptoms: [{ id: "roll", name: "Rolled balls" }],
  phases: [{ id: "one", order: 1 }, { id: "two", order: 2 }],
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const place = (id: string) => graph.indexById.get(id)!;
const inputOf = (evidence: Partial<Evidence>): RankingInput => ({ level: "any", isSlapper: false, evidence: { ...NO_EVIDENCE, ...evidence }, changeable: {} });
const rank = (evidence: Partial<Evidence>, over: Partial<RankingRules> = {}) => {
  const result = rankCauses(graph, { ...rules, ...over }, inputOf(evidence));
  if (result.outcome !== "ranked") throw new Error("too wide");
  return result;
};

describe("reach", () => {
  it("is 1 for the node itself, the combined strength of all ways to others, and 0 where no way leads", () => {
    const reach = reachFrom(graph, place("spin"));
    expect(reach[place("spin")]).toBe(1);
    expect(reach[place("fold")]).toBeCloseTo(1 - (1 - 0.2) * (1 - 0.4 * 0.5), 14);
    expect(reach[place("roll")]).toBeCloseTo(1 - (1 - 0.3 * 0.5) * (1 - 0.1 * 0.36), 14);
    expect(reach[place("told")]).toBe(0);
    expect(reach[place("alone")]).toBe(0);
  });
});

describe("the score", () => {
  it("counts seen faults whole, read faults by their posterior, symptoms half and the node itself a fifth", () => {
    const evidence: Evidence = { ...NO_EVIDENCE, calls: { open: "seen" }, symptoms: { roll: "seen" }, readings: { fold: 4, open: 9 } };
    const probability = { spin: 0.5, open: 1, fold: 0.6, told: 0.4 };
    const scores = scoreNodes(graph, evidence, probability, rules.scoreWeights);
    const reach = reachFrom(graph, place("spin"));
    expect(scores[place("spin")]).toBeCloseTo(0.5 * (reach[place("open")]! + 0.6 * reach[place("fold")]! + 0.5 * reach[place("roll")]!), 14);
    expect(scores[place("open")]).toBeCloseTo(0.6 * 0.4 + 0.5 * reachFrom(graph, place("open"))[place("roll")]! + 0.2, 14);
    expect(scores[place("alone")]).toBe(0);
    expect(scores[place("pain")]).toBe(0);
  });
});

describe("the ranking", () => {
  it("never ranks a gate, never asks again what was called and shows no fault that was called not seen", () => {
    const free = rank({ calls: { open: "seen", fold: "seen" } });
    expect(free.askFirst.map((cause) => cause.id)).toEqual(["told"]);
    expect(rank({ calls: { open: "seen", told: "seen" } }).askFirst).toEqual([]);
    expect(rank({ calls: { open: "seen", told: "not-seen" } }).askFirst).toEqual([]);
    expect(rank({ calls: { open: "seen", spin: "not-seen" } }).candidates.map((candidate) => candidate.id)).toEqual(["open"]);
  });

  it("says when not enough was seen, and then shows the highest scores without a word of advice", () => {
    const thin = rank({ symptoms: { roll: "seen" } }, { minProbability: 0.95 });
    expect(thin.isEnoughSeen).toBe(false);
    expect(thin.candidates.length).toBeGreaterThan(0);
    expect(rank({ calls: { open: "seen" } }).isEnoughSeen).toBe(true);
    expect(rank({})).toMatchObject({ isEnoughSeen: false, candidates: [], askFirst: [] });
  });

  it("shows at most as many as the rules say", () => {
    expect(rank({ calls: { open: "seen", fold: "seen", spin: "seen" } }, { maxShown: 2 }).candidates).toHaveLength(2);
  });

  it("gives the lift against the level with no evidence", () => {
    const spin = rank({ calls: { open: "seen" } }).candidates.find((candidate) => candidate.id === "spin")!;
    const prior = 1 - 0.9 * (1 - 0.2 * 0.6) * (1 - 0.1 * 0.6);
    expect(spin.prior).toBeCloseTo(prior, 12);
    expect(spin.lift).toBeCloseTo(spin.probability / prior, 12);
  });

  it("is plain JSON, and the same again from stored JSON", () => {
    const input = inputOf({ calls: { open: "seen", fold: "not-seen" }, symptoms: { roll: "seen" }, readings: { alone: 3 } });
    const result = rankCauses(graph, rules, input);
    const stored = JSON.parse(JSON.stringify({ parts, rules, input, result })) as { parts: GraphParts; rules: RankingRules; input: RankingInput; result: unknown };
    expect(rankCauses(buildGraph(stored.parts, "any", { isSlapper: false }), stored.rules, stored.input)).toEqual(stored.result);
    expect(stored.result).toEqual(result);
  });

  it("refuses a graph of another level", () => {
    expect(() => rankCauses(graph, rules, { ...inputOf({}), level: "other" })).toThrow(/cannot rank level "other"/);
  });
});

describe("near ties", () => {
  const candidate = (id: string, score: number, phaseOrder = 1, changeable = 0): Candidate => ({
    id, score, phaseOrder, changeable, name: id, probability: 1, prior: null, lift: null, word: "likely", group: 0,
  });
  const order = (...candidates: Candidate[]) => orderInGroups(candidates, 0.15).map((one) => `${one.id}${one.group}`);

  it("form groups by the best score left, not by neighbours", () => {
    expect(order(candidate("a", 1, 3), candidate("b", 0.9, 2), candidate("c", 0.8, 1))).toEqual(["b1", "a1", "c2"]);
  });

  it("go by phase, then by what can be changed, then by score, then by id", () => {
    expect(order(candidate("a", 1, 2, 0.9), candidate("b", 0.95, 1, 0.1), candidate("c", 0.9, 1, 0.5), candidate("d", 0.92, 1, 0.5), candidate("e", 0.92, 1, 0.5))).toEqual(["d1", "e1", "c1", "b1", "a1"]);
  });

  it("keep every candidate once, with falling best scores per group, in whatever order they come", () => {
    fc.assert(
      fc.property(fc.array(fc.record({ score: fc.integer({ min: 1, max: 40 }), phase: fc.integer({ min: 1, max: 3 }), drill: fc.integer({ min: 0, max: 2 }) }), { maxLength: 12 }), (rows) => {
        const all = rows.map((row, i) => candidate(`c${i}`, row.score, row.phase, row.drill));
        const ordered = orderInGroups(all, 0.15);
        expect(ordered).toEqual(orderInGroups([...all].reverse(), 0.15));
        expect(ordered.map((one) => one.id).sort()).toEqual(all.map((one) => one.id).sort());
        const groups = [...new Set(ordered.map((one) => one.group))];
        expect(groups).toEqual(groups.map((_, i) => i + 1));
        const best = groups.map((group) => Math.max(...ordered.filter((one) => one.group === group).map((one) => one.score)));
        for (const one of ordered) {
          expect(one.score).toBeGreaterThanOrEqual(0.85 * best[one.group - 1]!);
          if (one.group > 1) expect(one.score).toBeLessThan(0.85 * best[one.group - 2]!);
        }
      }),
    );
  });
});
