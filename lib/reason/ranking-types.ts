import type { Evidence, LikelihoodWord } from "./types";

/** The numbers of the ranking, as the library's `ranking` and the academy's word rule hold them. All judgement. */
export interface RankingRules {
  readonly scoreWeights: { readonly symptoms: number; readonly self: number };
  readonly minProbability: number;
  readonly nearTie: { readonly share: number };
  readonly maxShown: number;
  readonly askFirst: { readonly maxShown: number };
  /** From which posterior the words "likely" and "maybe" are used. */
  readonly likelihood: { readonly likely: { readonly from: number }; readonly maybe: { readonly from: number } };
}

/** Everything a ranking depends on beside the graph; plain JSON, so that a run can be stored and replayed. */
export interface RankingInput {
  readonly level: string;
  readonly isSlapper: boolean;
  readonly evidence: Evidence;
  /** Per fault 0–1: the largest effect among the drills allowed for this player now; a fault that is absent counts 0. */
  readonly changeable: Readonly<Record<string, number>>;
}

/** A node with its standing. */
export interface RankedNode {
  readonly id: string;
  readonly name: string;
  readonly probability: number;
  /** P(node) at this level with no evidence; null when it is too wide to say. */
  readonly prior: number | null;
  /** probability / prior; near 1 means common anyway, not found here. Null where the prior is null or 0. */
  readonly lift: number | null;
  readonly score: number;
  readonly word: LikelihoodWord;
}

/** A fault that could be worked on first. */
export interface Candidate extends RankedNode {
  /** Order of the phase of the swing, 1 first. */
  readonly phaseOrder: number;
  readonly changeable: number;
  /** Candidates of one group are within the near-tie share of its best score. Counted from 1. */
  readonly group: number;
}

/** What came out; plain JSON. */
export interface Ranking {
  readonly outcome: "ranked";
  readonly engineVersion: string;
  readonly width: number;
  /** False: nothing reaches the least probability. The candidates then stand under "not enough seen yet", no advice. */
  readonly isEnoughSeen: boolean;
  /** In order; at most as many as the rules show. */
  readonly candidates: readonly Candidate[];
  /** Roots and intermediate causes to ask about first, in order of score. */
  readonly askFirst: readonly RankedNode[];
  /** Null when every number is exact; else how it was sampled, and how far off a probability may be. */
  readonly sampled: { readonly draws: number; readonly error: number } | null;
  /** Posterior of the evidence and of every node that may stand behind it. */
  readonly probability: Readonly<Record<string, number>>;
}

/** The evidence links too much at once for exact work; no order is pretended. */
export interface RankingTooWide {
  readonly outcome: "too-wide";
  readonly engineVersion: string;
  readonly width: number;
}

export type RankingResult = Ranking | RankingTooWide;
