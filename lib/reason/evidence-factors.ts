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
  /** Number of variables: the graph's nodes by place, then the helpers. */
  readonly count: number;
  readonly factors: readonly Factor[];
}

/** Everything but the causes of the evidence is left out: what lies in front of it sums to 1. */
export function factorsOf(graph: CauseGraph, observations: readonly Observation[]): EvidenceFactors {
  const kept = ancestorsOf(graph, observations.flatMap(placesOf));
  const states = statesOf(graph, observations);
  let count = graph.nodes.length;
  const factors: Factor[] = [];
  for (const index of kept) {
    const node = graph.nodes[index];
    if (!node) continue;
    const split = noisyOrFactors(node, index, states, count);
    factors.push(...split.factors);
    if (split.usesHelper) count += 1;
  }
  for (const observation of observations) {
    if (observation.kind === "reading") factors.push(makeFactor([observation.index], [1, observation.ratio]));
    if (observation.kind === "answer") factors.push(instantiate(makeFactor(observation.indices, observation.likelihoods), states));
  }
  return { kept, states, count, factors };
}

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
