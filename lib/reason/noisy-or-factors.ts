import { makeFactor, type Factor } from "./factor";
import type { GraphNode } from "./types";

/** Up to so many open parents of a node go into one plain table; above that a helper variable splits the table. */
export const PLAIN_PARENTS = 2;

/**
 * P(node present | parents), for any states of the parents.
 * @param isPresent state of the parent at a place of the graph
 */
export function presentGiven(node: GraphNode, isPresent: (index: number) => boolean): number {
  let absent = 1 - node.leak;
  for (const parent of node.parents) if (isPresent(parent.index)) absent *= 1 - parent.strength;
  return 1 - absent;
}

/**
 * The factors of P(node | parents) once evidence has fixed some states (`states`: 0, 1, or −1 for open).
 *
 * A node called absent falls apart into one factor per parent. Otherwise 1 − Π and Π are two terms, and one helper
 * variable (state 0: the constant term, state 1: the product) links the node with each parent by a table of its own
 * (the multiplicative factorisation of Takikawa & D'Ambrosio 1999, Díez & Galán 2003). Its tables hold −1.
 * @param index place of the node
 * @param helper number of the helper variable, used only when needed
 */
export function noisyOrFactors(node: GraphNode, index: number, states: Int8Array, helper: number): { factors: Factor[]; usesHelper: boolean } {
  const open = node.parents.filter((parent) => states[parent.index] === -1);
  let absent = 1 - node.leak;
  for (const parent of node.parents) if (states[parent.index] === 1) absent *= 1 - parent.strength;
  const own = states[index] ?? -1;

  if (own === 0) {
    const factors = open.map((parent) => makeFactor([parent.index], [1, 1 - parent.strength]));
    return { factors: [makeFactor([], [absent]), ...factors], usesHelper: false };
  }
  if (open.length <= PLAIN_PARENTS) return { factors: [plainTable(open, own, index, absent)], usesHelper: false };

  const ends = own === 1 ? makeFactor([helper], [1, -absent]) : makeFactor([index, helper], [0, 1, absent, -absent]);
  const links = open.map((parent) => makeFactor([helper, parent.index], [1, 1, 1, 1 - parent.strength]));
  return { factors: [ends, ...links], usesHelper: true };
}

function plainTable(open: GraphNode["parents"], own: number, index: number, absent: number): Factor {
  const size = 1 << open.length;
  const absentBy = Array.from({ length: size }, (_, i) => open.reduce((p, parent, k) => (i & (1 << k) ? p * (1 - parent.strength) : p), absent));
  const present = absentBy.map((p) => 1 - p);
  const parents = open.map((parent) => parent.index);
  return own === 1 ? makeFactor(parents, present) : makeFactor([...parents, index], [...absentBy, ...present]);
}
