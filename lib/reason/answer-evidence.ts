import type { AnswerFactor } from "./types";

/** A question, test, screen or tally as the library's record holds it; the answers are exclusive and complete. */
export interface QuestionRecord {
  readonly id: string;
  /** At most four nodes of the graph. */
  readonly bearsOn: readonly string[];
  readonly answers: readonly {
    readonly id: string;
    /** P(answer | none of the nodes present). */
    readonly base: number;
    /** Per node P(answer | only this node present) / base. A node that is absent counts 1. */
    readonly likelihoodRatios: Readonly<Record<string, number | undefined>>;
  }[];
}

/**
 * One answer as a factor: P(a | X) = base·Π over present nodes of the ratio, divided by the sum of the same over all
 * answers.
 * @throws RangeError for an answer that the question does not have, more than four nodes, or numbers not above 0
 */
export function answerFactor(question: QuestionRecord, answerId: string): AnswerFactor {
  if (question.bearsOn.length > 4) throw new RangeError(`the question "${question.id}" bears on more than four nodes`);
  const chosen = question.answers.findIndex((answer) => answer.id === answerId);
  if (chosen < 0) throw new RangeError(`the question "${question.id}" has no answer "${answerId}"`);
  const nodes = [...question.bearsOn].sort();
  const likelihoods = Array.from({ length: 2 ** nodes.length }, (_, present) => {
    const weights = question.answers.map((answer) =>
      nodes.reduce((weight, node, k) => (present & (1 << k) ? weight * (answer.likelihoodRatios[node] ?? 1) : weight), answer.base),
    );
    if (!weights.every((weight) => weight > 0)) throw new RangeError(`the question "${question.id}" holds a number that is not above 0`);
    return (weights[chosen] ?? 0) / weights.reduce((sum, weight) => sum + weight, 0);
  });
  return { question: question.id, answer: answerId, nodes, likelihoods };
}
