import { compareIds } from "./graph";
import type { CauseGraph, Evidence, Sight } from "./types";

/** One thing that is known, with the places of its nodes in the graph. */
export type Observation =
  | { readonly kind: "call" | "symptom"; readonly id: string; readonly index: number; readonly isSeen: boolean }
  | { readonly kind: "reading"; readonly id: string; readonly index: number; readonly ratio: number }
  | { readonly kind: "answer"; readonly id: string; readonly answer: string; readonly indices: readonly number[]; readonly likelihoods: readonly number[] };

/**
 * The observations in an order of their own: calls, symptoms, readings, answers, each by id. What is not visible is left
 * out, and so is the reading of a fault that the coach has called.
 * @throws RangeError for an id that the graph does not hold, a ratio or likelihood not above 0, more than four nodes of
 *   an answer, or a question answered twice
 */
export function listObservations(graph: CauseGraph, evidence: Evidence): Observation[] {
  const calls = sights(graph, evidence.calls, "call");
  const symptoms = sights(graph, evidence.symptoms, "symptom");
  const called = new Set(calls.map((call) => call.id));
  const readings = sorted(Object.entries(evidence.readings)).map(([id, ratio]): Observation => {
    if (!isPositive(ratio)) throw new RangeError(`the readings of "${id}" need a ratio above 0, not ${ratio}`);
    return { kind: "reading", id, index: placeOf(graph, id, false), ratio };
  });
  const answers = [...evidence.answers].sort((a, b) => compareIds(a.question, b.question)).map((answer, i, all): Observation => {
    const { question: id, nodes, likelihoods } = answer;
    if (all[i - 1]?.question === id) throw new RangeError(`the question "${id}" is answered twice`);
    if (nodes.length > 4 || new Set(nodes).size !== nodes.length) throw new RangeError(`an answer bears on one to four different nodes: "${id}"`);
    if (likelihoods.length !== 2 ** nodes.length) throw new RangeError(`the answer to "${id}" needs ${2 ** nodes.length} likelihoods, not ${likelihoods.length}`);
    if (!likelihoods.every(isPositive)) throw new RangeError(`the likelihoods of the answer to "${id}" are not all above 0`);
    return { kind: "answer", id, answer: answer.answer, indices: nodes.map((node) => placeOf(graph, node, false)), likelihoods };
  });
  return [...calls, ...symptoms, ...readings.filter((reading) => !called.has(reading.id)), ...answers];
}

/** Places of the nodes an observation speaks about. */
export function placesOf(observation: Observation): readonly number[] {
  return observation.kind === "answer" ? observation.indices : [observation.index];
}

function sights(graph: CauseGraph, given: Readonly<Record<string, Sight>>, kind: "call" | "symptom"): (Observation & { kind: "call" | "symptom" })[] {
  return sorted(Object.entries(given))
    .filter(([, sight]) => sight !== "not-visible")
    .map(([id, sight]) => ({ kind, id, index: placeOf(graph, id, kind === "symptom"), isSeen: sight === "seen" }));
}

function placeOf(graph: CauseGraph, id: string, isSymptom: boolean): number {
  const index = graph.indexById.get(id);
  if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  if ((graph.nodes[index]?.kind === "symptom") !== isSymptom) throw new RangeError(`"${id}" is ${isSymptom ? "no symptom" : "a symptom"}`);
  return index;
}

function sorted<T>(entries: readonly [string, T][]): [string, T][] {
  return [...entries].sort(([a], [b]) => compareIds(a, b));
}

function isPositive(value: number): boolean {
  return value > 0 && Number.isFinite(value);
}
