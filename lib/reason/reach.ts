import type { CauseGraph } from "./types";

/** From which reach on a cause is said to explain an effect, 0–1. */
export const EXPLAINS_FROM = 0.1;

/**
 * How far one node carries into every other: reach(a, a) = 1; reach(a, b) = 1 − Π over parents c of b of
 * (1 − strength(c, b)·reach(a, c)); 0 where no path leads. The same for symptoms.
 * @param from place of a; the result stands by place
 */
export function reachFrom(graph: CauseGraph, from: number): Float64Array {
  const reach = new Float64Array(graph.nodes.length);
  reach[from] = 1;
  for (let index = from + 1; index < graph.nodes.length; index++) {
    let missed = 1;
    for (const parent of graph.nodes[index]?.parents ?? []) missed *= 1 - parent.strength * (reach[parent.index] ?? 0);
    reach[index] = 1 - missed;
  }
  return reach;
}

const reaches = new WeakMap<CauseGraph, readonly Float64Array[]>();

/** The reach from every node, by place; kept for the next time. */
export function allReaches(graph: CauseGraph): readonly Float64Array[] {
  const known = reaches.get(graph);
  if (known) return known;
  const found = graph.nodes.map((_, place) => reachFrom(graph, place));
  reaches.set(graph, found);
  return found;
}
