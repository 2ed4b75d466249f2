import { answerFactor, type QuestionRecord } from "./answer-evidence";
import { compareIds } from "./graph";
import { jointTables, type JointTables } from "./joint-tables";
import type { TooWide } from "./marginals";
import { presentWith, problemOf, type Problem } from "./problem";
import { isRanked, standFrom } from "./ranking";
import type { RankingInput, RankingRules } from "./ranking-types";
import { makeScorer, type Scorer } from "./scores";
import type { CauseGraph } from "./types";

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
    /** The candidate or cause whose posterior would move most; null when none moves by a hundredth. */
    readonly moved: { readonly id: string; readonly from: number; readonly to: number } | null;
  }[];
}

/** Posteriors that move by less are not spoken of. */
const LEAST_MOVE = 0.01;

/** What questions are worth now; plain JSON. */
export interface ValuedQuestions {
  readonly outcome: "valued";
  /** Those worth their time, best first. */
  readonly questions: readonly ValuedQuestion[];
  /** Ids of questions that could not be valued: too much in front of the evidence hangs together. */
  readonly notWorkedOut: readonly string[];
}

/** What to ask next; plain JSON. */
export type NextQuestion =
  | { readonly outcome: "ask"; readonly question: ValuedQuestion; readonly notWorkedOut: readonly string[] }
  /** Nothing is worth its time. */
  | { readonly outcome: "nothing-more"; readonly notWorkedOut: readonly string[] }
  | TooWide;

/** The best of valued questions, among those that may be asked. */
export function pickNextQuestion({ questions, notWorkedOut }: ValuedQuestions, mayAsk: (id: string) => boolean = () => true): NextQuestion {
  const question = questions.find(({ id }) => mayAsk(id));
  return question ? { outcome: "ask", question, notWorkedOut } : { outcome: "nothing-more", notWorkedOut };
}

/**
 * The question that moves the scores most for its time: V = Σ over answers P(a | e)·½·Σ|σ(n | e, a) − σ(n | e)| divided
 * by 0.5 + seconds / 60, where σ are the scores of candidates and causes to ask first, normalised together. Gates,
 * questions already answered and questions about nothing but called nodes are left out; ties go to the lower cost,
 * then the id. One pass each way per set of nodes that a question bears on, all together on a tree laid out once.
 * @param minValue below this nothing is asked
 * @param overruled faults that are no candidates any more
 * @throws RangeError and ImpossibleEvidenceError as the posteriors do
 */
export function chooseNextQuestion(graph: CauseGraph, rules: RankingRules, input: RankingInput, questions: readonly OfferedQuestion[], minValue: number, overruled: readonly string[] = []): NextQuestion {
  const valued = valueQuestions(graph, rules, input, questions, minValue, { overruled, most: 1 });
  return valued.outcome === "valued" ? pickNextQuestion(valued) : valued;
}

