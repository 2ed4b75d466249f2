import type { Problem } from "./problem";
import type { Change } from "./tree";

/** What taking nodes as absent changes: the total is that of the change times the factor. */
export interface AbsentAhead {
  readonly factor: number;
  readonly tables: NonNullable<Change["tables"]>;
}

/**
 * Takes nodes in front of the evidence as absent: P(absent | causes) is a product over the causes, so that it is other numbers in the
 * causes' own tables, and nothing is laid out anew. Anything in front of a node sums to 1.
 * @returns null when a cause of one of them is not kept by the problem
 */
export function absentAhead({ graph, states, ownAt, factors }: Problem, places: readonly number[]): AbsentAhead | null {
  let factor = 1;
  const tables = new Map<number, Float64Array>();
  for (const place of places) {
    const node = graph.nodes[place];
    if (!node) return null;
    factor *= 1 - node.leak;
    for (const { index, strength } of node.parents) {
      const [state, at] = [states[index], ownAt.get(index)];
      if (at === undefined) return null;
      if (state === 1) factor *= 1 - strength;
      if (state !== -1) continue;
      const bit = 1 << (factors[at]?.variables.indexOf(index) ?? 0);
      const before = tables.get(at) ?? factors[at]?.table;
      if (before) tables.set(at, before.map((number, i) => (i & bit ? number * (1 - strength) : number)));
    }
  }
  return { factor, tables };
}
