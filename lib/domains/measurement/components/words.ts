import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of the readings. */
const en = {
  title: "Readings",
  noneYet: "Nothing can be read yet. Set contact and the other events, then place the points that are asked for.",
  noLibrary: "There are no checkpoints to read yet.",
  notRead: (count: number) => (count === 1 ? "One is not read yet" : `${count} are not read yet`),
  notReadHere: "It cannot be read on this clip",
  number: "Number",
  of: (name: string) => `of ${name}`,
};

export const measurementWords = defineWords({ en });
