import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { listObservations } from "./evidence";
import { buildGraph } from "./graph";
import { leaveEachOut } from "./leave-one-out";
import { findPosteriorsFrom } from "./posteriors";
import { NO_EVIDENCE, type Evidence, type GraphParts, type Sight } from "./types";

const FAULTS = ["spin", "open", "fold", "drag"] as const;
const parts: GraphParts = {
  nodes: [
    { id: "told", kind: "root", name: "Was told to twist", prior: { any: 0.2 } },
    { id: "weak", kind: "root", name: "Weak legs", prior: { any: 0.3 } },
    ...FAULTS.map((id) => ({ id, kind: "fault", leak: { any: 0.1 } })),
  ],
  edges: [
    { cause: "told", effect: "spin", strength: 0.6 },
    { cause: "weak", effect: "fold", strength: 0.4 },
    { cause: "spin", effect: "open", strength: 0.5 },
    { cause: "open", effect: "fold", strength: 0.4 },
    { cause: "spin", effect: "fold", strength: 0.2 },
    { cause: "fold", effect: "drag", strength: 0.3 },
  ],
  faults: FAULTS.map((id) => ({ id, name: id, phase: "one", symptoms: id === "open" ? [{ id: "roll", strength: 0.6 }] : [] })),
  symptoms: [{ id: "roll", name: "Rolled balls" }],
  phases: [{ id: "one", order: 1 }],
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const nodes = [...FAULTS, "told", "weak"];
const sight = fc.constantFrom<Sight>("seen", "not-seen", "not-visible");
const likelihood = fc.double({ min: 0.05, max: 0.95, noNaN: true });
const evidence: fc.Arbitrary<Evidence> = fc.record({
  calls: fc.dictionary(fc.constantFrom(...nodes), sight, { maxKeys: 4 }),
  symptoms: fc.dictionary(fc.constant("roll"), sight),
  readings: fc.dictionary(fc.constantFrom(...FAULTS), fc.double({ min: 0.05, max: 20, noNaN: true })),
  answers: fc.tuple(likelihood, likelihood, likelihood, likelihood).map(([a, b, c, d]) => [
    { question: "one", answer: "yes", nodes: ["told"], likelihoods: [a, b] },
    { question: "two", answer: "yes", nodes: ["spin", "weak"], likelihoods: [a, b, c, d] },
  ]),
});

describe("leaving each observation out", () => {
  it("says for every node and every kind of observation what a run without that one would say", () => {
    fc.assert(
      fc.property(evidence, fc.constantFrom(...nodes), (given, id) => {
        const all = listObservations(graph, given);
        const observations = all.filter((one) => !(one.kind === "call" && one.id === id));
        const odds = (of: typeof observations) => {
          const found = findPosteriorsFrom(graph, of, { alsoFor: [id] });
          const p = found.outcome === "exact" ? (found.probability[id] ?? NaN) : NaN;
          return Math.log(p / (1 - p));
        };
        const found = leaveEachOut(graph, given, nodes).get(id)!;
        expect(found.map(({ observation }) => observation)).toEqual(observations);
        for (const { observation, logOddsChange } of found) {
          expect(logOddsChange).toBeCloseTo(odds(observations) - odds(observations.filter((other) => other.kind !== observation.kind || other.id !== observation.id)), 8);
        }
      }),
      { numRuns: 100 },
    );
  }, 60_000);

  it("holds the log odds of a node that cannot be otherwise, instead of naming no number", () => {
    const sure = buildGraph({ ...parts, nodes: parts.nodes.map((node) => (node.id === "told" ? { ...node, prior: { any: 1 } } : node)) }, "any", { isSlapper: false });
    const found = leaveEachOut(sure, { ...NO_EVIDENCE, calls: { spin: "seen" }, readings: { open: 3 } }, ["told"]).get("told");
    expect(found?.map(({ logOddsChange }) => logOddsChange)).toEqual([0, 0]);
  });

  it("refuses a node that the graph does not hold", () => {
    expect(() => leaveEachOut(graph, NO_EVIDENCE, ["nowhere"])).toThrow(RangeError);
  });
});
