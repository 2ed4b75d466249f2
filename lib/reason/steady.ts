import { seededRandom, type Random } from "@/lib/core/random";
import { factorsOf } from "./evidence-factors";
import { presentWith, presentWithEach, problemOf } from "./problem";
import { standFrom } from "./ranking";
import type { RankingInput, RankingRules } from "./ranking-types";
import type { CauseGraph } from "./types";

/** How hard the guesses are shaken, as the academy's `steadyRule` holds it. */
export interface SteadyRule {
  readonly draws: number;
  readonly seed: number;
  /** Standard deviation of the log odds of every strength. */
  readonly sdLogOdds: number;
  /** From which share of the draws on the first candidate is steady, 0–1. */
  readonly steadyFrom: number;
}

/** Whether the first candidate stays first when the strengths behind it are shaken. Plain JSON. */
export interface Steadiness {
  readonly first: string;
  /** Share of the draws in which it stays first, 0–1. */
  readonly share: number;
  readonly isSteady: boolean;
  /** Who stood first instead, most often first. */
  readonly instead: readonly { readonly id: string; readonly share: number }[];
}

/**
 * Every strength is moved by normal noise in its log odds, independently, so often as the rule says; each time the whole
 * ranking is made anew, near ties included. Priors, leaks and answers stay. The tree is laid out once: other strengths are
 * other numbers in it.
 * @returns null when there is no first candidate, or exact work is out of reach
 */
export function findSteadiness(graph: CauseGraph, rules: RankingRules, input: RankingInput, rule: SteadyRule, overruled: readonly string[] = []): Steadiness | null {
  const problem = problemOf(graph, input.evidence);
  if (problem.outcome === "too-wide") return null;
  const shown = { ...rules, maxShown: rules.maxShown + overruled.length };
  const firstOf = (of: CauseGraph, present: Float64Array) => {
    const posterior = Object.fromEntries(problem.kept.map((place) => [graph.nodes[place]?.id ?? "", present[place] ?? NaN]));
    const stands = standFrom(of, shown, input, posterior);
    return stands.isEnoughSeen ? (stands.candidates.find(({ id }) => !overruled.includes(id))?.id ?? null) : null;
  };
  const first = firstOf(graph, presentWith(problem).present);
  if (first === null) return null;
  const random = seededRandom(rule.seed);
  const draws = Array.from({ length: rule.draws }, () => shake(graph, random, rule.sdLogOdds));
  const posteriors = presentWithEach(problem, draws.map((shaken) => ({ tables: new Map(factorsOf(shaken, problem.observations).factors.map(({ table }, k) => [k, table])) })));
  const times = new Map<string, number>();
  draws.forEach((shaken, draw) => {
    const found = firstOf(shaken, posteriors[draw]?.present ?? new Float64Array(0));
    if (found !== null) times.set(found, (times.get(found) ?? 0) + 1);
  });
  const share = (times.get(first) ?? 0) / rule.draws;
  const instead = [...times].filter(([id]) => id !== first).map(([id, count]) => ({ id, share: count / rule.draws }));
  return { first, share, isSteady: share >= rule.steadyFrom, instead: instead.sort((a, b) => b.share - a.share || (a.id < b.id ? -1 : 1)) };
}

/** The graph with every strength's log odds moved; strengths of 0 and 1 are no guesses and stay. */
export function shake(graph: CauseGraph, random: Random, sdLogOdds: number): CauseGraph {
  const nodes = graph.nodes.map((node) => ({
    ...node,
    parents: node.parents.map(({ index, strength }) => {
      const moved = sdLogOdds * random.normal();
      if (strength <= 0 || strength >= 1) return { index, strength };
      return { index, strength: 1 / (1 + ((1 - strength) / strength) * Math.exp(-moved)) };
    }),
  }));
  return { ...graph, nodes };
}
