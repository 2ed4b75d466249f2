import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of a player's own swing, then and now. */
const en = {
  mine: "My swing",
  theirs: (name: string) => `${name}’s swing`,
  sides: { right: "Right side", left: "Left side" },
  noConsentTitle: "Nothing is shown now",
  noConsent: "The yes to filming has ended or was taken back. A parent can give one again.",
  noPairTitle: "There are not two swings to look at yet",
  noPair: "Two swings of different days stand here once your coach has put one into a note, or you have sent one. Send a clip, and it can be one of them.",
  pairTitle: "Then and now",
  events: { plant: "When the front foot lands", contact: "When bat and ball meet" },
  then: "Then",
  now: "Now",
  trendTitle: "The one thing",
  trend: {
    changed: "Changed. That is different now. You did that.",
    changedAway: "Changed. It is different now. Your coach looks at it with you.",
    "not-yet": "Not yet. It looks as it did before. That is how it begins.",
    "cannot-tell": "We cannot tell yet. We film it the same way a few more times.",
  },
  because: (why: string) => `Cannot tell: ${why}.`,
  noTrend: "Nothing of this can be measured on a film yet. Your coach looks with the eye.",
  noThing: "Your coach writes one thing to work on after a lesson. Then it stands here.",
  plot: {
    label: (dots: number, word: string) => (dots === 1 ? `One swing. ${word}` : `${dots} swings, the oldest left. ${word}`),
    plain: (word: string) => `A dot for each swing, the oldest left. ${word}`,
    band: "The ruled part is where it may lie.",
    doubt: "A dot is a swing. The line through it is how sure we are.",
    first: "first",
    last: "last",
    inWords: "The dots in words",
  },
  send: "Send a clip",
};
export const progressWords = defineWords({ en });
