import { describe, expect, it } from "vitest";
import { buildChain, strongestPath } from "./chain";
import { buildGraph } from "./graph";
import { findPosteriors } from "./posteriors";
import { rankCauses } from "./ranking";
import type { RankingInput, RankingRules } from "./ranking-types";
import { explainNodes } from "./reasons";
import { joinWords, lowerFirst } from "./reason-sentence";
import { NO_EVIDENCE, type Evidence, type GraphParts } from "./types";

const rules: RankingRules = {
  scoreWeights: { symptoms: 0.5, self: 0.2 }, minProbability: 0.3, nearTie: { share: 0.15 }, maxShown: 3, askFirst: { maxShown: 3 },
  likelihood: { likely: { from: 0.65 }, maybe: { from: 0.3 } },
};
const parts: GraphParts = {
  nodes: [
    { id: "told", kind: "root", name: "Was told to twist", prior: { any: 0.2 } },
    { id: "weak", kind: "root", name: "Weak legs", prior: { any: 0.3 } },
    ...["spin", "open", "fold", "drag"].map((id) => ({ id, kind: "fault", leak: { any: 0.1 } })),
  ],
  edges: [
    { cause: "told", effect: "spin", strength: 0.6 },
    { cause: "weak", effect: "fold", strength: 0.4 },
    { cause: "spin", effect: "open", strength: 0.5 },
    { cause: "open", effect: "fold", strength: 0.4 },
    { cause: "fold", effect: "drag", strength: 0.3 },
  ],
  faults: [
    { id: "spin", name: "Back foot spins", phase: "one", symptoms: [] },
    { id: "open", name: "Chest opens", phase: "two", symptoms: [{ id: "roll", strength: 0.6 }] },
    { id: "fold", name: "Trunk folds", phase: "two", symptoms: [] },
    { id: "drag", name: "Barrel drags", phase: "three", symptoms: [] },
  ],
  symptoms: [{ id: "roll", name: "Rolled balls" }],
  phases: [{ id: "one", order: 1 }, { id: "two", order: 2 }, { id: "three", order: 3 }],
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const inputOf = (evidence: Partial<Evidence>): RankingInput => ({ level: "any", isSlapper: false, evidence: { ...NO_EVIDENCE, ...evidence }, changeable: {} });
const explain = (evidence: Partial<Evidence>, id: string) => explainNodes(graph, rules, inputOf(evidence), [id])[0]!;
const odds = (evidence: Partial<Evidence>, id: string) => {
  const found = findPosteriors(graph, { ...NO_EVIDENCE, ...evidence }, { alsoFor: [id] });
  const p = found.outcome === "exact" ? found.probability[id]! : NaN;
  return Math.log(p / (1 - p));
};

describe("reasons", () => {
  it("are the change of the log odds when one observation is left out, up and down, strongest first", () => {
    const calls = { open: "seen", fold: "seen" } as const;
    const found = explain({ calls, symptoms: { roll: "not-seen" }, readings: { drag: 5 } }, "spin");
    const change = found.raisedBy.find((reason) => reason.id === "open")!.logOddsChange;
    const rest = { symptoms: { roll: "not-seen" as const }, readings: { drag: 5 } };
    expect(change).toBeCloseTo(odds({ calls, ...rest }, "spin") - odds({ calls: { fold: "seen" }, ...rest }, "spin"), 10);
    const sizes = found.raisedBy.map((reason) => reason.logOddsChange);
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    expect(explain({ calls: { open: "not-seen", fold: "seen" } }, "spin").speaksAgainst.map((reason) => reason.id)).toEqual(["open"]);
  });

  it("of a fault that was called set the call aside and say what the rest thinks of it", () => {
    const found = explain({ calls: { spin: "seen", open: "seen" } }, "spin");
    expect(found.isSettledByCall).toBe(true);
    expect(found.raisedBy.map((reason) => reason.id)).toEqual(["open"]);
    expect(found.raisedBy[0]!.logOddsChange).toBeCloseTo(odds({ calls: { open: "seen" } }, "spin") - odds({}, "spin"), 10);
  });

  it("name the seen effects by reach and say in a sentence whether the candidate comes first", () => {
    const found = explain({ calls: { open: "seen", fold: "seen" }, symptoms: { roll: "seen" } }, "spin");
    expect(found.explains.map((effect) => effect.id)).toEqual(["open", "roll", "fold"]);
    expect(found.sentence).toBe("It explains “chest opens”, “rolled balls” and “trunk folds”. It comes first in the swing.");
  });

  it("do not name what changes nothing", () => {
    expect(explain({ calls: { open: "seen", told: "seen", weak: "seen" } }, "spin").raisedBy.map((reason) => reason.id)).toEqual(["told", "open"]);
  });
});

describe("the chain", () => {
  const input = inputOf({ calls: { fold: "seen" }, symptoms: { roll: "seen" } });
  const ranking = rankCauses(graph, rules, input);
  if (ranking.outcome !== "ranked") throw new Error("too wide");
  const chain = buildChain(graph, rules, input, ranking, "spin");

  it("holds the cause to ask first, the candidate, what lies between and the seen effects, in order of the swing", () => {
    expect(chain.nodes.map((node) => [node.id, node.role, node.column])).toEqual([
      ["told", "ask", 0], ["spin", "candidate", 1], ["open", "between", 2], ["fold", "effect", 2], ["roll", "effect", 3],
    ]);
    expect(chain.links.map((link) => [link.cause, link.effect, link.strength])).toEqual([
      ["told", "spin", 0.6], ["spin", "open", 0.5], ["open", "fold", 0.4], ["open", "roll", 0.6],
    ]);
  });

  it("says the same as text, link by link", () => {
    expect(chain.text).toHaveLength(chain.links.length);
    expect(chain.text[0]).toBe("“Was told to twist” often leads to “back foot spins”.");
    expect(chain.text[2]).toBe("“Chest opens” often leads to “trunk folds” (seen).");
  });

  it("follows the path with the largest product of strengths, and is empty where no path leads", () => {
    const at = (id: string) => graph.indexById.get(id)!;
    expect(strongestPath(graph, at("told"), at("fold")).map((index) => graph.nodes[index]!.id)).toEqual(["told", "spin", "open", "fold"]);
    expect(strongestPath(graph, at("weak"), at("open"))).toEqual([]);
  });
});

describe("names within a sentence", () => {
  it("are joined as people speak and lose their capital unless they open with an abbreviation", () => {
    expect([joinWords(["a"]), joinWords(["a", "b"]), joinWords(["a", "b", "c"])]).toEqual(["a", "a and b", "a, b and c"]);
    expect([lowerFirst("Chest opens"), lowerFirst("BP only")]).toEqual(["chest opens", "BP only"]);
  });
});
