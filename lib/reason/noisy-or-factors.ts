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
export function noisyOrFactors(node: GraphNode, index: number, states: Int8Array, helper: number): Factor[] {
  const open = openParents(node, states);
  const absent = absentByFixed(node, states);
  const own = states[index] ?? -1;
  if (own === 0) return [makeFactor([], [absent]), ...open.map((parent) => makeFactor([parent.index], [1, 1 - parent.strength]))];
  if (open.length <= PLAIN_PARENTS) return [plainTable(open, own, index, absent)];
  const ends = own === 1 ? makeFactor([helper], [1, -absent]) : makeFactor([index, helper], [0, 1, absent, -absent]);
  return [ends, ...open.map((parent) => makeFactor([helper, parent.index], [1, 1, 1, 1 - parent.strength]))];
}

/** Other numbers for the first of a node's own factors; the variables stay. */
export type FirstTable = Float64Array;

/** The first own factor of a node that keeps its call (or stays open), when a call of one of its parents changed. */
export function firstTableWith(node: GraphNode, index: number, states: Int8Array, helper: number): FirstTable {
  return noisyOrFactors(node, index, states, helper)[0]?.table ?? new Float64Array([1]);
}

/** The first own factor of a node called seen, when it is taken as absent instead: the term Π alone. */
export function firstTableAbsent(node: GraphNode, states: Int8Array): FirstTable {
  const open = openParents(node, states);
  const absent = absentByFixed(node, states);
  return open.length <= PLAIN_PARENTS ? absentTable(open, absent) : Float64Array.of(0, absent);
}

function openParents(node: GraphNode, states: Int8Array): GraphNode["parents"] {
  return node.parents.filter((parent) => states[parent.index] === -1);
}

function absentByFixed(node: GraphNode, states: Int8Array): number {
  let absent = 1 - node.leak;
  for (const parent of node.parents) if (states[parent.index] === 1) absent *= 1 - parent.strength;
  return absent;
}

function absentTable(open: GraphNode["parents"], absent: number): Float64Array {
  return Float64Array.from({ length: 1 << open.length }, (_, i) => open.reduce((p, parent, k) => (i & (1 << k) ? p * (1 - parent.strength) : p), absent));
}

function plainTable(open: GraphNode["parents"], own: number, index: number, absent: number): Factor {
  const absentBy = absentTable(open, absent);
  const present = absentBy.map((p) => 1 - p);
  const parents = open.map((parent) => parent.index);
  return own === 1 ? makeFactor(parents, present) : makeFactor([...parents, index], [...absentBy, ...present]);
}
