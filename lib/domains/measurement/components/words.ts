import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of the readings. */
const en = {
  title: "Readings",
  noneYet: "Nothing can be read yet. Set contact and the other events, then place the points that are asked for.",
  noLibrary: "There are no checkpoints to read yet.",
  notRead: (count: number) => (count === 1 ? "One is not read, and what it waits for" : `${count} are not read, and what they wait for`),
  rest: "The rest",
  count: {
    "talk-about": (n: number) => `${n} to talk about`, watch: (n: number) => `${n} to watch`, "cannot-tell": (n: number) => `${n} cannot tell`,
    fine: (n: number) => `${n} fine`, "no-verdict": (n: number) => `${n} read without a verdict`, "not-sure": (n: number) => `${n} not sure enough`,
    "not-read": (n: number) => `${n} not read`,
  },
  needs: {
    points: "Wait for points", events: "Wait for an event", film: "The film does not show them", view: "Need another view", rule: "Do not apply here",
  },
  notReadHere: "It cannot be read on this clip",
  short: { "talk-about": "", watch: "", "cannot-tell": "", fine: "", "no-verdict": "read", "not-sure": "not sure", "not-read": "not read" },
  /** What a suggested event rests on, and what to keep in mind. */
  guess: {
    rests: {
      release: "from the flight of the ball", stance: "the last quiet moment before the move", "first-move": "the first lasting move",
      load: "the belt is farthest back", toe: "the front toe comes down", plant: "the front heel comes down", launch: "the barrel starts to run",
      contact: "from the bat", extension: "the hands are farthest from the chest", finish: "the bat comes to rest",
    },
    notes: {
      "starts late": "the clip starts late", "no stride": "there is no stride", "no shift back": "nothing shifts back", "cut off": "the clip ends before it",
      guess: "a guess", computed: "worked out, not seen",
    },
  },
  lookAt: (event: string) => `Show ${event}`,
  lookHere: "Show the frame that decided it",
};

export const measurementWords = defineWords({ en });
