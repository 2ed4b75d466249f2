import { findOrder } from "./elimination-order";
import { listObservations, type Observation } from "./evidence";
import { factorsOf, helperOf, type EvidenceFactors } from "./evidence-factors";
import { instantiate, makeFactor } from "./factor";
import { WIDTH_CAP, type TooWide } from "./marginals";
import { firstTableAbsent, firstTableWith } from "./noisy-or-factors";
import { checkPossible } from "./possible";
import type { Change } from "./tables";
import { layOut, runAll, type Tree } from "./tree";
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

/** With something changed: the total in the scale of the tree, and by place the posterior of every kept node; 0 for the others. */
export function presentWith(problem: Problem, change: Change = {}): { total: number; present: Float64Array } {
  return presentWithEach(problem, [change])[0] ?? { total: NaN, present: new Float64Array(0) };
}

/** The same for each of some changes by itself, worked out together. */
export function presentWithEach(problem: Problem, changes: readonly Change[]): { total: number; present: Float64Array }[] {
  const found = runAll(problem.tree, problem.count, changes.map((change) => ({ change, isPresentAsked: true })));
  return found.map(({ total, present }) => ({ total, present: byPlaceOf(problem, present, total).map((part) => Math.min(1, Math.max(0, part / total))) }));
}

/** By place what every kept node has of a total when it is present, of what every variable has. */
export function byPlaceOf({ graph, kept, states }: Pick<Problem, "graph" | "kept" | "states">, present: Float64Array, total: number): Float64Array {
  const parts = new Float64Array(graph.nodes.length);
  for (const index of kept) {
    const state = states[index] ?? -1;
    parts[index] = state >= 0 ? state * total : (present[index] ?? NaN);
  }
  return parts;
}

/** One pass counts so many times towards a total. */
export interface Term {
  readonly sign: 1 | -1;
  readonly change: Change;
}

/** The terms of the total as it stands. */
export const AS_IT_IS: readonly Term[] = [{ sign: 1, change: {} }];

/** Sums of passes, in the scale of the tree, all worked out together: changes of one factor that share their weights take one pass back. */
export function totalsOfTerms({ tree, count }: Problem, sums: readonly (readonly Term[])[]): number[] {
  const groups = new Map<string | Change, { readonly change: Change; readonly instead: { factor: number; table: Float64Array }[] }>();
  const placed = sums.map((terms) => terms.map(({ sign, change }) => {
    const [single, ...more] = change.tables ?? [];
    const key = more.length > 0 ? change : [...(change.weights ?? [])].sort(([a], [b]) => a - b).join(" ");
    const group = groups.get(key) ?? { change: more.length > 0 ? change : { weights: change.weights }, instead: [] };
    groups.set(key, group);
    const k = single && more.length === 0 ? group.instead.push({ factor: single[0], table: single[1] }) - 1 : -1;
    return { sign, key, k };
  }));
  const found = runAll(tree, count, [...groups.values()]);
  const foundOf = new Map([...groups.keys()].map((key, i) => [key, found[i]]));
  return placed.map((terms) => terms.reduce((sum, { sign, key, k }) => {
    const of = foundOf.get(key);
    return sum + sign * ((k < 0 ? of?.total : of?.instead[k]) ?? NaN);
  }, 0));
}

/** The same terms with something else changed as well; where both change one factor, the later one counts. */
export function withChange(terms: readonly Term[], more: Change): Term[] {
  return terms.map(({ sign, change }) => ({
    sign,
    change: { tables: new Map([...(change.tables ?? []), ...(more.tables ?? [])]), weights: new Map([...(change.weights ?? []), ...(more.weights ?? [])]) },
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
