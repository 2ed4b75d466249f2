import { answerFactor, type QuestionRecord } from "./answer-evidence";
import { ImpossibleEvidenceError } from "./errors";
import { compareIds } from "./graph";
import type { TooWide } from "./marginals";
import { findPosteriors, type Posteriors } from "./posteriors";
import { isRanked, standFrom } from "./ranking";
import type { RankingInput, RankingRules } from "./ranking-types";
import { scoreNodes } from "./scores";
import type { CauseGraph, Sight } from "./types";

/** A question that may be asked now: its needs are met, and the swing does not already hold what it asks for. */
export interface OfferedQuestion extends QuestionRecord {
  readonly costSeconds: number;
  /** A gate (pain) is asked at the start, never chosen. */
  readonly gate?: boolean;
}

/** A question with what it is worth. */
export interface ValuedQuestion {
  readonly id: string;
  /** Expected total variation of the normalised scores, per cost weight. */
  readonly value: number;
  readonly answers: readonly {
    readonly id: string;
    /** P(answer | evidence). */
    readonly probability: number;
    /** Id of the candidate that would then stand first; null when none would. */
    readonly firstCandidate: string | null;
  }[];
}

/** What to ask next; plain JSON. */
export type NextQuestion =
  | { readonly outcome: "ask"; readonly question: ValuedQuestion; readonly notWorkedOut: readonly string[] }
  /** Nothing is worth its time. */
  | { readonly outcome: "nothing-more"; readonly notWorkedOut: readonly string[] }
  | TooWide;

/**
 * The question that moves the scores most for its time: V = Σ over answers P(a | e)·½·Σ|σ(n | e, a) − σ(n | e)| divided
 * by 0.5 + seconds / 60, where σ are the scores of candidates and causes to ask first, normalised together. Gates,
 * questions already answered and questions about nothing but called nodes are left out; ties go to the lower cost,
 * then the id. One exact run per state of the nodes that a question bears on.
 * @param minValue below this nothing is asked
 * @throws RangeError and ImpossibleEvidenceError as the posteriors do
 */
export function chooseNextQuestion(graph: CauseGraph, rules: RankingRules, input: RankingInput, questions: readonly OfferedQuestion[], minValue: number): NextQuestion {
  const now = findPosteriors(graph, input.evidence);
  if (now.outcome === "too-wide") return now;
  const answered = new Set(input.evidence.answers.map((answer) => answer.question));
  const isOpen = (id: string) => (input.evidence.calls[id] ?? "not-visible") === "not-visible";
  const offered = questions
    .filter((question) => !question.gate && !answered.has(question.id))
    .filter((question) => question.bearsOn.every((id) => graph.indexById.has(id)) && question.bearsOn.some(isOpen))
    .sort((a, b) => a.costSeconds - b.costSeconds || compareIds(a.id, b.id));

  const runs = new Map<string, Posteriors | TooWide | null>();
  const base = normalisedScores(graph, rules, input, now.probability);
  const notWorkedOut: string[] = [];
  let best: ValuedQuestion | null = null;
  for (const question of offered) {
    const valued = valueOf(question, graph, rules, input, now, base, runs);
    if (!valued) notWorkedOut.push(question.id);
    else if (valued.value > (best?.value ?? 0)) best = valued;
  }
  return best && best.value >= minValue ? { outcome: "ask", question: best, notWorkedOut } : { outcome: "nothing-more", notWorkedOut };
}

function valueOf(question: OfferedQuestion, graph: CauseGraph, rules: RankingRules, input: RankingInput, now: Posteriors, base: Float64Array, runs: Map<string, Posteriors | TooWide | null>): ValuedQuestion | null {
  const nodes = [...question.bearsOn].sort(compareIds);
  const given = nodes.map((id) => input.evidence.calls[id]);
  const states: { bits: number; weight: number; run: Posteriors }[] = [];
  for (let bits = 0; bits < 1 << nodes.length; bits++) {
    const sights = nodes.map((_, k): Sight => (bits & (1 << k) ? "seen" : "not-seen"));
    if (given.some((call, k) => call !== undefined && call !== "not-visible" && call !== sights[k])) continue;
    const run = runWith(graph, input, nodes, sights, runs);
    if (run?.outcome === "too-wide") return null;
    if (run) states.push({ bits, weight: Math.exp(run.logLikelihood - now.logLikelihood), run });
  }
  let moved = 0;
  const answers = question.answers.map(({ id }) => {
    const { likelihoods } = answerFactor(question, id);
    const weights = states.map((state) => state.weight * (likelihoods[state.bits] ?? 0));
    const probability = weights.reduce((sum, weight) => sum + weight, 0);
    const posterior = mix(states.map((state) => state.run.probability), weights.map((weight) => weight / probability));
    const after = normalisedScores(graph, rules, input, posterior);
    moved += probability * 0.5 * after.reduce((sum, score, index) => sum + Math.abs(score - (base[index] ?? 0)), 0);
    return { id, probability, firstCandidate: standFrom(graph, rules, input, posterior).candidates[0]?.id ?? null };
  });
  return { id: question.id, value: moved / (0.5 + question.costSeconds / 60), answers };
}

/**
 * Posteriors with the nodes set to the given states; null when they cannot be. The readings of a node count towards the
 * weight of its state, although a call would replace them.
 */
function runWith(graph: CauseGraph, input: RankingInput, nodes: readonly string[], sights: readonly Sight[], runs: Map<string, Posteriors | TooWide | null>) {
  const key = nodes.map((id, k) => `${id} ${sights[k] ?? ""}`).join(" ");
  const before = runs.get(key);
  if (before !== undefined) return before;
  let run: Posteriors | TooWide | null;
  try {
    run = findPosteriors(graph, { ...input.evidence, calls: { ...input.evidence.calls, ...Object.fromEntries(nodes.map((id, k) => [id, sights[k] ?? "not-visible"])) } });
  } catch (error) {
    if (!(error instanceof ImpossibleEvidenceError)) throw error;
    run = null;
  }
  if (run?.outcome === "exact") {
    const replaced = nodes.filter((id, k) => sights[k] === "seen" && (input.evidence.calls[id] ?? "not-visible") === "not-visible");
    const ratio = replaced.reduce((product, id) => product * (input.evidence.readings[id] ?? 1), 1);
    run = { ...run, logLikelihood: run.logLikelihood + Math.log(ratio) };
  }
  runs.set(key, run);
  return run;
}

function mix(posteriors: readonly Readonly<Record<string, number>>[], shares: readonly number[]): Record<string, number> {
  const mixed: Record<string, number> = {};
  posteriors.forEach((posterior, i) => {
    for (const [id, p] of Object.entries(posterior)) mixed[id] = (mixed[id] ?? 0) + p * (shares[i] ?? 0);
  });
  return mixed;
}

/** By place; 0 for what is not ranked, and 0 throughout when nothing scores. */
function normalisedScores(graph: CauseGraph, rules: RankingRules, input: RankingInput, posterior: Readonly<Record<string, number>>): Float64Array {
  const scores = scoreNodes(graph, input.evidence, posterior, rules.scoreWeights).map((score, index) => {
    const node = graph.nodes[index];
    return node && isRanked(node, input.evidence) ? score : 0;
  });
  const sum = scores.reduce((total, score) => total + score, 0);
  return sum > 0 ? scores.map((score) => score / sum) : scores;
}
