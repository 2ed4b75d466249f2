import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom, type Random } from "@/lib/core/random";
import { ImpossibleEvidenceError } from "./errors";
import { buildGraph } from "./graph";
import { presentGiven } from "./noisy-or-factors";
import { findPosteriors, findPrior } from "./posteriors";
import { NO_EVIDENCE, type CauseGraph, type CausePart, type EdgePart, type Evidence, type GraphParts, type Sight } from "./types";

function partsOf(nodes: readonly CausePart[], edges: readonly EdgePart[]): GraphParts {
  const faults = nodes.filter((node) => node.kind === "fault").map(({ id }) => ({ id, name: id, phase: "p", symptoms: [] }));
  return { nodes, edges, faults, symptoms: [], phases: [{ id: "p", order: 1 }], symptomLeak: 0.03 };
}

function shuffled<T>(items: readonly T[], random: Random): T[] {
  const deck = [...items];
  for (let i = deck.length - 1; i > 0; i--) {
    const j = Math.floor(random.uniform() * (i + 1));
    [deck[i], deck[j]] = [deck[j]!, deck[i]!];
  }
  return deck;
}

const shuffleRecord = <T>(record: Readonly<Record<string, T>>, random: Random) => Object.fromEntries(shuffled(Object.entries(record), random)) as Record<string, T>;

/** A random network with symptoms, in no order, and evidence of every kind. */
function randomCase(seed: number): { parts: GraphParts; evidence: Evidence } {
  const random = seededRandom(seed);
  const within = (low: number, high: number) => low + (high - low) * random.uniform();
  const count = 3 + Math.floor(random.uniform() ** 3 * 14);
  const symptomCount = Math.min(count - 2, Math.floor(random.uniform() * 4));
  const kinds = Array.from({ length: count }, (_, i) => (i >= count - symptomCount ? "symptom" : i < 2 || random.uniform() < 0.3 ? "root" : "fault"));
  const ids = shuffled(kinds.map((_, i) => `n${i}`), random);
  const links: EdgePart[] = [];
  kinds.forEach((kind, to) => {
    if (kind === "root") return;
    for (let from = 0; from < to; from++) {
      const fits = kind === "symptom" ? kinds[from] === "fault" : kinds[from] !== "symptom";
      if (fits && random.uniform() < 0.5) links.push({ cause: ids[from]!, effect: ids[to]!, strength: within(0.02, 0.95) });
    }
  });
  const isSymptom = (id: string) => kinds[ids.indexOf(id)] === "symptom";
  const inner = ids.filter((id) => !isSymptom(id));
  const nodes = inner.map((id): CausePart => {
    const value = { any: within(0.01, 0.6) };
    return kinds[ids.indexOf(id)] === "root" ? { id, kind: "root", prior: value } : { id, kind: "fault", leak: value };
  });
  const parts: GraphParts = {
    ...partsOf(shuffled(nodes, random), shuffled(links.filter((link) => !isSymptom(link.effect)), random)),
    faults: inner.filter((id) => kinds[ids.indexOf(id)] === "fault").map((id) => ({
      id, name: id, phase: "p",
      symptoms: links.filter((link) => link.cause === id && isSymptom(link.effect)).map((link) => ({ id: link.effect, strength: link.strength })),
    })),
    symptoms: shuffled(ids.filter(isSymptom), random).map((id) => ({ id, name: id })),
  };
  const sight = (): Sight => (["seen", "not-seen", "not-visible"] as const)[Math.floor(random.uniform() * 3)]!;
  const some = (from: readonly string[], share: number) => from.filter(() => random.uniform() < share);
  const evidence: Evidence = {
    calls: Object.fromEntries(some(inner, 0.4).map((id) => [id, sight()])),
    symptoms: Object.fromEntries(some(ids.filter(isSymptom), 0.7).map((id) => [id, sight()])),
    readings: Object.fromEntries(some(inner, 0.3).map((id) => [id, Math.exp(2 * random.normal())])),
    answers: some(["q1", "q2"], 0.5).map((question) => {
      const about = shuffled(inner, random).slice(0, 1 + Math.floor(random.uniform() * 4));
      return { question, answer: "a", nodes: about, likelihoods: Array.from({ length: 2 ** about.length }, () => within(0.02, 0.98)) };
    }),
  };
  return { parts, evidence };
}

