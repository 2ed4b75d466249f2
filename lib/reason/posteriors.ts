import { absentAhead } from "./ahead";
import { ImpossibleEvidenceError } from "./errors";
import { listObservations, type Observation } from "./evidence";
import { ancestorsOf } from "./evidence-factors";
import type { TooWide } from "./marginals";
import { poseProblem, presentWith, problemOf, type Problem } from "./problem";
import { runAll } from "./tree";
import { NO_EVIDENCE, type CauseGraph, type Evidence } from "./types";

/** Exact posteriors, 0–1 by node id. */
export interface Posteriors {
  readonly outcome: "exact";
  /** Variables in the largest table that was summed. */
  readonly width: number;
  /** Natural logarithm of the evidence's probability, times the likelihood ratios of readings and answers. */
  readonly logLikelihood: number;
  /** Every node asked for, and every node that may stand behind the evidence. */
  readonly probability: Readonly<Record<string, number>>;
}

/** What to work out: by default the evidence and all that may stand behind it. */
export interface PosteriorOptions {
  /** Further nodes to answer exactly, such as effects that nobody has looked at; each costs about one more run. */
  readonly alsoFor?: readonly string[];
  readonly widthCap?: number;
}

/**
 * Exact posterior probabilities under a noisy-OR graph: pruned to the causes of the evidence, split by helper variables,
 * summed out in min-fill order, all posteriors in one pass each way. A node in front of the evidence is answered by
 * P(n | e) = 1 − P(n absent, e) / P(e), since an absent node links nothing.
 * @returns `too-wide` (nothing worked out) above the cap of 22 variables in one table
 * @throws RangeError for ids or numbers that do not fit the graph
 * @throws ImpossibleEvidenceError when the evidence has probability 0
 */
export function findPosteriors(graph: CauseGraph, evidence: Evidence, options: PosteriorOptions = {}): Posteriors | TooWide {
  const problem = options.widthCap === undefined ? problemOf(graph, evidence) : poseProblem(graph, listObservations(graph, evidence), options);
  return posteriorsOf(problem, options);
}

/** The same from observations already listed, so that one of them can be left out. */
export function findPosteriorsFrom(graph: CauseGraph, observations: readonly Observation[], options: PosteriorOptions = {}): Posteriors | TooWide {
  return posteriorsOf(poseProblem(graph, observations, { widthCap: options.widthCap }), options);
}

function posteriorsOf(problem: Problem | TooWide, options: PosteriorOptions): Posteriors | TooWide {
  if (problem.outcome === "too-wide") return problem;
  const { graph, observations } = problem;
  const probability: Record<string, number> = {};
  const { present } = presentWith(problem);
  for (const index of problem.kept) probability[graph.nodes[index]?.id ?? ""] = present[index] ?? NaN;

  let width = problem.tree.width;
  for (const id of options.alsoFor ?? []) {
    if (probability[id] !== undefined) continue;
    const ahead = findAhead(graph, observations, problem, id, options.widthCap);
    if (ahead.outcome === "too-wide") return ahead;
    probability[id] = ahead.present;
    width = Math.max(width, ahead.width);
  }
  return { outcome: "exact", width, logLikelihood: logTotalOf(problem), probability };
}

/** Natural logarithm of the total of a problem. */
export const logTotalOf = ({ tree }: Problem): number => Math.log(tree.total) + tree.logScale;

const priors = new WeakMap<CauseGraph, Map<string, number>>();

/**
 * P(node) at the graph's level with no evidence, exact; kept for the next time. NaN when it would be too wide.
 * @throws RangeError when the graph holds no such node
 */
export function findPrior(graph: CauseGraph, id: string): number {
  const known = priors.get(graph) ?? new Map<string, number>();
  priors.set(graph, known);
  const before = known.get(id);
  if (before !== undefined) return before;
  const found = findPosteriors(graph, NO_EVIDENCE, { alsoFor: [id] });
  const prior = found.outcome === "exact" ? (found.probability[id] ?? NaN) : NaN;
  known.set(id, prior);
  return prior;
}

function findAhead(graph: CauseGraph, observations: readonly Observation[], problem: Problem, id: string, widthCap?: number) {
  const index = graph.indexById.get(id);
  if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  const terms = absentAhead(problem, [index]);
  if (terms) {
    const totals = runAll(problem.tree, problem.count, terms.map(({ weights }) => ({ change: { weights } })));
    const absent = terms.reduce((sum, { factor }, i) => sum + factor * (totals[i]?.total ?? NaN), 0) / problem.tree.total;
    return { outcome: "exact" as const, width: 0, present: Math.min(1, Math.max(0, 1 - absent)) };
  }
  const isTouched = ancestorsOf(graph, [index]).some((place) => problem.ownAt.has(place));
  const absent: Observation = { kind: "call", id, index, isSeen: false };
  try {
    const beside = poseProblem(graph, isTouched ? [...observations, absent] : [absent], { widthCap });
    if (beside.outcome === "too-wide") return beside;
    const present = -Math.expm1(logTotalOf(beside) - (isTouched ? logTotalOf(problem) : 0));
    return { outcome: "exact" as const, width: beside.tree.width, present: Math.min(1, Math.max(0, present)) };
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return { outcome: "exact" as const, width: 0, present: 1 };
    throw error;
  }
}
