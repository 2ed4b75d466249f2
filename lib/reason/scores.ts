import type { RankingRules } from "./ranking-types";
import { allReaches } from "./reach";
import type { CauseGraph, Evidence } from "./types";

/** Scores by place for posteriors by place; what does not depend on the posteriors is worked out once. */
export type Scorer = (probability: Float64Array) => Float64Array;

/**
 * score(n) = P(n | e)·[Σ over faults f ≠ n of w(f)·reach(n, f) + weight·Σ over seen symptoms s of reach(n, s) + self·w(n)].
 * w(f) = 1 called seen, 0 called not seen, P(f | e) when only readings speak of it, else 0; for a root or intermediate
 * only a call counts.
 * @returns a function of the posteriors by place, 0 for a node in front of the evidence, which explains none of it; its
 *   scores are 0 for symptoms and gates
 */
export function makeScorer(graph: CauseGraph, evidence: Evidence, weights: RankingRules["scoreWeights"]): Scorer {
  const reaches = allReaches(graph);
  const places = graph.nodes.map((_, place) => place);
  const kindOf = (place: number) => graph.nodes[place]?.kind;
  const idOf = (place: number) => graph.nodes[place]?.id ?? "";
  const isCalledSeen = (place: number) => evidence.calls[idOf(place)] === "seen";
  const seenFaults = places.filter((place) => kindOf(place) === "fault" && isCalledSeen(place));
  const seenSymptoms = places.filter((place) => kindOf(place) === "symptom" && evidence.symptoms[idOf(place)] === "seen");
  const read = places.filter((place) => {
    const call = evidence.calls[idOf(place)];
    return kindOf(place) === "fault" && call !== "seen" && call !== "not-seen" && evidence.readings[idOf(place)] !== undefined;
  });
  const settled = places.map((place) => {
    const reach = reaches[place] ?? [];
    let explained = isCalledSeen(place) ? weights.self : 0;
    for (const fault of seenFaults) if (fault !== place) explained += reach[fault] ?? 0;
    for (const symptom of seenSymptoms) explained += weights.symptoms * (reach[symptom] ?? 0);
    return explained;
  });
  const isRead = new Set(read);
  return (probability) =>
    Float64Array.from(places, (place) => {
      const p = probability[place] ?? 0;
      const node = graph.nodes[place];
      if (!(p > 0) || !node || node.kind === "symptom" || node.isGate) return 0;
      let explained = settled[place] ?? 0;
      if (isRead.has(place)) explained += weights.self * p;
      for (const fault of read) if (fault !== place) explained += (probability[fault] ?? 0) * (reaches[place]?.[fault] ?? 0);
      return p * explained;
    });
}

/** Scores by place from posteriors by id. */
export function scoreNodes(graph: CauseGraph, evidence: Evidence, probability: Readonly<Record<string, number>>, weights: RankingRules["scoreWeights"]): Float64Array {
  return makeScorer(graph, evidence, weights)(byPlace(graph, probability));
}

/** Posteriors by id as an array by place; 0 where there is none. */
export function byPlace(graph: CauseGraph, probability: Readonly<Record<string, number>>): Float64Array {
  return Float64Array.from(graph.nodes, (node) => probability[node.id] ?? 0);
}
