import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of several swings. */
const en = {
  title: "Over several swings",
  alone: "No other swing was taken like this one in the weeks before it.",
  unread: "The other swings like this one are not read yet.",
  alike: (count: number, days: string) => `${count} swings taken alike, ${days}.`,
  leftOut: (count: number, words: string) => `Not compared: ${count === 1 ? "one swing" : `${count} swings`} ${words}.`,
  notNoted: (facts: string) => `Not noted on these swings: ${facts}.`,
  seenSide: { low: "below the band", high: "above the band" },
  short: { changed: "changed", "usual-spread": "usual spread", "cannot-tell": "cannot tell" },
  count: (seen: number, judged: number) => `talk about in ${seen} of ${judged}`,
  talkAbout: (count: string) => `Talk about it in ${count}`,
  nothing: (judged: number) => (judged === 1 ? "Nothing to talk about in the one swing that could be judged." : `Nothing to talk about in the ${judged} swings that could be judged.`),
  quiet: (count: number) => (count === 1 ? "One more, where nothing stands out" : `${count} more, where nothing stands out`),
};

export const severalText = defineWords({ en });
