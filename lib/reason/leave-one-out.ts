import { listObservations, type Observation } from "./evidence";
import { AS_IT_IS, poseProblem, problemOf, totalOfTerms, turned, withChange, type Problem, type Term } from "./problem";
import type { CauseGraph, Evidence } from "./types";

/** What one observation does to one node. */
export interface LeftOut {
  readonly observation: Observation;
  /** Natural log odds of the node with everything, less the log odds with this one left out; null when that is too wide to work out. */
  readonly logOddsChange: number | null;
}

/** The log odds of a node that is as good as certain are held at those of this probability and of 1 less it. */
const LEAST = 1e-12;
const MOST_LOG_ODDS = Math.log((1 - LEAST) / LEAST);

/**
 * Leaves every observation out once and says how far the log odds of some nodes move; exact. A node's own call is set aside
 * for that node.
 *
 * With e all evidence and j a node called absent, P(e without that call) = P(e) + P(e with j present), and likewise for the
 * other way. Taking a call the other way changes numbers of the laid-out tree and none of its shape, so that each of these is
 * a pass or two towards the root; a reading or an answer that is left out is a table of ones.
 * @throws RangeError when the graph holds no such node
 * @throws ImpossibleEvidenceError when the evidence has probability 0
 */
export function leaveEachOut(graph: CauseGraph, evidence: Evidence, ids: readonly string[]): ReadonlyMap<string, LeftOut[]> {
  const places = ids.map((id) => {
    const index = graph.indexById.get(id);
    if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
    return index;
  });
  const whole = problemOf(graph, evidence);
  const isAhead = whole.outcome === "exact" && places.some((place) => !whole.ownAt.has(place));
  const observations = listObservations(graph, evidence);
  const problem = isAhead ? poseProblem(graph, observations, { alsoKeep: places }) : whole;
  const found = new Map<string, LeftOut[]>();
  if (problem.outcome === "too-wide") {
    for (const id of ids) found.set(id, observations.filter((one) => !isOwnCall(one, id)).map((observation) => ({ observation, logOddsChange: null })));
    return found;
  }
  const terms = once((without: Observation | null) => termsWithout(problem, without, []));
  const total = once((without: Observation | null) => totalOfTerms(problem, terms(without)));
  ids.forEach((id, k) => {
    const index = places[k] ?? 0;
    const known = { terms, total };
    const everything = logOdds(problem, index, null, known);
    const others = problem.observations.filter((one) => !isOwnCall(one, id));
    found.set(id, others.map((observation) => ({ observation, logOddsChange: everything - logOdds(problem, index, observation, known) })));
  });
  return found;
}

const isOwnCall = (observation: Observation, id: string) => observation.kind === "call" && observation.id === id;

/** What every node needs of the evidence without one observation, worked out once. */
interface Known {
  readonly terms: (without: Observation | null) => readonly Term[];
  readonly total: (without: Observation | null) => number;
}

/** Log odds of a node, held within limits, with one observation left out and without the node's own call. */
function logOdds(problem: Problem, index: number, without: Observation | null, known: Known): number {
  const state = problem.states[index] ?? -1;
  const all = known.total(without);
  let [present, absent] = [all, all];
  if (state === -1) {
    const terms = known.terms(without);
    present = totalOfTerms(problem, withChange(terms, { fixed: new Map([[index, 1]]) }));
    // What is left over is exact enough unless little is left.
    absent = present < 0.99 * all ? all - present : totalOfTerms(problem, withChange(terms, { fixed: new Map([[index, 0]]) }));
  } else if (state === 1) absent = totalOfTerms(problem, termsWithout(problem, without, [index]));
  else present = totalOfTerms(problem, termsWithout(problem, without, [index]));
  const share = Math.max(0, present) / (Math.max(0, present) + Math.max(0, absent));
  if (!(share > LEAST)) return -MOST_LOG_ODDS;
  return share < 1 - LEAST ? Math.log(Math.max(0, present) / Math.max(0, absent)) : MOST_LOG_ODDS;
}

/** The terms of P(evidence without one observation, with some calls taken the other way). */
function termsWithout(problem: Problem, without: Observation | null, others: readonly number[]): Term[] {
  const terms = others.length > 0 ? turned(problem, others) : [...AS_IT_IS];
  if (without === null) return terms;
  if (without.kind === "call" || without.kind === "symptom") return [...terms, ...turned(problem, [...others, without.index])];
  const at = problem.factorOf.get(without) ?? -1;
  return withChange(terms, { tables: new Map([[at, new Float64Array(problem.factors[at]?.table.length ?? 1).fill(1)]]) });
}

function once<K, V>(work: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const value = work(key);
    known.set(key, value);
    return value;
  };
}
