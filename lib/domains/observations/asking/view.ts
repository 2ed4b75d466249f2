import type { LibraryParts } from "@/lib/domains/library/schema";
import type { NextQuestion } from "@/lib/reason/next-question";

/** The one thing worth asking now. */
export interface QuestionView {
  readonly questionId: string;
  /** "Ask the player", "Try this" … */
  readonly head: string;
  readonly words: string;
  readonly safety: string | null;
  /** "about half a minute" */
  readonly takes: string;
  readonly answers: readonly {
    readonly id: string;
    readonly words: string;
    /** What would then stand first, or that it would stay. */
    readonly then: string;
  }[];
}

/** An answer that was given. */
export interface AnswerGivenView {
  readonly questionId: string;
  readonly question: string;
  readonly answer: string;
  readonly on: string;
  /** False once it is too old to count. */
  readonly isStanding: boolean;
}

const HEADS = { test: "Try this", screen: "Look at how this moves", clip: "Film this", tally: "Count this" } as const;
const TO = { player: "Ask the player", family: "Ask the family", coach: "Ask yourself" } as const;

/** The question with its answers and what each would change. @param first id of the candidate that stands first now */
export function questionView(parts: LibraryParts, next: NextQuestion, first: string | null): QuestionView | null {
  if (next.outcome !== "ask") return null;
  const record = parts.questions.questions.find(({ id }) => id === next.question.id);
  if (!record) return null;
  const nameOf = (id: string) => parts.faults.faults.find((fault) => fault.id === id)?.name ?? id;
  return {
    questionId: record.id,
    head: record.kind === "ask" ? TO[record.to] : HEADS[record.kind],
    words: record.words,
    safety: record.safety,
    takes: timeWords(record.costSeconds),
    answers: next.question.answers.map(({ id, firstCandidate }) => {
      const then = firstCandidate === null ? "nothing would stand out" : firstCandidate === first ? "the first stays first, more or less sure" : `“${nameOf(firstCandidate)}” would come first`;
      return { id, words: record.answers.find((answer) => answer.id === id)?.words ?? id, then };
    }),
  };
}

function timeWords(seconds: number): string {
  if (seconds <= 20) return "a few seconds";
  if (seconds <= 45) return "about half a minute";
  const minutes = Math.round(seconds / 60);
  return minutes <= 1 ? "about a minute" : `about ${minutes} minutes`;
}
