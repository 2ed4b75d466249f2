import { seededRandom } from "@/lib/core/random";
import { findOrder } from "./elimination-order";
import { ImpossibleEvidenceError } from "./errors";
import { listObservations, type Observation } from "./evidence";
import { factorsOf } from "./evidence-factors";
import { checkPossible } from "./possible";
import { byPlaceOf } from "./problem";
import { planBeside, runState } from "./tree";
import type { CauseGraph, Evidence } from "./types";

/** Posteriors that were sampled because exact work was out of reach. */
export interface SampledPosteriors {
  readonly outcome: "sampled";
  readonly draws: number;
  /** No probability is farther off than this, 0–1: four standard errors of the least sure one. */
  readonly error: number;
  readonly probability: Readonly<Record<string, number>>;
}

/** Tables of one draw together hold at most so many entries. */
const MOST_ENTRIES = 2 ** 15;
/** Nodes drawn at most: a state is a whole number of as many bits. */
const MOST_DRAWN = 30;
/** Nodes tried for each place of the cut. */
const TRIED = 10;
const ROUNDS = 4;
const LEAST_SHARE = 0.05;
const FIRST_SHARE = 0.3;

/**
 * Importance sampling over a few well-linked nodes, exact for all others given those: the states of the cut are drawn from
 * shares that learn from round to round, each draw weighs P(state, evidence) over the mixture of all rounds' shares
 * (balance heuristic, Veach & Guibas 1995), and within a draw every posterior is exact (Rao-Blackwell). The error is that of
 * the ratio of weighted sums.
 * @param draws in all; the same seed gives the same numbers
 * @throws as the exact posteriors do
 */
export function samplePosteriors(graph: CauseGraph, evidence: Evidence, { draws, seed }: { readonly draws: number; readonly seed: number }): SampledPosteriors {
  const observations = listObservations(graph, evidence);
  checkPossible(graph, observations);
  const cut = chooseCut(graph, observations);
  const solve = solverOf(graph, observations, cut);
  const random = seededRandom(seed);
  const rounds: number[][] = [];
  const drawn: { state: readonly boolean[]; draw: Draw }[] = [];
  let shares = cut.map(() => FIRST_SHARE);
  for (let round = 0; round < ROUNDS; round++) {
    rounds.push(shares);
    for (let k = 0; k < Math.ceil(draws / ROUNDS); k++) {
      const state = shares.map((share) => random.uniform() < share);
      const draw = solve(state);
      if (draw) drawn.push({ state, draw });
    }
    shares = learn(drawn, rounds, cut);
  }
  if (drawn.length === 0) throw new ImpossibleEvidenceError([]);
  return { ...average(graph, factorsOf(graph, observations).kept, drawn, weigh(drawn, rounds)), draws: drawn.length };
}

/** One state of the cut, with everything else exact. */
interface Draw {
  readonly logTotal: number;
  /** By place. */
  readonly present: Float64Array;
}

type Drawn = readonly { readonly state: readonly boolean[]; readonly draw: Draw }[];

/** Nodes to draw, chosen one by one so that the rest becomes narrow. */
function chooseCut(graph: CauseGraph, observations: readonly Observation[]): number[] {
  const { count, factors, states, kept } = factorsOf(graph, observations);
  const cut: number[] = [];
  let scopes = factors.map(({ variables }) => variables);
  while (cut.length < MOST_DRAWN && findOrder(count, scopes, false).entries > MOST_ENTRIES) {
    const open = kept.filter((index) => states[index] === -1 && !cut.includes(index));
    const links = (index: number) => scopes.filter((scope) => scope.includes(index) && scope.length > 1).length;
    const tried = open.map((index) => ({ index, links: links(index) })).sort((a, b) => b.links - a.links || a.index - b.index).slice(0, TRIED);
    let best: { index: number; entries: number } | null = null;
    for (const { index } of tried) {
      const { entries } = findOrder(count, without(scopes, index), false);
      if (!best || entries < best.entries) best = { index, entries };
    }
    if (!best) break;
    cut.push(best.index);
    scopes = without(scopes, best.index);
  }
  return cut;
}

const without = (scopes: readonly (readonly number[])[], index: number) => scopes.map((scope) => scope.filter((variable) => variable !== index));

/** Solves states of the cut on one plan, each once; null for a state that cannot be. */
function solverOf(graph: CauseGraph, observations: readonly Observation[], cut: readonly number[]): (state: readonly boolean[]) => Draw | null {
  const found = factorsOf(graph, observations);
  const plan = planBeside(found.count, found.factors, cut);
  const known = new Map<number, Draw | null>();
  let isFirst = true;
  return (state) => {
    const key = state.reduce((bits, isPresent, k) => (isPresent ? bits | (1 << k) : bits), 0);
    const before = known.get(key);
    if (before !== undefined) return before;
    let draw: Draw | null = null;
    if (canBe(graph, observations, cut, state)) {
      const { total, present } = runState(plan, found.count, key, isFirst);
      isFirst = false;
      // What can be and comes out at 0 or below is lost in rounding beside the others.
      if (total > 0) draw = { logTotal: Math.log(total), present: byPlaceOf({ graph, ...found }, present, total).map((part) => Math.min(1, Math.max(0, part / total))) };
    }
    known.set(key, draw);
    return draw;
  };
}

function canBe(graph: CauseGraph, observations: readonly Observation[], cut: readonly number[], state: readonly boolean[]): boolean {
  try {
    checkPossible(graph, [...observations, ...cut.map((index, k): Observation => ({ kind: "call", id: graph.nodes[index]?.id ?? "", index, isSeen: state[k] === true }))]);
    return true;
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return false;
    throw error;
  }
}

/** Weights that sum to 1: P(state, evidence) over the mean of the rounds' probabilities of drawing it. */
function weigh(drawn: Drawn, rounds: readonly (readonly number[])[]): number[] {
  const logs = drawn.map(({ state, draw }) => {
    const chances = rounds.map((shares) => shares.reduce((product, share, k) => product * (state[k] ? share : 1 - share), 1));
    return draw.logTotal - Math.log(chances.reduce((sum, chance) => sum + chance, 0) / rounds.length);
  });
  const largest = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - largest));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

function learn(drawn: Drawn, rounds: readonly (readonly number[])[], cut: readonly number[]): number[] {
  if (drawn.length === 0) return cut.map(() => FIRST_SHARE);
  const weights = weigh(drawn, rounds);
  return cut.map((_, k) => {
    const share = drawn.reduce((sum, { state }, i) => sum + (state[k] ? (weights[i] ?? 0) : 0), 0);
    return Math.min(1 - LEAST_SHARE, Math.max(LEAST_SHARE, share));
  });
}

function average(graph: CauseGraph, kept: readonly number[], drawn: Drawn, weights: readonly number[]): Pick<SampledPosteriors, "outcome" | "probability" | "error"> {
  const probability: Record<string, number> = {};
  let largest = 0;
  for (const place of kept) {
    const values = drawn.map(({ draw }) => draw.present[place] ?? 0);
    const mean = values.reduce((sum, value, i) => sum + (weights[i] ?? 0) * value, 0);
    const variance = values.reduce((sum, value, i) => sum + ((weights[i] ?? 0) * (value - mean)) ** 2, 0);
    largest = Math.max(largest, variance);
    probability[graph.nodes[place]?.id ?? ""] = Math.min(1, Math.max(0, mean));
  }
  return { outcome: "sampled", probability, error: Math.min(1, 4 * Math.sqrt(largest) + 1 / drawn.length) };
}

