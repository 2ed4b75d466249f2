import type { PlainSentence } from "@/lib/core/words/say";

/** What an incident note is about. A word for what happened, never for what it did to the body. */
export const INCIDENT_KINDS = ["hit", "pain", "head-blow"] as const;
export type IncidentKind = (typeof INCIDENT_KINDS)[number];

export const INCIDENT_WORDS: Readonly<Record<IncidentKind, PlainSentence>> = { hit: "Hit by a ball, a bat or a fall", pain: "Pain", "head-blow": "Blow to the head" };

/** An incident may be noted afterwards for so many days. */
export const NOTED_DAYS_BACK = 14;

/** What a blow to the head asks of whoever is there. Local rules go first; what it is, is said by a clinician and by nobody here. */
export const HEAD_BLOW_NOW: PlainSentence = "Stop. No more swings, throws or games today, even if it feels fine. Somebody stays with the player. Local rules go first.";
/**
 * Signs for which emergency services are called at once.
 * Source: Centers for Disease Control and Prevention, HEADS UP, "Concussion Danger Signs", copy of February 2015.
 */
export const CALL_EMERGENCY_SERVICES = [
  "passed out, even for a moment, or cannot be woken",
  "one pupil larger than the other",
  "a headache that gets worse and does not go away",
  "speech is slurred, or weakness, numbness, poor coordination",
  "vomits again and again, or shakes and twitches",
  "behaves oddly, more and more confused, restless or upset",
] as const satisfies readonly PlainSentence[];
export const HEAD_BLOW_RETURN: PlainSentence = "Only a licensed clinician clears the return. The family writes down on which day that was said.";
