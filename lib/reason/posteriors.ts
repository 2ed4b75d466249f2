import { ImpossibleEvidenceError } from "./errors";
import { listObservations, type Observation } from "./evidence";
import { ancestorsOf, factorsOf } from "./evidence-factors";
import { solveMarginals, type SolveOptions, type TooWide } from "./marginals";
import { checkPossible } from "./possible";
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
  return findPosteriorsFrom(graph, listObservations(graph, evidence), options);
}

/** The same from observations already listed, so that one of them can be left out. */
export function findPosteriorsFrom(graph: CauseGraph, observations: readonly Observation[], options: PosteriorOptions = {}): Posteriors | TooWide {
  const run = solveFor(graph, observations, { widthCap: options.widthCap });
  if (run.outcome === "too-wide") return run;
  const probability: Record<string, number> = {};
  for (const [index, value] of run.present) probability[graph.nodes[index]?.id ?? ""] = value;

  let width = run.width;
  for (const id of options.alsoFor ?? []) {
    if (probability[id] !== undefined) continue;
    const ahead = findAhead(graph, observations, run, id, options.widthCap);
    if (ahead.outcome === "too-wide") return ahead;
    probability[id] = ahead.present;
    width = Math.max(width, ahead.width);
  }
  return { outcome: "exact", width, logLikelihood: run.logTotal, probability };
}

/**
 * Natural logarithm of the observations' probability alone, without any posterior: −∞ when they cannot hold together,
 * `too-wide` above the cap. About a quarter of the work of all posteriors.
 */
export function findLogLikelihood(graph: CauseGraph, observations: readonly Observation[]): number | TooWide {
  try {
    const run = solveFor(graph, observations, { isTotalOnly: true });
    return run.outcome === "exact" ? run.logTotal : run;
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return -Infinity;
    throw error;
  }
}

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

interface Run {
  readonly outcome: "exact";
  readonly width: number;
  readonly logTotal: number;
  /** Posterior by place of every node kept. */
  readonly present: ReadonlyMap<number, number>;
}

function solveFor(graph: CauseGraph, observations: readonly Observation[], options: SolveOptions): Run | TooWide {
  checkPossible(graph, observations);
  const { kept, states, count, factors } = factorsOf(graph, observations);
  const solved = solveMarginals(count, factors, options);
  if (solved.outcome === "too-wide") return solved;
  const present = kept.map((index): [number, number] => {
    const state = states[index] ?? -1;
    return [index, state >= 0 ? state : (solved.share[index] ?? NaN)];
  });
  return { outcome: "exact", width: solved.width, logTotal: solved.logTotal, present: new Map(present) };
}

function findAhead(graph: CauseGraph, observations: readonly Observation[], run: Run, id: string, widthCap?: number) {
  const index = graph.indexById.get(id);
  if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  const isTouched = ancestorsOf(graph, [index]).some((place) => run.present.has(place));
  const absent: Observation = { kind: "call", id, index, isSeen: false };
  try {
    const beside = solveFor(graph, isTouched ? [...observations, absent] : [absent], { widthCap, isTotalOnly: true });
    if (beside.outcome === "too-wide") return beside;
    const present = -Math.expm1(beside.logTotal - (isTouched ? run.logTotal : 0));
    return { outcome: "exact" as const, width: beside.width, present: Math.min(1, Math.max(0, present)) };
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return { outcome: "exact" as const, width: 0, present: 1 };
    throw error;
  }
}
