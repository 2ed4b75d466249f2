import { defineWords } from "@/lib/ui/words/define-words";
import type { SentState } from "../../sent/rules";

/** The texts of sending a clip to the coach and of its answer. */
const en = {
  title: "Send a clip",
  lead: "One swing. Your coach looks at it and answers.",
  chooseOrFilm: { choose: "Choose a video", film: "Film now" },
  hint: "A few seconds are enough. Ask a grown-up to hold the phone, well away from the bat.",
  view: "Filmed from where?",
  task: "What did you hit?",
  side: "From which side do you hit?",
  sides: { right: "The right", left: "The left" },
  rate: "Which speed?",
  ask: "What shall your coach look at?",
  send: "Send it",
  nothingChosen: "Choose a video first, or film one.",
  film: (number: number) => `Video ${number}`,
  takeBack: "Take back",
  keptHere: "If this page is closed, it goes on when you are back here.",
  list: "What you sent",
  states: {
    "on-its-way": "On its way",
    received: "Received. Your coach has not looked yet.",
    "looked-at": "Looked at. The answer comes next.",
    answered: "Answered",
    refused: "Not taken",
  } satisfies Record<SentState, string>,
  beingOpened: "It is here and being opened.",
  half: "If it stopped, choose the same video again to go on.",
  answeredBy: (name: string) => `Answered by ${name}`,
  open: "Open the answer",
  fresh: (by: string) => `${by} looked at the clip you sent and answered.`,
  see: "See it again",
  tryAgain: "Try again",
  noneTitle: "You have sent nothing yet",
  none: "A clip that you send stands here, with what became of it.",
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
export const sentWords = defineWords({ en });

/** The answers in words for a child. */
export const sentOptions = {
  views: [{ value: "side", label: "The side" }, { value: "rear", label: "Behind" }, { value: "front", label: "The front" }],
  tasks: [
    { value: "tee", label: "A ball off a tee" }, { value: "toss", label: "A tossed ball" }, { value: "machine", label: "A machine’s ball" }, { value: "live", label: "A pitcher’s ball" },
    { value: "game", label: "A ball in a game" }, { value: "dry", label: "No ball" },
  ],
  rates: [{ value: "as-file", label: "Normal" }, { value: "unknown", label: "Slow motion, or not sure" }],
} as const;
