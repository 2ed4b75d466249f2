import { compareIds } from "./graph";
import { likelihoodWord } from "./likelihood-word";
import { findPosteriors, findPrior } from "./posteriors";
import { samplePosteriors } from "./sampled-posteriors";
import type { Candidate, RankedNode, Ranking, RankingInput, RankingResult, RankingRules } from "./ranking-types";
import { scoreNodes } from "./scores";
import type { CauseGraph, Evidence, GraphNode } from "./types";
import { ENGINE_VERSION } from "./version";

/** How a ranking above the cap is sampled. */
export const SAMPLE = { draws: 600, seed: 1 };

/** How far to go. */
export interface RankingOptions {
  /** Widest exact work; 22 unless given. */
  readonly widthCap?: number;
  /** Sample above the cap instead of giving up. */
  readonly sample?: { readonly draws: number; readonly seed: number };
}

/**
 * What to work on first, and what to ask first: likely, explains much of what is seen, early in the swing, and trainable
 * for this player now. Gates are never ranked; a cause that was called is not asked about again; a fault called not seen
 * is no candidate.
 * @param graph of the input's level
 * @returns `too-wide` when exact work is out of reach
 * @throws RangeError when level or slapper differ from the graph's, or an id or number does not fit it
 * @throws ImpossibleEvidenceError when the evidence has probability 0
 */
export function rankCauses(graph: CauseGraph, rules: RankingRules, input: RankingInput, options: RankingOptions = {}): RankingResult {
  if (graph.level !== input.level || graph.isSlapper !== input.isSlapper) {
    throw new RangeError(`a graph of level "${graph.level}"${graph.isSlapper ? " for slappers" : ""} cannot rank level "${input.level}"`);
  }
  const exact = findPosteriors(graph, input.evidence, { widthCap: options.widthCap });
  if (exact.outcome === "too-wide" && !options.sample) return { outcome: "too-wide", engineVersion: ENGINE_VERSION, width: exact.width };
  const found = exact.outcome === "exact" ? exact : samplePosteriors(graph, input.evidence, options.sample ?? SAMPLE);
  const { isEnoughSeen, candidates, askFirst } = standFrom(graph, rules, input, found.probability);
  return {
    outcome: "ranked",
    engineVersion: ENGINE_VERSION,
    width: exact.width,
    sampled: found.outcome === "sampled" ? { draws: found.draws, error: found.error } : null,
    isEnoughSeen,
    candidates: candidates.map((candidate) => ({ ...candidate, ...liftOf(graph, candidate) })),
    askFirst: askFirst.map((cause) => ({ ...cause, ...liftOf(graph, cause) })),
    probability: found.probability,
  };
}

/** The order that given posteriors make; prior and lift are left null. */
export function standFrom(
  graph: CauseGraph,
  rules: RankingRules,
  { evidence, changeable }: RankingInput,
  posterior: Readonly<Record<string, number>>,
): Pick<Ranking, "isEnoughSeen" | "candidates" | "askFirst"> {
  const scores = scoreNodes(graph, evidence, posterior, rules.scoreWeights);
  const stand = (node: GraphNode, index: number): RankedNode => {
    const probability = posterior[node.id] ?? 0;
    return { id: node.id, name: node.name, probability, prior: null, lift: null, score: scores[index] ?? 0, word: likelihoodWord(probability, rules.likelihood) };
  };
  const open = graph.nodes.map((node, index) => ({ node, index })).filter(({ node }) => isRanked(node, evidence));
  const faults = open
    .filter(({ node }) => node.kind === "fault")
    .map(({ node, index }): Candidate => ({ ...stand(node, index), phaseOrder: node.phaseOrder ?? 0, changeable: changeable[node.id] ?? 0, group: 0 }))
    .filter((candidate) => candidate.score > 0);
  const enough = faults.filter((candidate) => candidate.probability >= rules.minProbability);
  const isEnoughSeen = enough.length > 0;
  const candidates = isEnoughSeen
    ? orderInGroups(enough, rules.nearTie.share).slice(0, rules.maxShown)
    : orderInGroups(faults.sort(byScore).slice(0, rules.maxShown), rules.nearTie.share);
  const askFirst = open
    .filter(({ node }) => node.kind !== "fault")
    .map(({ node, index }) => stand(node, index))
    .filter((cause) => cause.score > 0)
    .sort(byScore)
    .slice(0, rules.askFirst.maxShown);
  return { isEnoughSeen, candidates, askFirst };
}

/** Faults unless called not seen; roots and intermediates unless called; never a gate or a symptom. */
export function isRanked(node: GraphNode, evidence: Evidence): boolean {
  if (node.isGate || node.kind === "symptom") return false;
  const call = evidence.calls[node.id];
  return call !== "not-seen" && (node.kind === "fault" || call !== "seen");
}

/**
 * Near ties in groups: the best score left and everything within the share of it, ordered by phase, then changeable
 * (higher first), then score, then id; then the rest in the same way. Not a pairwise comparison: "within 15 %" is not
 * transitive.
 * @param share 0–1
 */
export function orderInGroups(candidates: readonly Candidate[], share: number): Candidate[] {
  if (!(share >= 0 && share < 1)) throw new RangeError(`the near-tie share lies in 0–1, not ${share}`);
  const ordered: Candidate[] = [];
  let rest = [...candidates];
  for (let group = 1; rest.length > 0; group++) {
    const best = Math.max(...rest.map((candidate) => candidate.score));
    const isNear = (candidate: Candidate) => candidate.score >= (1 - share) * best;
    const tied = rest.filter(isNear).sort((a, b) => a.phaseOrder - b.phaseOrder || b.changeable - a.changeable || byScore(a, b));
    ordered.push(...tied.map((candidate) => ({ ...candidate, group })));
    rest = rest.filter((candidate) => !isNear(candidate));
  }
  return ordered;
}

function byScore(a: RankedNode, b: RankedNode): number {
  return b.score - a.score || compareIds(a.id, b.id);
}

function liftOf(graph: CauseGraph, node: RankedNode): { prior: number | null; lift: number | null } {
  const prior = findPrior(graph, node.id);
  if (Number.isNaN(prior)) return { prior: null, lift: null };
  return { prior, lift: prior > 0 ? node.probability / prior : null };
}
