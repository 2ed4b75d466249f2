import type { PlainSentence } from "@/lib/core/words/say";
import { defineWords } from "@/lib/ui/words/define-words";
import type { SentState } from "../../sent/rules";

/** What coaches read of a clip that a family sent. */
const en = {
  coach: {
    asked: (name: string, waited: string) => `${name} sent this ${waited} ago`,
    answered: (name: string, by: string) => `${name} sent this; ${by} answered`,
    here: "Answer with this frame",
    talk: "Answer by talking over it",
    words: "What you write",
    wordsHint: "One thing, in words that the player says back. The family reads it too.",
    drill: "Does it show a drill done right?",
    drillHint: "Then it stands with that drill of the homework, for the player to look at.",
    noDrill: "No, or not yet",
    send: "Send the answer",
  },
};
/** The texts of sending a clip to the coach and of its answer. */
export const sentWords = {
  sides: { right: "The right", left: "The left" } as const satisfies Record<string, PlainSentence>,
  states: {
    "on-its-way": "On its way",
    received: "Received. Your coach has not looked yet.",
    "looked-at": "Looked at. The answer comes next.",
    answered: "Answered",
    refused: "Not taken",
  } as const satisfies Record<SentState, PlainSentence>,
  ...defineWords({ en }),
};

/** The answers in words for a child. */
export const sentOptions = {
  views: [{ value: "side", label: "The side" }, { value: "rear", label: "Behind" }, { value: "front", label: "The front" }],
  tasks: [
    { value: "tee", label: "A ball off a tee" }, { value: "toss", label: "A tossed ball" }, { value: "machine", label: "A machine’s ball" }, { value: "live", label: "A pitcher’s ball" },
    { value: "game", label: "A ball in a game" }, { value: "dry", label: "No ball" },
  ],
  rates: [{ value: "as-file", label: "Normal" }, { value: "unknown", label: "Slow motion, or not sure" }],
} as const satisfies Readonly<Record<string, readonly { readonly value: string; readonly label: PlainSentence }[]>>;