/** All posteriors by summing over every state of the network. */
function enumerate(graph: CauseGraph, evidence: Evidence): { total: number; probability: Record<string, number> } {
  const count = graph.nodes.length;
  const place = (id: string) => graph.indexById.get(id)!;
  const called = (id: string) => evidence.calls[id] === "seen" || evidence.calls[id] === "not-seen";
  const present = new Float64Array(count);
  const sights = [...Object.entries(evidence.calls), ...Object.entries(evidence.symptoms)].filter(([, sight]) => sight !== "not-visible");
  const mustBe = sights.map(([id, sight]) => [place(id), sight === "seen"] as const);
  const ratios = Object.entries(evidence.readings).filter(([id]) => !called(id)).map(([id, ratio]) => [place(id), ratio] as const);
  const answers = evidence.answers.map(({ nodes, likelihoods }) => [nodes.map(place), likelihoods] as const);
  let total = 0;
  for (let state = 0; state < 2 ** count; state++) {
    const has = (index: number) => (state & (1 << index)) !== 0;
    if (mustBe.some(([index, isSeen]) => has(index) !== isSeen)) continue;
    let weight = 1;
    graph.nodes.forEach((node, index) => {
      const p = presentGiven(node, has);
      weight *= has(index) ? p : 1 - p;
    });
    for (const [index, ratio] of ratios) if (has(index)) weight *= ratio;
    for (const [places, likelihoods] of answers) weight *= likelihoods[places.reduce((bits, index, k) => (has(index) ? bits | (1 << k) : bits), 0)]!;
    total += weight;
    for (let index = 0; index < count; index++) if (has(index)) present[index]! += weight;
  }
  return { total, probability: Object.fromEntries(graph.nodes.map((node, index) => [node.id, present[index]! / total])) };
}

function exactly(graph: CauseGraph, evidence: Evidence, alsoFor?: readonly string[]) {
  const found = findPosteriors(graph, evidence, { alsoFor });
  if (found.outcome !== "exact") throw new Error("too wide");
  return found;
}

const graphOf = (parts: GraphParts) => buildGraph(parts, "any", { isSlapper: false });

