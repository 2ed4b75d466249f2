import type { LibraryParts } from "@/lib/domains/library/schema";
import { likelihoodWord } from "@/lib/reason/likelihood-word";
import type { NextQuestion, ValuedQuestion } from "@/lib/reason/next-question";

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
    /** What would then stand first, or that it would stay, and what becomes more or less likely. */
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
  return {
    questionId: record.id,
    head: record.kind === "ask" ? TO[record.to] : HEADS[record.kind],
    words: record.words,
    safety: record.safety,
    takes: timeWords(record.costSeconds),
    answers: next.question.answers.map((answer) => ({ id: answer.id, words: record.answers.find(({ id }) => id === answer.id)?.words ?? answer.id, then: changeWords(parts, answer, first) })),
  };
}

/** "the first stays first; “was told to twist the back foot” becomes likely" */
function changeWords(parts: LibraryParts, { firstCandidate, moved }: ValuedQuestion["answers"][number], first: string | null): string {
  const named = [...parts.faults.faults, ...parts.causes.nodes.filter((node) => node.kind !== "fault")];
  const nameOf = (id: string) => named.find((one) => one.id === id)?.name ?? id;
  const isSame = firstCandidate === first;
  if (isSame && !moved) return "little changes";
  const stands = firstCandidate === null ? "nothing would stand out" : isSame ? "the first stays first" : `“${nameOf(firstCandidate)}” would come first`;
  if (!moved || (!isSame && moved.id === firstCandidate)) return stands;
  const [before, after] = [moved.from, moved.to].map((probability) => likelihoodWord(probability, parts.terms.likelihoodRule));
  const becomes = before === after || after === "maybe" ? (moved.to > moved.from ? "more likely" : "less likely") : after;
  return `${stands}; “${nameOf(moved.id)}” becomes ${becomes}`;
}

function timeWords(seconds: number): string {
  if (seconds <= 20) return "a few seconds";
  if (seconds <= 45) return "about half a minute";
  const minutes = Math.round(seconds / 60);
  return minutes <= 1 ? "about a minute" : `about ${minutes} minutes`;
}
