import { defineWords } from "@/lib/ui/words/define-words";

/** The texts of sorting a swing's clips: whose it is, which clips are one swing, which film holds several. */
const en = {
  whose: "Whose swing",
  isOf: (name: string) => `It stands at ${name}.`,
  moveTo: "It is another player's",
  moveHint: "It moves with its events, points, drawings and calls; the readings are made anew. At the first player nothing of it stays: also a still in a note and an own best go.",
  stays: "What was worked on since (focus, plan, a note's words) stays as it was chosen. Look at it again.",
  move: "Move it",
  moved: (name: string) => `It stands at ${name} now.`,
  back: "Undo: back to the first player",
  open: "Open the swing",
  nobodyElse: "You teach nobody else whom it could be of.",
  isModel: "This swing is kept as a model. Withdraw the model before it is moved, joined or parted.",
  choose: "Choose a player first.",
  clips: "Its clips",
  several: "Cut swings out of it",
  part: "Make it a swing of its own",
  partOf: (view: string) => `Make the ${view} clip a swing of its own`,
  severalOf: (view: string) => `Cut swings out of the ${view} clip`,
  frames: (count: number, isStretch: boolean) => `${count} frames${isStretch ? ", cut out of a longer film" : ""}`,
  points: (count: number) => (count === 1 ? "one point placed" : `${count} points placed`),
  joinSide: "Two clips, one swing",
  join: "When two cameras filmed one swing, join them here: its events are then set once.",
  joinHint: "Swings of this day and side. Of an event that both have, the mark of the swing you join it to stands; the other comes back when they are parted again.",
  joinTo: "Join to this",
  joinToOf: (what: string) => `Join to the swing added at ${what}`,
  alone: "No other swing of this day and side.",
  other: (task: string, views: string, addedAt: string) => `${task}; ${views}; added at ${addedAt}`,
  trouble: "The line was lost. Nothing was changed; please try again.",
};
export const ownerWords = defineWords({ en });