describe("posteriors", () => {
  it("agree with summing over every state, on 200 random networks of up to 16 nodes with evidence of every kind", () => {
    let largest = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { parts, evidence } = randomCase(seed);
      const graph = graphOf(parts);
      const truth = enumerate(graph, evidence);
      const found = exactly(graph, evidence, graph.nodes.map((node) => node.id));
      expect(Math.abs(found.logLikelihood - Math.log(truth.total))).toBeLessThan(1e-10);
      for (const { id } of graph.nodes) largest = Math.max(largest, Math.abs(found.probability[id]! - truth.probability[id]!));
    }
    expect(largest).toBeLessThan(1e-12);
  }, 60_000);

  it("do not depend, to the last bit, on the order in which anything is given", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const { parts, evidence } = randomCase(seed);
        const random = seededRandom(seed + 1);
        const mixed: GraphParts = {
          ...parts,
          nodes: shuffled(parts.nodes, random),
          edges: shuffled(parts.edges, random),
          faults: shuffled(parts.faults, random).map((fault) => ({ ...fault, name: `name ${random.uniform()}`, symptoms: shuffled(fault.symptoms, random) })),
          symptoms: shuffled(parts.symptoms, random),
        };
        const again: Evidence = {
          calls: shuffleRecord(evidence.calls, random),
          symptoms: shuffleRecord(evidence.symptoms, random),
          readings: shuffleRecord(evidence.readings, random),
          answers: shuffled(evidence.answers, random),
        };
        const graph = graphOf(parts);
        const ids = graph.nodes.map((node) => node.id);
        expect(exactly(graphOf(mixed), again, shuffled(ids, random)).probability).toEqual(exactly(graph, evidence, ids).probability);
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  it("do not depend on what the ids are", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { parts, evidence } = randomCase(seed);
      const rename = (id: string) => `${(Number(id.slice(1)) * 7) % 17}-other`;
      const keys = <T>(record: Readonly<Record<string, T>>) => Object.fromEntries(Object.entries(record).map(([id, value]) => [rename(id), value]));
      const renamed: GraphParts = {
        ...parts,
        nodes: parts.nodes.map((node) => ({ ...node, id: rename(node.id) })),
        edges: parts.edges.map((edge) => ({ ...edge, cause: rename(edge.cause), effect: rename(edge.effect) })),
        faults: parts.faults.map((fault) => ({ ...fault, id: rename(fault.id), symptoms: fault.symptoms.map((link) => ({ ...link, id: rename(link.id) })) })),
        symptoms: parts.symptoms.map((symptom) => ({ ...symptom, id: rename(symptom.id) })),
      };
      const before = exactly(graphOf(parts), evidence).probability;
      const after = exactly(graphOf(renamed), {
        calls: keys(evidence.calls), symptoms: keys(evidence.symptoms), readings: keys(evidence.readings),
        answers: evidence.answers.map((answer) => ({ ...answer, nodes: answer.nodes.map(rename) })),
      }).probability;
      expect(Object.keys(after).length).toBe(Object.keys(before).length);
      for (const [id, p] of Object.entries(before)) expect(after[rename(id)]).toBeCloseTo(p, 12);
    }
  });

  it("are untouched by what is not visible, by a ratio of 1 and by an answer that is equally likely either way", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { parts, evidence } = randomCase(seed);
      const graph = graphOf(parts);
      const ids = graph.nodes.map((node) => node.id);
      const before = exactly(graph, evidence, ids).probability;
      const inner = graph.nodes.filter((node) => node.kind !== "symptom").map((node) => node.id);
      const free = inner.filter((id) => evidence.calls[id] === undefined && evidence.readings[id] === undefined);
      const more: Evidence = {
        ...evidence,
        calls: { ...Object.fromEntries(inner.map((id) => [id, "not-visible" as const])), ...evidence.calls },
        readings: { ...evidence.readings, ...Object.fromEntries(free.slice(0, 2).map((id) => [id, 1])) },
        answers: [...evidence.answers, { question: "idle", answer: "any", nodes: [inner[0]!], likelihoods: [0.3, 0.3] }],
      };
      const after = exactly(graph, more, ids).probability;
      for (const id of ids) expect(after[id]).toBeCloseTo(before[id]!, 12);
    }
  });

  it("let a call replace the readings of its fault", () => {
    const graph = graphOf(partsOf([{ id: "r", kind: "root", prior: { any: 0.2 } }, { id: "f", kind: "fault", leak: { any: 0.1 } }], [{ cause: "r", effect: "f", strength: 0.5 }]));
    const called: Evidence = { ...NO_EVIDENCE, calls: { f: "not-seen" } };
    expect(exactly(graph, { ...called, readings: { f: 12 } })).toEqual(exactly(graph, called));
  });
});

