import type { Observation } from "./evidence";
import { leaveEachOut } from "./leave-one-out";
import { findPosteriors } from "./posteriors";
import type { RankingInput, RankingRules } from "./ranking-types";
import { explainSentence, type ExplainedEffect } from "./reason-sentence";
import { EXPLAINS_FROM, reachFrom } from "./reach";
import type { CauseGraph } from "./types";

/** From which change of the log odds on an observation is named as a reason. */
export const REASON_FROM = 0.05;

/** One observation and what it does to a candidate. */
export interface Reason {
  readonly kind: Observation["kind"];
  /** Id of the node, or of the question for an answer. */
  readonly id: string;
  /** Name of the node; for an answer the question's id. */
  readonly name: string;
  /** For calls and symptoms whether it was seen; null for readings and answers. */
  readonly isSeen: boolean | null;
  /** Natural log odds of the candidate with everything, less the log odds with this one left out. Above 0: raised it. */
  readonly logOddsChange: number;
}

/** Which observations move a node, and which way. */
export interface Reasons {
  /** Strongest first. */
  readonly raisedBy: readonly Reason[];
  /** Strongest first. */
  readonly speaksAgainst: readonly Reason[];
  /** Ids of observations whose part could not be worked out: too much is linked once they are left out. */
  readonly notWorkedOut: readonly string[];
}

/** Why a candidate stands where it stands; plain JSON. */
export interface Explanation extends Reasons {
  readonly id: string;
  /** The coach called it seen. The reasons then say what the rest of the evidence thinks of it. */
  readonly isSettledByCall: boolean;
  /** Strongest first. */
  readonly explains: readonly ExplainedEffect[];
  /** One sentence that a parent can read. */
  readonly sentence: string;
}

const NO_REASONS: Reasons = { raisedBy: [], speaksAgainst: [], notWorkedOut: [] };

/**
 * Leaves every observation out once, exactly, and names those that move each node. The node's own call is set aside: the
 * reasons then say what the rest of the evidence thinks of it.
 * @throws RangeError when an id is not in the graph
 */
export function findReasons(graph: CauseGraph, { evidence }: RankingInput, ids: readonly string[]): ReadonlyMap<string, Reasons> {
  const found = leaveEachOut(graph, evidence, ids);
  return new Map([...found].map(([id, leftOut]): [string, Reasons] => {
    const reasons = leftOut.flatMap(({ observation, logOddsChange }) => (logOddsChange === null ? [] : [reasonOf(graph, observation, logOddsChange)]));
    const bySize = reasons.sort((a, b) => Math.abs(b.logOddsChange) - Math.abs(a.logOddsChange));
    return [id, {
      raisedBy: bySize.filter((reason) => reason.logOddsChange >= REASON_FROM),
      speaksAgainst: bySize.filter((reason) => reason.logOddsChange <= -REASON_FROM),
      notWorkedOut: leftOut.filter(({ logOddsChange }) => logOddsChange === null).map(({ observation }) => observation.id),
    }];
  }));
}

/**
 * Explains candidates (or causes to ask first): the reasons, what of it was seen further on, and a sentence.
 * @param ids nodes of the graph; the explanations stand in this order
 * @throws RangeError when an id is not in the graph
 */
export function explainNodes(graph: CauseGraph, rules: RankingRules, input: RankingInput, ids: readonly string[]): Explanation[] {
  const { evidence } = input;
  const everything = findPosteriors(graph, evidence, { alsoFor: ids });
  const isTooWide = everything.outcome === "too-wide";
  const reasons = findReasons(graph, input, ids);
  return ids.map((id) => {
    const explains = explainedEffects(graph, rules, input, isTooWide ? {} : everything.probability, id);
    const isSettledByCall = evidence.calls[id] === "seen" || evidence.calls[id] === "not-seen";
    return { id, isSettledByCall, ...(reasons.get(id) ?? NO_REASONS), explains, sentence: explainSentence(graph, evidence, id, explains) };
  });
}

/**
 * Effects in front of a node that were seen: faults called seen, symptoms seen, and faults that only readings speak of
 * and that are likely. Strongest reach first, ties by place in the graph.
 */
export function explainedEffects(graph: CauseGraph, rules: RankingRules, input: RankingInput, probability: Readonly<Record<string, number>>, id: string): ExplainedEffect[] {
  const from = graph.indexById.get(id);
  if (from === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  const { calls, symptoms, readings } = input.evidence;
  const reach = reachFrom(graph, from);
  const isShown = (node: string) => {
    if (calls[node] !== undefined && calls[node] !== "not-visible") return calls[node] === "seen";
    return symptoms[node] === "seen" || (readings[node] !== undefined && (probability[node] ?? 0) >= rules.likelihood.likely.from);
  };
  return graph.nodes
    .map((node, index) => ({ id: node.id, name: node.name, reach: reach[index] ?? 0, phaseOrder: node.phaseOrder }))
    .filter((effect) => effect.id !== id && effect.reach >= EXPLAINS_FROM && isShown(effect.id))
    .sort((a, b) => b.reach - a.reach);
}

function reasonOf(graph: CauseGraph, observation: Observation, logOddsChange: number): Reason {
  const name = observation.kind === "answer" ? observation.id : (graph.nodes[observation.index]?.name ?? observation.id);
  const isSeen = observation.kind === "call" || observation.kind === "symptom" ? observation.isSeen : null;
  return { kind: observation.kind, id: observation.id, name, isSeen, logOddsChange };
}
