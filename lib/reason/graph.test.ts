import { describe, expect, it } from "vitest";
import { GraphError } from "./errors";
import { buildGraph } from "./graph";
import type { GraphParts } from "./types";

const parts: GraphParts = {
  nodes: [
    { id: "late", kind: "fault", leak: { young: 0.1 } },
    { id: "fear", kind: "root", name: "Fear", prior: { young: 0.2 }, gate: true },
    { id: "drag", kind: "fault", leak: { young: 0.1 } },
    { id: "slap", kind: "fault", leak: { young: 0.1 }, onlyFor: "slap" },
  ],
  edges: [
    { cause: "late", effect: "drag", strength: 0.4 },
    { cause: "fear", effect: "late", strength: 0.5 },
    { cause: "slap", effect: "drag", strength: 0.3 },
  ],
  faults: [
    { id: "drag", name: "Drag", phase: "launch", symptoms: [{ id: "pop", strength: 0.2 }] },
    { id: "late", name: "Late", phase: "stride", symptoms: [] },
    { id: "slap", name: "Slap", phase: "stride", symptoms: [{ id: "slap-pop", strength: 0.2 }] },
  ],
  symptoms: [{ id: "slap-pop", name: "Slap pop", onlyFor: "slap" }, { id: "pop", name: "Pop" }],
  phases: [{ id: "stride", order: 3 }, { id: "launch", order: 5 }],
  symptomLeak: 0.03,
};

const build = (over: Partial<GraphParts> = {}, isSlapper = false) => buildGraph({ ...parts, ...over }, "young", { isSlapper });

describe("a cause graph", () => {
  it("stands causes first, with names and phases of the faults' own records", () => {
    const graph = build();
    expect(graph.nodes.map((node) => node.id)).toEqual(["fear", "late", "drag", "pop"]);
    expect(graph.nodes.map((node) => node.phaseOrder)).toEqual([null, 3, 5, null]);
    expect(graph.nodes[2]).toMatchObject({ name: "Drag", parents: [{ index: 1, strength: 0.4 }] });
    expect(graph.nodes.map((node) => node.isGate)).toEqual([true, false, false, false]);
  });

  it("holds the slap nodes and their links only for a slapper", () => {
    expect(build({}, true).nodes.map((node) => node.id)).toEqual(["fear", "late", "slap", "drag", "pop", "slap-pop"]);
    expect(build().nodes.flatMap((node) => node.parents)).toHaveLength(3);
  });

  it("cannot be changed", () => {
    expect(Object.isFrozen(build().nodes[2]?.parents)).toBe(true);
    expect(Object.isFrozen(build().nodes[2])).toBe(true);
  });

  it.each<[string, Partial<GraphParts>, RegExp]>([
    ["a circle", { edges: [...parts.edges, { cause: "drag", effect: "late", strength: 0.1 }] }, /circle: (late → drag → late|drag → late → drag)/],
    ["a strength above 1", { edges: [{ cause: "fear", effect: "late", strength: 1.2 }] }, /"fear" → "late".*1\.2/],
    ["a strength that is no number", { edges: [{ cause: "fear", effect: "late", strength: NaN }] }, /"fear" → "late".*NaN/],
    ["a link to nowhere", { edges: [{ cause: "fear", effect: "gone", strength: 0.2 }] }, /leads nowhere: there is no "gone"/],
    ["a link from nowhere", { edges: [{ cause: "gone", effect: "late", strength: 0.2 }] }, /starts nowhere: there is no "gone"/],
    ["a link to a root", { edges: [{ cause: "late", effect: "fear", strength: 0.2 }] }, /"late" → "fear" leads to a root/],
    ["a link that is there twice", { edges: [...parts.edges, { cause: "fear", effect: "late", strength: 0.2 }] }, /"fear" → "late" is there twice/],
    ["a missing prior", { nodes: parts.nodes.map((node) => (node.id === "fear" ? { ...node, prior: { old: 0.2 } } : node)) }, /"fear" has no prior for level "young"/],
    ["a missing leak", { nodes: parts.nodes.map((node) => (node.id === "drag" ? { id: "drag", kind: "fault" } : node)) }, /"drag" has no leak/],
    ["a leak below 0", { nodes: parts.nodes.map((node) => (node.id === "drag" ? { ...node, leak: { young: -0.1 } } : node)) }, /leak of "drag" is outside/],
    ["an id used twice", { symptoms: [...parts.symptoms, { id: "drag", name: "Drag" }] }, /two nodes are called "drag"/],
    ["a fault without a record", { faults: parts.faults.filter((fault) => fault.id !== "late") }, /"late" has no record/],
    ["a phase that is not known", { phases: [{ id: "stride", order: 3 }] }, /"drag" names no known phase \("launch"\)/],
    ["a kind that is not known", { nodes: [...parts.nodes, { id: "odd", kind: "thing" }] }, /"odd" is of no known kind/],
  ])("is refused with %s, naming it", (_, over, message) => {
    expect(() => build(over)).toThrow(GraphError);
    expect(() => build(over)).toThrow(message);
  });

  it("names everything that is wrong at once", () => {
    expect(() => build({ edges: [{ cause: "fear", effect: "late", strength: 2 }, { cause: "x", effect: "drag", strength: 0.1 }] })).toThrow(/"fear" → "late".*"x"/);
  });
});
