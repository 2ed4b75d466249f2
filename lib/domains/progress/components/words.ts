import type { PlainSentence } from "@/lib/core/words/say";

/** The texts of a player's own swing, then and now, where a word of the program chooses among them. */
export const progressWords = {
  sides: { right: "Right side", left: "Left side" },
  events: { plant: "When the front foot lands", contact: "When bat and ball meet" },
  trend: {
    changed: "Changed. That is different now. You did that.",
    changedAway: "Changed. It is different now. Your coach looks at it with you.",
    "not-yet": "Not yet. It looks as it did before. That is how it begins.",
    "cannot-tell": "We cannot tell yet. We film it the same way a few more times.",
  },
  noTrend: "Nothing of this can be measured on a film yet. Your coach looks with the eye.",
} as const satisfies { readonly [group: string]: PlainSentence | Readonly<Record<string, PlainSentence>> };