/** The same for so many of the best questions. */
export function valueQuestions(
  graph: CauseGraph, rules: RankingRules, input: RankingInput, questions: readonly OfferedQuestion[], minValue: number,
  { overruled = [], most }: { readonly overruled?: readonly string[]; readonly most: number },
): ValuedQuestions | TooWide {
  const problem = problemOf(graph, input.evidence);
  if (problem.outcome === "too-wide") return problem;
  const answered = new Set(input.evidence.answers.map((answer) => answer.question));
  const isOpen = (id: string) => (input.evidence.calls[id] ?? "not-visible") === "not-visible";
  const offered = questions
    .filter((question) => !question.gate && !answered.has(question.id))
    .filter((question) => question.bearsOn.every((id) => graph.indexById.has(id)) && question.bearsOn.some(isOpen))
    .sort((a, b) => a.costSeconds - b.costSeconds || compareIds(a.id, b.id));

  const now = presentWith(problem).present;
  const standing = standingOf(graph, rules, input, overruled);
  const joints = jointTables(problem, offered.map((question) => openPlacesOf(question, problem)));
  const asking: Asking = { problem, standing, base: standing(now), joints };
  const notWorkedOut: string[] = [];
  const worth: { id: string; value: number; answers: readonly Answered[] }[] = [];
  for (const question of offered) {
    const valued = valueOf(question, asking);
    if (!valued) notWorkedOut.push(question.id);
    else if (valued.value > 0 && valued.value >= minValue) worth.push({ id: question.id, ...valued });
  }
  const firstOf = (after: Float64Array) => {
    const posterior = Object.fromEntries(graph.nodes.map((node, place) => [node.id, after[place] ?? 0]));
    return standFrom(graph, { ...rules, maxShown: rules.maxShown + overruled.length }, input, posterior).candidates.find(({ id }) => !overruled.includes(id))?.id ?? null;
  };
  // A node in front of the evidence has no posterior here, before or after.
  const ranked = graph.nodes.map((node, place) => ({ node, place })).filter(({ node, place }) => problem.ownAt.has(place) && isRanked(node, input.evidence) && !overruled.includes(node.id));
  const movedMost = (after: Float64Array) => {
    let most: { id: string; from: number; to: number } | null = null;
    for (const { node, place } of ranked) {
      const [from, to] = [now[place] ?? 0, after[place] ?? 0];
      if (Math.abs(to - from) >= (most ? Math.abs(most.to - most.from) : LEAST_MOVE)) most = { id: node.id, from, to };
    }
    return most;
  };
  // Equal ones stand as they were offered: the lower cost first, then the id.
  const best = worth.sort((a, b) => b.value - a.value).slice(0, most);
  return {
    outcome: "valued",
    questions: best.map(({ id, value, answers }) => ({ id, value, answers: answers.map(({ after, ...answer }) => ({ ...answer, firstCandidate: firstOf(after), moved: movedMost(after) })) })),
    notWorkedOut,
  };
}

interface Asking {
  readonly problem: Problem;
  readonly standing: Scorer;
  readonly base: Float64Array;
  readonly joints: JointTables;
}

interface Answered {
  readonly id: string;
  readonly probability: number;
  /** Posteriors by place. */
  readonly after: Float64Array;
}

const placesOf = (question: OfferedQuestion, { graph }: Problem) => [...question.bearsOn].sort().map((id) => graph.indexById.get(id) ?? -1);

const openPlacesOf = (question: OfferedQuestion, problem: Problem) => placesOf(question, problem).filter((place) => (problem.states[place] ?? -1) === -1);

/** Null when it could not be valued. */
function valueOf(question: OfferedQuestion, { problem, standing, base, joints }: Asking): { value: number; answers: readonly Answered[] } | null {
  const { graph } = problem;
  const places = placesOf(question, problem);
  const open = openPlacesOf(question, problem);
  const settled = places.reduce((bits, place, k) => (problem.states[place] === 1 ? bits | (1 << k) : bits), 0);
  const states = joints.statesOf(open);
  if (!states) return null;
  let moved = 0;
  const answers = question.answers.map(({ id }): Answered => {
    const { likelihoods } = answerFactor(question, id);
    const after = new Float64Array(graph.nodes.length);
    let probability = 0;
    states.forEach((state, openBits) => {
      const bits = open.reduce((all, place, k) => (openBits & (1 << k) ? all | (1 << places.indexOf(place)) : all), settled);
      const likelihood = likelihoods[bits] ?? 0;
      probability += likelihood * state.weight;
      for (let place = 0; place < after.length; place++) after[place] = (after[place] ?? 0) + likelihood * (state.present[place] ?? 0);
    });
    for (let place = 0; place < after.length; place++) after[place] = Math.min(1, Math.max(0, (after[place] ?? 0) / probability));
    let shift = 0;
    standing(after).forEach((score, place) => (shift += Math.abs(score - (base[place] ?? 0))));
    moved += probability * 0.5 * shift;
    return { id, probability, after };
  });
  return { value: moved / (0.5 + question.costSeconds / 60), answers };
}

/** Scores by place, summing to 1; 0 for what is not ranked, and 0 throughout when nothing scores. */
function standingOf(graph: CauseGraph, rules: RankingRules, input: RankingInput, overruled: readonly string[]): Scorer {
  const score = makeScorer(graph, input.evidence, rules.scoreWeights);
  const counts = graph.nodes.map((node) => isRanked(node, input.evidence) && !overruled.includes(node.id));
  return (probability) => {
    const scores = score(probability);
    let sum = 0;
    for (let place = 0; place < scores.length; place++) {
      if (!counts[place]) scores[place] = 0;
      sum += scores[place] ?? 0;
    }
    return sum > 0 ? scores.map((one) => one / sum) : scores;
  };
}
