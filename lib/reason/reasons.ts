import { listObservations, type Observation } from "./evidence";
import { findPosteriorsFrom } from "./posteriors";
import type { RankingInput, RankingRules } from "./ranking-types";
import { explainSentence, type ExplainedEffect } from "./reason-sentence";
import { reachFrom } from "./reach";
import type { CauseGraph } from "./types";

/** From which reach on a cause is said to explain an effect, 0–1. */
export const EXPLAINS_FROM = 0.1;
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

/** Why a candidate stands where it stands; plain JSON. */
export interface Explanation {
  readonly id: string;
  /** The coach called it seen. The reasons then say what the rest of the evidence thinks of it. */
  readonly isSettledByCall: boolean;
  /** Strongest first. */
  readonly raisedBy: readonly Reason[];
  /** Strongest first. */
  readonly speaksAgainst: readonly Reason[];
  /** Ids of observations whose part could not be worked out: too much is linked once they are left out. */
  readonly notWorkedOut: readonly string[];
  /** Strongest first. */
  readonly explains: readonly ExplainedEffect[];
  /** One sentence that a parent can read. */
  readonly sentence: string;
}

/**
 * Explains candidates (or causes to ask first): each observation is left out once, one exact run each for all ids.
 * @param ids nodes of the graph; the explanations stand in this order
 * @throws RangeError when an id is not in the graph
 */
export function explainNodes(graph: CauseGraph, rules: RankingRules, input: RankingInput, ids: readonly string[]): Explanation[] {
  const observations = listObservations(graph, input.evidence);
  const isOwnCall = (observation: Observation, id: string) => observation.kind === "call" && observation.id === id;
  const settled = new Set(ids.filter((id) => input.evidence.calls[id] === "seen" || input.evidence.calls[id] === "not-seen"));
  const free = ids.filter((id) => !settled.has(id));
  const everything = findPosteriorsFrom(graph, observations, { alsoFor: ids });
  if (everything.outcome === "too-wide") return ids.map((id) => explanationOf(graph, rules, input, {}, id, [], observations.map((o) => o.id)));

  const changes = new Map(ids.map((id) => [id, { reasons: [] as Reason[], unknown: [] as string[] }]));
  const compare = (all: readonly Observation[], asked: readonly string[]) => {
    const full = findPosteriorsFrom(graph, all, { alsoFor: asked });
    for (const left of all) {
      const without = findPosteriorsFrom(graph, all.filter((other) => other !== left), { alsoFor: asked });
      for (const id of asked) {
        const into = changes.get(id);
        if (full.outcome === "too-wide" || without.outcome === "too-wide") into?.unknown.push(left.id);
        else into?.reasons.push(reasonOf(graph, left, logOdds(full.probability[id]) - logOdds(without.probability[id])));
      }
    }
  };
  if (free.length > 0) compare(observations, free);
  for (const id of settled) compare(observations.filter((observation) => !isOwnCall(observation, id)), [id]);

  return ids.map((id) => {
    const { reasons, unknown } = changes.get(id) ?? { reasons: [], unknown: [] };
    return explanationOf(graph, rules, input, everything.probability, id, reasons, unknown);
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

function explanationOf(graph: CauseGraph, rules: RankingRules, input: RankingInput, probability: Readonly<Record<string, number>>, id: string, reasons: readonly Reason[], notWorkedOut: readonly string[]): Explanation {
  const explains = explainedEffects(graph, rules, input, probability, id);
  const bySize = [...reasons].sort((a, b) => Math.abs(b.logOddsChange) - Math.abs(a.logOddsChange));
  return {
    id,
    isSettledByCall: input.evidence.calls[id] === "seen" || input.evidence.calls[id] === "not-seen",
    raisedBy: bySize.filter((reason) => reason.logOddsChange >= REASON_FROM),
    speaksAgainst: bySize.filter((reason) => reason.logOddsChange <= -REASON_FROM),
    notWorkedOut,
    explains,
    sentence: explainSentence(graph, input.evidence, id, explains),
  };
}

function reasonOf(graph: CauseGraph, observation: Observation, logOddsChange: number): Reason {
  const name = observation.kind === "answer" ? observation.id : (graph.nodes[observation.index]?.name ?? observation.id);
  const isSeen = observation.kind === "call" || observation.kind === "symptom" ? observation.isSeen : null;
  return { kind: observation.kind, id: observation.id, name, isSeen, logOddsChange };
}

function logOdds(probability: number | undefined): number {
  const held = Math.min(1 - 1e-12, Math.max(1e-12, probability ?? NaN));
  return Math.log(held / (1 - held));
}
