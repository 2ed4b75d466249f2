import { canonicalJson } from "@/lib/core/canonical-json";
import type { Level } from "@/lib/core/age";
import type { LibraryParts } from "@/lib/domains/library/schema";
import { buildChain, type Chain } from "@/lib/reason/chain";
import { ImpossibleEvidenceError } from "@/lib/reason/errors";
import { buildGraph } from "@/lib/reason/graph";
import { chooseNextQuestion, valueQuestions, type NextQuestion, type OfferedQuestion, type ValuedQuestions } from "@/lib/reason/next-question";
import { orderInGroups, rankCauses, SAMPLE, type RankingOptions } from "@/lib/reason/ranking";
import type { Candidate, RankedNode, RankingInput, RankingRules } from "@/lib/reason/ranking-types";
import { EXPLAINS_FROM, reachFrom } from "@/lib/reason/reach";
import { explainSentence, type ExplainedEffect } from "@/lib/reason/reason-sentence";
import { explainedEffects, findReasons, type Reasons } from "@/lib/reason/reasons";
import type { SpeakingReading } from "@/lib/reason/reading-evidence";
import { findSteadiness, type Steadiness } from "@/lib/reason/steady";
import type { TallyCount } from "@/lib/reason/tally";
import type { CauseGraph } from "@/lib/reason/types";
import { ENGINE_VERSION } from "@/lib/reason/version";

/** Everything a run rests on, as plain JSON: with the edition's graph it gives the same output bit for bit. */
export interface RunInput {
  readonly v: 2;
  readonly ranking: RankingInput;
  /** Faults that a coach has overruled; they are left out of the candidates. */
  readonly overruled: readonly string[];
  readonly from: {
    readonly swingIds: readonly string[];
    readonly observationIds: readonly string[];
    readonly answerIds: readonly string[];
    readonly questionAnswerIds: readonly string[];
    readonly symptomCallIds: readonly string[];
    /** What the tally said, where it said anything. */
    readonly tally: readonly TallyCount[];
    readonly readings: readonly SpeakingReading[];
  };
}

const graphs = new WeakMap<LibraryParts, Map<string, CauseGraph>>();

/** The graph of one edition for a level, built once. */
export function graphOf(parts: LibraryParts, level: Level | string, isSlapper: boolean): CauseGraph {
  const known = graphs.get(parts) ?? new Map<string, CauseGraph>();
  graphs.set(parts, known);
  const key = `${level} ${isSlapper}`;
  const graph = known.get(key) ?? buildGraph(
    {
      nodes: parts.causes.nodes, edges: parts.causes.edges, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms,
      phases: parts.phases.phases, symptomLeak: parts.causes.model.symptomLeak,
    },
    level,
    { isSlapper },
  );
  known.set(key, graph);
  return graph;
}

export interface RunCandidate extends Candidate {
  /** Why it stands here, in one sentence. */
  readonly sentence: string;
  readonly explains: readonly ExplainedEffect[];
  /** What it would have led to, and was looked for and not seen. */
  readonly against: readonly { readonly id: string; readonly name: string }[];
  readonly chain: Chain;
}

/** What a run gives, as plain JSON. */
export type RunOutput =
  | {
      readonly outcome: "ranked";
      readonly engineVersion: string;
      readonly width: number;
      /** Null when every number is exact. */
      readonly sampled: { readonly draws: number; readonly error: number } | null;
      readonly isEnoughSeen: boolean;
      readonly candidates: readonly RunCandidate[];
      readonly askFirst: readonly RankedNode[];
    }
  | { readonly outcome: "too-wide"; readonly engineVersion: string; readonly width: number }
  /** The evidence cannot all hold: these observations contradict each other under the library's graph. */
  | { readonly outcome: "impossible"; readonly engineVersion: string; readonly ids: readonly string[] };

export const rankingRules = (parts: LibraryParts): RankingRules => ({ ...parts.causes.ranking, likelihood: parts.terms.likelihoodRule });

/** Reasons by number and the next question are a hundred passes: a page waits for them up to this width, beyond it the worker finds them. */
export const REASONED_WIDTH = 17;
/** Whether the first is steady is two hundred passes: nobody is told of a wider one. */
export const STEADY_WIDTH = 20;

/** How far a run is worked out: while a page waits, or by the worker, who samples where nothing exact is in reach. */
export const QUICKLY: RankingOptions = {};
export const THOROUGHLY: RankingOptions = { sample: SAMPLE };

/** Works a run out: a pure function of the edition and the stored input. What is not too wide is the same either way. */
export function workOut(parts: LibraryParts, input: RunInput, how: RankingOptions = THOROUGHLY): RunOutput {
  try {
    return workOutPossible(parts, input, how);
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return { outcome: "impossible", engineVersion: ENGINE_VERSION, ids: error.ids };
    throw error;
  }
}

