import type { PlainSentence, Say } from "@/lib/core/words/say";
import { PAIN_PARTS, type ConsentUse, type PainPart } from "@/lib/domains/roster/rules";

/** Where it hurts, as a child says it. */
export const PART_WORDS: Readonly<Record<PainPart, PlainSentence>> = {
  knee: "Knee", hip: "Hip", groin: "Inside of the thigh", back: "Back", side: "Ribs or side", shoulder: "Shoulder", elbow: "Elbow", wrist: "Wrist", hand: "Hand",
  neck: "Neck", head: "Head", ankle: "Ankle", foot: "Foot", elsewhere: "Somewhere else",
};

export const partOptions = (say: Say) => PAIN_PARTS.map((part) => ({ value: part, label: say(PART_WORDS[part]) }));

/** What a family says yes to. */
export const CONSENT_WORDS: Readonly<Record<ConsentUse, { readonly name: PlainSentence; readonly means: PlainSentence }>> = {
  lesson: { name: "Film for lessons", means: "Coaches film swings and look at them for the lessons. The family sees the stills." },
  "staff-training": { name: "Show to other coaches", means: "Coaches of this academy look at clips to learn." },
  public: { name: "Show outside the academy", means: "A clip may be shown to people from outside." },
};

/** Where the page says that swings stop. */
export const STOP_ID = "stop";
