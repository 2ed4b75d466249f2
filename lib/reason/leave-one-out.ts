import { listObservations, type Observation } from "./evidence";
import { AS_IT_IS, poseProblem, problemOf, totalsOfTerms, turned, withChange, type Problem, type Term } from "./problem";
import { HELD_ABSENT, HELD_PRESENT, type Weights } from "./tables";
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
 * other way. Taking a call the other way changes numbers of the laid-out tree and none of its shape; a reading or an answer that is
 * left out is a table of ones. What changes a single factor is told by the derivative of a pass back, all at once.
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
  // All sums are laid out first and worked out together.
  const sums: (readonly Term[])[] = [];
  const ask = (terms: readonly Term[]) => sums.push(terms) - 1;
  const termsOf = once((without: Observation | null) => termsWithout(problem, without, []));
  const askAll = once((without: Observation | null) => ask(termsOf(without)));
  const pairOf = (index: number, without: Observation | null): Pair => {
    const [state, all] = [problem.states[index] ?? -1, askAll(without)];
    if (state === -1) return { all, present: ask(holding(termsOf(without), index, HELD_PRESENT)), absent: null, index, without };
    const other = ask(termsWithout(problem, without, [index]));
    return { all, present: state === 1 ? all : other, absent: state === 1 ? other : all, index, without };
  };
  const asked = ids.map((id, k) => {
    const index = places[k] ?? 0;
    const others = problem.observations.filter((one) => !isOwnCall(one, id));
    return { id, everything: pairOf(index, null), without: others.map((observation) => ({ observation, pair: pairOf(index, observation) })) };
  });
  const totals = totalsOfTerms(problem, sums);
  const totalOf = (sum: number | null) => totals[sum ?? -1] ?? NaN;
  // What is left over is exact enough unless little is left.
  const scarce = asked.flatMap(({ everything, without }) => [everything, ...without.map(({ pair }) => pair)]).filter(({ all, present, absent }) => absent === null && !(totalOf(present) < 0.99 * totalOf(all)));
  const scarceTotals = totalsOfTerms(problem, scarce.map(({ index, without }) => holding(termsOf(without), index, HELD_ABSENT)));
  const leftOf = new Map(scarce.map((pair, i) => [pair, scarceTotals[i] ?? NaN]));
  const logOddsOf = (pair: Pair) => logOdds(totalOf(pair.present), pair.absent !== null ? totalOf(pair.absent) : (leftOf.get(pair) ?? totalOf(pair.all) - totalOf(pair.present)));
  for (const { id, everything, without } of asked) {
    found.set(id, without.map(({ observation, pair }) => ({ observation, logOddsChange: logOddsOf(everything) - logOddsOf(pair) })));
  }
  return found;
}

const holding = (terms: readonly Term[], index: number, weights: Weights) => withChange(terms, { weights: new Map([[index, weights]]) });

const isOwnCall = (observation: Observation, id: string) => observation.kind === "call" && observation.id === id;

/** Which sums hold everything, a node present, and absent; null for the last is what is left over. */
interface Pair {
  readonly all: number;
  readonly present: number;
  readonly absent: number | null;
  readonly index: number;
  readonly without: Observation | null;
}

/** Log odds of the two, held within limits. */
function logOdds(present: number, absent: number): number {
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