function workOutPossible(parts: LibraryParts, input: RunInput, how: RankingOptions): RunOutput {
  const rules = rankingRules(parts);
  const graph = graphOf(parts, input.ranking.level, input.ranking.isSlapper);
  const ranking = rankCauses(graph, { ...rules, maxShown: rules.maxShown + input.overruled.length }, input.ranking, how);
  if (ranking.outcome === "too-wide") return ranking;
  const standing = ranking.candidates.filter((candidate) => !input.overruled.includes(candidate.id));
  const candidates = orderInGroups(standing, rules.nearTie.share).slice(0, rules.maxShown).map((candidate): RunCandidate => {
    const explains = explainedEffects(graph, rules, input.ranking, ranking.probability, candidate.id);
    return {
      ...candidate,
      explains,
      sentence: explainSentence(graph, input.ranking.evidence, candidate.id, explains),
      against: missedEffects(graph, input.ranking, candidate.id),
      chain: buildChain(graph, rules, input.ranking, ranking, candidate.id),
    };
  });
  const { engineVersion, width, sampled, isEnoughSeen, askFirst } = ranking;
  return { outcome: "ranked", engineVersion, width, sampled, isEnoughSeen, candidates, askFirst };
}

/** Faults that a candidate carries into and that were called not seen, strongest first. */
function missedEffects(graph: CauseGraph, input: RankingInput, id: string): { id: string; name: string }[] {
  const reach = reachFrom(graph, graph.indexById.get(id) ?? 0);
  return graph.nodes
    .map((node, index) => ({ id: node.id, name: node.name, reach: reach[index] ?? 0 }))
    .filter((node) => node.id !== id && node.reach >= EXPLAINS_FROM && input.evidence.calls[node.id] === "not-seen")
    .sort((a, b) => b.reach - a.reach)
    .map(({ id: effect, name }) => ({ id: effect, name }));
}

const KEPT_RUNS = 200;
const kept = new Map<string, unknown>();

/** The same answer for the same question, without working it out again. */
function once<T>(key: string, work: () => T): T {
  if (kept.has(key)) return kept.get(key) as T;
  const value = work();
  kept.set(key, value);
  const oldest = kept.keys().next().value;
  if (kept.size > KEPT_RUNS && oldest !== undefined) kept.delete(oldest);
  return value;
}

/** While a page waits: `too-wide` where the worker has to do it. */
export function workOutOnce(editionId: string, parts: LibraryParts, input: RunInput): RunOutput {
  return once(`run ${editionId} ${canonicalJson(input)}`, () => workOut(parts, input, QUICKLY));
}

/** What raised each candidate and what speaks against it: every observation is left out once, exactly. */
export function findReasonsOnce(editionId: string, parts: LibraryParts, input: RunInput, faultIds: readonly string[]): ReadonlyMap<string, Reasons> {
  const { ranking } = input;
  return once(`why ${faultIds.join(" ")} ${editionId} ${canonicalJson(ranking)}`, () => findReasons(graphOf(parts, ranking.level, ranking.isSlapper), ranking, faultIds));
}

/** The one thing worth asking now. */
export function findQuestionOnce(editionId: string, parts: LibraryParts, input: RunInput, offered: readonly OfferedQuestion[]): NextQuestion {
  const { ranking, overruled } = input;
  const key = `ask ${offered.map(({ id }) => id).join(" ")} ${editionId} ${canonicalJson([ranking, overruled])}`;
  return once(key, () => chooseNextQuestion(graphOf(parts, ranking.level, ranking.isSlapper), rankingRules(parts), ranking, offered, parts.questions.method.minValue, overruled));
}

/** What the worker finds out of a wide order beside the order. */
export interface WideInsight {
  /** By fault. */
  readonly reasons: Readonly<Record<string, Reasons>>;
  /** All that are worth their time: what may be asked when somebody looks is not known yet. */
  readonly questions: ValuedQuestions | null;
}

/** Reasons of the candidates and the worth of questions for an exact order that is too wide for a page that waits; seconds of work. */
export function insightOf(parts: LibraryParts, { ranking, overruled }: RunInput, candidateIds: readonly string[]): WideInsight {
  const graph = graphOf(parts, ranking.level, ranking.isSlapper);
  const offered = offeredQuestions(parts, { isSlapper: ranking.isSlapper, views: [], answered: [] });
  const valued = valueQuestions(graph, rankingRules(parts), ranking, offered, parts.questions.method.minValue, { overruled, most: offered.length });
  return { reasons: Object.fromEntries(findReasons(graph, ranking, candidateIds)), questions: valued.outcome === "valued" ? valued : null };
}

/** Whether the first candidate stays first when the guesses are shaken; seconds of work. */
export function steadinessOf(parts: LibraryParts, { ranking, overruled }: RunInput): Steadiness | null {
  try {
    return findSteadiness(graphOf(parts, ranking.level, ranking.isSlapper), rankingRules(parts), ranking, parts.terms.steadyRule, overruled);
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return null;
    throw error;
  }
}

/**
 * What may be asked now: in a lesson everything needed is taken to be at hand. A film from a view that is there already is not
 * asked for, nor what was answered and still stands.
 */
export function offeredQuestions(parts: LibraryParts, given: { readonly isSlapper: boolean; readonly views: readonly string[]; readonly answered: readonly string[] }): OfferedQuestion[] {
  return parts.questions.questions.filter(
    ({ id, kind, view, onlyFor }) => (onlyFor === undefined || given.isSlapper) && !given.answered.includes(id) && !(kind === "clip" && view !== undefined && given.views.includes(view)),
  );
}
