import { ImpossibleEvidenceError } from "./errors";
import type { Observation } from "./evidence";
import type { CauseGraph } from "./types";

/**
 * Refuses evidence of probability 0, by logic alone. A noisy-OR only ever helps its effects along, so it is enough to
 * look at the fullest swing that the nodes called not seen allow: every node called seen must be able to happen in it.
 * Sums of positive and negative terms could not tell 0 from a rounding error.
 * @throws ImpossibleEvidenceError naming the observations that cannot hold
 */
export function checkPossible(graph: CauseGraph, observations: readonly Observation[]): void {
  const mustBeAbsent = new Set<number>();
  const seen: { id: string; index: number }[] = [];
  for (const observation of observations) {
    if (observation.kind !== "call" && observation.kind !== "symptom") continue;
    if (observation.isSeen) seen.push(observation);
    else mustBeAbsent.add(observation.index);
  }
  const broken: string[] = [];
  for (let index = graph.nodes.length - 1; index >= 0; index--) {
    const node = graph.nodes[index];
    if (!node || !mustBeAbsent.has(index)) continue;
    if (node.leak === 1) broken.push(node.id);
    for (const parent of node.parents) if (parent.strength === 1) mustBeAbsent.add(parent.index);
  }
  const canHappen: boolean[] = [];
  graph.nodes.forEach((node, index) => {
    const isHelped = node.leak > 0 || node.parents.some((parent) => parent.strength > 0 && canHappen[parent.index]);
    canHappen.push(isHelped && !mustBeAbsent.has(index));
  });
  for (const { id, index } of seen) if (!canHappen[index]) broken.push(id);
  if (broken.length > 0) throw new ImpossibleEvidenceError(broken.sort());
}
