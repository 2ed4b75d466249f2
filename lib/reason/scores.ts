import type { RankingRules } from "./ranking-types";
import { reachFrom } from "./reach";
import type { CauseGraph, Evidence } from "./types";

/**
 * score(n) = P(n | e)·[Σ over faults f ≠ n of w(f)·reach(n, f) + weight·Σ over seen symptoms s of reach(n, s) + self·w(n)].
 * w(f) = 1 called seen, 0 called not seen, P(f | e) when only readings speak of it, else 0; for a root or intermediate
 * only a call counts.
 * @param probability posteriors; a node that is missing lies in front of the evidence, explains none of it and scores 0
 * @returns by place; 0 for symptoms and gates
 */
export function scoreNodes(graph: CauseGraph, evidence: Evidence, probability: Readonly<Record<string, number>>, weights: RankingRules["scoreWeights"]): Float64Array {
  const weight = graph.nodes.map((node) => {
    const call = evidence.calls[node.id];
    if (call === "seen") return 1;
    const isRead = node.kind === "fault" && call !== "not-seen" && evidence.readings[node.id] !== undefined;
    return isRead ? (probability[node.id] ?? 0) : 0;
  });
  return Float64Array.from(graph.nodes, (node, index) => {
    const p = probability[node.id] ?? 0;
    if (p === 0 || node.kind === "symptom" || node.isGate) return 0;
    const reach = reachFrom(graph, index);
    let explained = weights.self * (weight[index] ?? 0);
    graph.nodes.forEach((other, at) => {
      if (at === index) return;
      if (other.kind === "fault") explained += (weight[at] ?? 0) * (reach[at] ?? 0);
      else if (other.kind === "symptom" && evidence.symptoms[other.id] === "seen") explained += weights.symptoms * (reach[at] ?? 0);
    });
    return p * explained;
  });
}
