import { findOrder } from "./elimination-order";
import { listObservations, type Observation } from "./evidence";
import { factorsOf, helperOf, type EvidenceFactors } from "./evidence-factors";
import { instantiate, makeFactor } from "./factor";
import { WIDTH_CAP, type TooWide } from "./marginals";
import { firstTableAbsent, firstTableWith } from "./noisy-or-factors";
import { checkPossible } from "./possible";
import { layOut, sharesWith, totalWith, type Change, type Tree } from "./tree";
import type { CauseGraph, Evidence } from "./types";

/** A graph with its evidence put in and its elimination laid out: every further question about it is one pass. */
export interface Problem extends EvidenceFactors {
  readonly outcome: "exact";
  readonly graph: CauseGraph;
  readonly observations: readonly Observation[];
  readonly tree: Tree;
}

/**
 * Prunes, puts the evidence in, splits, and lays the elimination out.
 * @param alsoKeep places wanted beside the evidence
 * @throws ImpossibleEvidenceError when the evidence has probability 0
 */
export function poseProblem(graph: CauseGraph, observations: readonly Observation[], options: { widthCap?: number; alsoKeep?: readonly number[] } = {}): Problem | TooWide {
  checkPossible(graph, observations);
  const found = factorsOf(graph, observations, options.alsoKeep);
  const order = findOrder(found.count, found.factors.map((factor) => factor.variables));
  if (order.width > (options.widthCap ?? WIDTH_CAP)) return { outcome: "too-wide", width: order.width };
  return { outcome: "exact", graph, observations, ...found, tree: layOut(found.count, found.factors, order) };
}

const posed = new WeakMap<CauseGraph, WeakMap<Evidence, Problem | TooWide>>();

/** The problem of some evidence, laid out once for ranking, reasons and next question. @throws as `listObservations` and `poseProblem` do */
export function problemOf(graph: CauseGraph, evidence: Evidence): Problem | TooWide {
  const known = posed.get(graph) ?? new WeakMap<Evidence, Problem | TooWide>();
  posed.set(graph, known);
  const problem = known.get(evidence) ?? poseProblem(graph, listObservations(graph, evidence));
  known.set(evidence, problem);
  return problem;
}

/** A pass each way: the total in the scale of the tree, and by place the posterior of every kept node; 0 for the others. */
export function presentWith({ graph, kept, states, count, tree }: Problem, change: Change = {}): { total: number; present: Float64Array } {
  const { total, share } = sharesWith(tree, count, change);
  const present = new Float64Array(graph.nodes.length);
  for (const index of kept) {
    const state = states[index] ?? -1;
    present[index] = state >= 0 ? state : (share[index] ?? NaN);
  }
  return { total, present };
}

/** One pass counts so many times towards a total. */
export interface Term {
  readonly sign: 1 | -1;
  readonly change: Change;
}

/** The terms of the total as it stands. */
export const AS_IT_IS: readonly Term[] = [{ sign: 1, change: {} }];

/** Sum of the passes, in the scale of the tree. */
export function totalOfTerms({ tree }: Problem, terms: readonly Term[]): number {
  return terms.reduce((sum, { sign, change }) => sum + sign * (isNone(change) ? tree.total : totalWith(tree, change)), 0);
}

const isNone = ({ tables, fixed }: Change) => (tables?.size ?? 0) === 0 && (fixed?.size ?? 0) === 0;

/** The same terms with something else changed as well; where both change one factor, the later one counts. */
export function withChange(terms: readonly Term[], more: Change): Term[] {
  return terms.map(({ sign, change }) => ({
    sign,
    change: { tables: new Map([...(change.tables ?? []), ...(more.tables ?? [])]), fixed: new Map([...(change.fixed ?? []), ...(more.fixed ?? [])]) },
  }));
}

/**
 * The total with some called nodes taken the other way, on the same tree: only numbers of their own factors and of their
 * effects' factors change. A node called absent that is taken as present is 1 − Π: two terms, without dividing anything.
 */
export function turned(problem: Problem, indices: readonly number[]): Term[] {
  const { graph, ownAt, factors } = problem;
  const states = problem.states.slice();
  for (const index of indices) states[index] = problem.states[index] === 1 ? 0 : 1;
  const tables = new Map<number, Float64Array>();
  for (const [index, at] of ownAt) {
    const node = graph.nodes[index];
    if (node && !indices.includes(index) && node.parents.some((parent) => indices.includes(parent.index))) tables.set(at, firstTableWith(node, index, states, helperOf(graph, index)));
  }
  for (const [observation, at] of problem.factorOf) {
    if (observation.kind !== "answer" || !observation.indices.some((index) => indices.includes(index))) continue;
    tables.set(at, instantiate(makeFactor(observation.indices, observation.likelihoods), states).table);
  }
  let terms: Term[] = [{ sign: 1, change: { tables } }];
  for (const index of indices) {
    const [node, at] = [graph.nodes[index], ownAt.get(index)];
    if (!node || at === undefined) continue;
    if (problem.states[index] === 1) {
      terms = withChange(terms, { tables: new Map([[at, firstTableAbsent(node, states)]]) });
      continue;
    }
    const absent = withChange(terms, { tables: new Map([[at, firstTableWith(node, index, asAbsent(states, index), helperOf(graph, index))]]) });
    const gone = new Map<number, Float64Array>();
    for (let k = at; k <= at + openCount(problem, index); k++) gone.set(k, new Float64Array(factors[k]?.table.length ?? 1).fill(1));
    terms = [...withChange(terms, { tables: gone }), ...absent.map(({ sign, change }) => ({ sign: sign === 1 ? (-1 as const) : (1 as const), change }))];
  }
  return terms;
}

/** Number of factors after the first of a node called absent: one per open parent. */
function openCount({ graph, states }: Problem, index: number): number {
  return graph.nodes[index]?.parents.filter((parent) => states[parent.index] === -1).length ?? 0;
}

function asAbsent(states: Int8Array, index: number): Int8Array {
  const changed = states.slice();
  changed[index] = 0;
  return changed;
}
