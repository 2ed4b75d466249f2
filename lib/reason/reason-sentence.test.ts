import { describe, expect, it } from "vitest";
import { buildGraph } from "./graph";
import { explainSentence, type ExplainedEffect } from "./reason-sentence";
import { NO_EVIDENCE, type Evidence, type GraphParts } from "./types";

const NAMES = { spin: "Back foot spins", open: "Chest opens", fold: "Trunk folds", drag: "Barrel drags", far: "Stands far away" };
const PHASES = { spin: 1, open: 2, fold: 2, drag: 3, far: 1 };
const ids = ["spin", "open", "fold", "drag", "far"] as const;
const parts: GraphParts = {
  nodes: [{ id: "told", kind: "root", name: "Was told to twist", prior: { any: 0.2 } }, ...ids.map((id) => ({ id, kind: "fault", leak: { any: 0.1 } }))],
  edges: [
    { cause: "told", effect: "spin", strength: 0.6 },
    { cause: "spin", effect: "open", strength: 0.5 },
    { cause: "open", effect: "fold", strength: 0.4 },
    { cause: "fold", effect: "drag", strength: 0.3 },
  ],
  faults: ids.map((id) => ({ id, name: NAMES[id], phase: `phase-${PHASES[id]}`, symptoms: [] })),
  symptoms: [],
  phases: [1, 2, 3].map((order) => ({ id: `phase-${order}`, order })),
  symptomLeak: 0.03,
};
const graph = buildGraph(parts, "any", { isSlapper: false });
const effect = (id: (typeof ids)[number], reach: number): ExplainedEffect => ({ id, name: NAMES[id], reach, phaseOrder: PHASES[id] });
const say = (evidence: Partial<Evidence>, id: string, explains: readonly ExplainedEffect[] = []) => explainSentence(graph, { ...NO_EVIDENCE, ...evidence }, id, explains);

describe("the sentence under a candidate", () => {
  it("names what it explains, and says when it comes first in the swing", () => {
    const calls = { open: "seen", fold: "seen" } as const;
    expect(say({ calls }, "spin", [effect("open", 0.5), effect("fold", 0.2)])).toBe("It explains “chest opens” and “trunk folds”. It comes first in the swing.");
    expect(say({ calls: { ...calls, far: "seen" } }, "open", [effect("fold", 0.4)])).toBe("Seen. It explains “trunk folds”.");
  });

  it("names three effects at most and counts the others", () => {
    const explains = [effect("open", 0.5), effect("fold", 0.4), effect("drag", 0.3), effect("far", 0.2)];
    expect(say({}, "spin", explains)).toBe("It explains “chest opens”, “trunk folds”, “barrel drags” and one thing more. It comes first in the swing.");
    expect(say({}, "spin", [...explains, effect("far", 0.1)])).toMatch(/and 2 things more\./);
  });

  it("says what it may itself follow from: of what was seen before it the one that carries furthest", () => {
    expect(say({ calls: { spin: "seen", open: "seen", fold: "seen" } }, "open", [effect("fold", 0.4)])).toBe("Seen. It explains “trunk folds”. It may itself follow from “back foot spins”.");
    expect(say({ calls: { told: "seen", spin: "seen" } }, "spin")).toBe("Seen. It may follow from “was told to twist”, and leads on to nothing else that was seen.");
    expect(say({ calls: { spin: "seen", open: "seen" }, readings: { fold: 4 } }, "fold")).toBe("Its own readings point to it, and it may follow from “chest opens”.");
    expect(say({ calls: { spin: "seen" } }, "open")).toBe("Not looked at yet. It may follow from “back foot spins”.");
    expect(say({ calls: { spin: "not-seen", open: "seen" } }, "open")).not.toMatch(/follow/);
  });

  it("says that it stands alone when nothing else that was seen belongs to it", () => {
    expect(say({ calls: { drag: "seen", far: "seen" } }, "drag")).toBe("Seen. Nothing else that was seen goes with it: it stands alone.");
    expect(say({ readings: { drag: 6 } }, "drag")).toBe("Its own readings point to it. Nothing else that was seen goes with it.");
    expect(say({ calls: { far: "seen" } }, "drag")).toBe("Not looked at yet. Little that was seen so far points to it.");
  });

  it("refuses a candidate that the graph does not hold", () => {
    expect(() => say({}, "nowhere")).toThrow(RangeError);
  });
});
