import { english, type Say } from "@/lib/core/words/say";

/** Letters of one message at most. */
export const MOST_LETTERS = 2000;

export const PARTS = ["coach", "player", "guardian"] as const;
/** As what somebody is in a thread. */
export type Part = (typeof PARTS)[number];

/** Why a text cannot be a message, as a sentence; null when it can. */
export function lengthProblem(words: string, say: Say = english): string | null {
  const letters = [...words].length;
  if (letters === 0) return say("Write something first.");
  return letters > MOST_LETTERS ? say("This has {letters} letters; {most} go into one message. Shorten it or send it in two.", { letters, most: MOST_LETTERS }) : null;
}

/** What decides whether a thread takes messages. */
export interface ThreadState {
  readonly givenName: string;
  readonly isMinor: boolean;
  readonly hasLeft: boolean;
  readonly parts: readonly Part[];
}

/** Why nothing can be sent in a thread now, said to a coach or to the family; null when it is open. */
export function closedWords({ givenName, isMinor, hasLeft, parts }: ThreadState, reader: Part, say: Say = english): string | null {
  if (hasLeft) return say("{name} has left the academy, so nothing more is sent here. What was written stays.", { name: givenName });
  if (isMinor && !parts.includes("guardian")) {
    return reader === "coach"
      ? `No guardian of ${givenName} is linked now, so nothing can be sent here. Once the office links one, it opens by itself. What was written stays.`
      : say("No grown-up who looks after you is linked here now, so nothing can be sent. Please tell one at home, or ask at the academy. What was written stays.");
  }
  if (!parts.includes("player") && !parts.includes("guardian")) return say("Nobody of {name}’s family has a sign-in yet, so nobody could read it.", { name: givenName });
  return null;
}
