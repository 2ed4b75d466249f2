import { placesOf, type Observation } from "./evidence";
import { instantiate, makeFactor, type Factor } from "./factor";
import { noisyOrFactors } from "./noisy-or-factors";
import type { CauseGraph } from "./types";

/** The pruned problem: what is left of the graph once the evidence has been put in. */
export interface EvidenceFactors {
  /** Places of the evidence and of everything that may stand behind it, rising. */
  readonly kept: readonly number[];
  /** By place: 1 seen, 0 not seen, −1 open. */
  readonly states: Int8Array;
  /** Number of variables: the graph's nodes by place, then one helper each. */
  readonly count: number;
  readonly factors: readonly Factor[];
  /** First of a node's own factors in the list, by the node's place; the others follow it. */
  readonly ownAt: ReadonlyMap<number, number>;
  /** Place in the list of the factor that a reading or an answer makes. */
  readonly factorOf: ReadonlyMap<Observation, number>;
}

/**
 * Everything but the causes of the evidence is left out: what lies in front of it sums to 1. The variables of the factors
 * depend only on which nodes are called what, not on any strength, so that other strengths fit the same tree.
 * @param alsoKeep places that are wanted beside the evidence, with their causes
 */
export function factorsOf(graph: CauseGraph, observations: readonly Observation[], alsoKeep: readonly number[] = []): EvidenceFactors {
  const kept = ancestorsOf(graph, [...observations.flatMap(placesOf), ...alsoKeep]);
  const states = statesOf(graph, observations);
  const factors: Factor[] = [];
  const ownAt = new Map<number, number>();
  for (const index of kept) {
    const node = graph.nodes[index];
    if (!node) continue;
    ownAt.set(index, factors.length);
    factors.push(...noisyOrFactors(node, index, states, helperOf(graph, index)));
  }
  const factorOf = new Map<Observation, number>();
  for (const observation of observations) {
    if (observation.kind === "reading" || observation.kind === "answer") factorOf.set(observation, factors.length);
    if (observation.kind === "reading") factors.push(instantiate(makeFactor([observation.index], [1, observation.ratio]), states));
    if (observation.kind === "answer") factors.push(instantiate(makeFactor(observation.indices, observation.likelihoods), states));
  }
  return { kept, states, count: 2 * graph.nodes.length, factors, ownAt, factorOf };
}

/** Number of the variable that splits the table of a node. */
export const helperOf = (graph: CauseGraph, index: number): number => graph.nodes.length + index;

/** The places given and all places above them, rising. */
export function ancestorsOf(graph: CauseGraph, places: readonly number[]): number[] {
  const isKept = new Uint8Array(graph.nodes.length);
  for (const place of places) isKept[place] = 1;
  for (let index = graph.nodes.length - 1; index >= 0; index--) {
    if (isKept[index]) for (const parent of graph.nodes[index]?.parents ?? []) isKept[parent.index] = 1;
  }
  return [...isKept.keys()].filter((index) => isKept[index]);
}

function statesOf(graph: CauseGraph, observations: readonly Observation[]): Int8Array {
  const states = new Int8Array(graph.nodes.length).fill(-1);
  for (const observation of observations) {
    if (observation.kind === "call" || observation.kind === "symptom") states[observation.index] = observation.isSeen ? 1 : 0;
  }
  return states;
}
