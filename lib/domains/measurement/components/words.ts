import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of the readings. */
const en = {
  title: "Readings",
  noneYet: "Nothing can be read yet. Set contact and the other events, then place the points that are asked for.",
  noLibrary: "There are no checkpoints to read yet.",
  notRead: (count: number) => (count === 1 ? "One is not read, and why" : `${count} are not read, and why`),
  notReadHere: "It cannot be read on this clip",
  groups: {
    "talk-about": "Talk about", watch: "Watch", "cannot-tell": "Cannot tell", fine: "Fine", "no-verdict": "Read, without a verdict",
    "not-sure": "Not sure enough to judge", "not-read": "Not read",
  },
  short: { "talk-about": "", watch: "", "cannot-tell": "", fine: "", "no-verdict": "read", "not-sure": "not sure", "not-read": "not read" },
  lookAt: (event: string) => `Show ${event}`,
  lookHere: "Show the frame that decided it",
};

export const measurementWords = defineWords({ en });
