import type { Problem } from "./problem";
import type { Weights } from "./tables";

/** One of the terms that taking nodes as absent falls into: its factor times the total with these weights. */
export interface AheadTerm {
  readonly factor: number;
  readonly weights: ReadonlyMap<number, Weights>;
}

/** Beyond so many terms laying the nodes out with the rest is cheaper. */
const MOST_TERMS = 16;

/**
 * Takes nodes in front of the evidence as absent: P(absent | causes) is a product over the causes, so that it is what the causes'
 * states count, and nothing is laid out anew. A cause that is in front of the evidence too and counts w when present counts
 * w + (1 − w)·P(absent | its own causes): two terms, or one for a cause without causes. Anything in front of a node sums to 1.
 * @returns null when there are too many terms
 */
export function absentAhead({ graph, states, ownAt }: Problem, places: readonly number[]): readonly AheadTerm[] | null {
  let terms: { factor: number; counts: Map<number, number> }[] = [{ factor: 1, counts: new Map(places.map((place) => [place, 0])) }];
  // Effects before causes: what a node counts is known once all its effects are through.
  for (let place = graph.nodes.length - 1; place >= 0; place--) {
    const node = graph.nodes[place];
    if (!node || ownAt.has(place)) continue;
    terms = terms.flatMap((term) => {
      const count = term.counts.get(place);
      if (count === undefined) return [term];
      const counts = new Map(term.counts);
      counts.delete(place);
      const kept = { factor: term.factor * count, counts };
      if (node.parents.length === 0) return [{ factor: term.factor * (count + (1 - count) * (1 - node.leak)), counts }];
      const passed = new Map(counts);
      for (const { index, strength } of node.parents) passed.set(index, (passed.get(index) ?? 1) * (1 - strength));
      const absent = { factor: term.factor * (1 - count) * (1 - node.leak), counts: passed };
      return count === 0 ? [absent] : [kept, absent];
    });
    if (terms.length > MOST_TERMS) return null;
  }
  return terms.map(({ factor, counts }) => {
    let settled = factor;
    const weights = new Map<number, Weights>();
    for (const [place, count] of counts) {
      if (states[place] === 1) settled *= count;
      if (states[place] === -1) weights.set(place, [1, count]);
    }
    return { factor: settled, weights };
  });
}