describe("a noisy-OR graph", () => {
  const two = partsOf(
    [{ id: "a", kind: "root", prior: { any: 0.1 } }, { id: "b", kind: "root", prior: { any: 0.2 } }, { id: "f", kind: "fault", leak: { any: 0.05 } }],
    [{ cause: "a", effect: "f", strength: 0.6 }, { cause: "b", effect: "f", strength: 0.4 }],
  );

  it("explains away: knowing one cause of a seen effect makes the other less likely, but not less than before", () => {
    const graph = graphOf(two);
    const seen = exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen" } }).probability.a!;
    const both = exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen", b: "seen" } }).probability.a!;
    expect(both).toBeLessThan(seen);
    expect(both).toBeGreaterThan(findPrior(graph, "a"));
    expect(exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen", b: "not-seen" } }).probability.a).toBeGreaterThan(seen);
  });

  it("an effect that is seen raises its only cause, one that is not seen lowers it", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.9, noNaN: true }), fc.double({ min: 0.05, max: 0.95, noNaN: true }), fc.double({ min: 0.01, max: 0.9, noNaN: true }), (prior, strength, leak) => {
        const graph = graphOf(partsOf([{ id: "a", kind: "root", prior: { any: prior } }, { id: "f", kind: "fault", leak: { any: leak } }], [{ cause: "a", effect: "f", strength }]));
        expect(exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen" } }).probability.a).toBeGreaterThan(prior);
        expect(exactly(graph, { ...NO_EVIDENCE, calls: { f: "not-seen" } }).probability.a).toBeLessThan(prior);
      }),
    );
  });

  it("leaves causes of different effects alone, and a node without evidence at its prior", () => {
    const graph = graphOf(partsOf(
      [...two.nodes, { id: "c", kind: "root", prior: { any: 0.3 } }, { id: "g", kind: "fault", leak: { any: 0.1 } }],
      [...two.edges, { cause: "c", effect: "g", strength: 0.5 }],
    ));
    const found = exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen" } }, ["c", "g"]).probability;
    expect(found.c).toBeCloseTo(0.3, 14);
    expect(found.g).toBeCloseTo(1 - 0.9 * (1 - 0.3 * 0.5), 14);
    expect(exactly(graph, { ...NO_EVIDENCE, calls: { f: "seen" } }).probability.g).toBeUndefined();
  });

  it("refuses evidence of probability 0 by name, however long the way", () => {
    const chain = graphOf(partsOf(
      [{ id: "a", kind: "root", prior: { any: 0.5 } }, { id: "b", kind: "fault", leak: { any: 0 } }, { id: "c", kind: "fault", leak: { any: 0.2 } }, { id: "d", kind: "fault", leak: { any: 0 } }],
      [{ cause: "a", effect: "b", strength: 0.5 }, { cause: "a", effect: "c", strength: 1 }, { cause: "b", effect: "d", strength: 0.7 }],
    ));
    const impossible: Evidence = { ...NO_EVIDENCE, calls: { c: "not-seen", d: "seen" } };
    expect(() => findPosteriors(chain, impossible)).toThrow(ImpossibleEvidenceError);
    expect(() => findPosteriors(chain, impossible)).toThrow(/cannot all hold.*d/);
    expect(exactly(chain, { ...NO_EVIDENCE, calls: { c: "seen", d: "seen" } }).probability.a).toBe(1);
    expect(exactly(chain, { ...NO_EVIDENCE, calls: { c: "not-seen" } }, ["d"]).probability.d).toBe(0);
  });

  it("says too wide instead of pretending", () => {
    expect(findPosteriors(graphOf(two), { ...NO_EVIDENCE, calls: { f: "seen" } }, { widthCap: 1 })).toEqual({ outcome: "too-wide", width: 2 });
  });

  it("refuses evidence that it does not know or that is no number, naming it", () => {
    const graph = graphOf(two);
    expect(() => findPosteriors(graph, { ...NO_EVIDENCE, calls: { nobody: "seen" } })).toThrow(/holds no "nobody"/);
    expect(() => findPosteriors(graph, { ...NO_EVIDENCE, symptoms: { f: "seen" } })).toThrow(/"f" is no symptom/);
    expect(() => findPosteriors(graph, { ...NO_EVIDENCE, readings: { f: 0 } })).toThrow(/"f".*above 0/);
    expect(() => findPosteriors(graph, { ...NO_EVIDENCE, answers: [{ question: "q", answer: "x", nodes: ["f"], likelihoods: [1, 2, 3] }] })).toThrow(/"q" needs 2/);
  });
});
