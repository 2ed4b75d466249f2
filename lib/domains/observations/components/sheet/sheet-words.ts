import type { NoFrame } from "@/lib/domains/clips/stills/rules";
import type { CameraView } from "@/lib/domains/clips/view";
import { defineWords } from "@/lib/ui/words/define-words";
import type { RowKind, SheetCount, SheetRow } from "../../sheet/view";

const NO_FRAME: Readonly<Record<NoFrame, string>> = {
  "not-set": "is not set on this swing",
  outside: "lies outside this clip",
  "not-lined-up": "was set on another clip, and contact is not set on this one",
};

/** A sentence's beginning in the middle of another. */
const small = (words: string) => words.slice(0, 1).toLowerCase() + words.slice(1);

/** The texts of the checkpoint sheet. */
const en = {
  title: "Checkpoint sheet",
  caption: "Events across, clips down. Arrow keys walk the stills, Enter opens the frame, Escape comes back.",
  corner: "Seconds from contact",
  draw: "Draw on the stills",
  lines: { bare: "Bare", cell: "Lines, this cell", all: "Lines, all" },
  numbers: "Numbers",
  pressed: "A reading that is pressed shows its number.",
  events: "Event",
  view: { side: "Side", rear: "Behind", front: "Front" } satisfies Record<CameraView, string>,
  fromView: { side: "from the side", rear: "from behind", front: "from the front" } satisfies Record<CameraView, string>,
  row: { this: "This swing", other: "Another swing", "own-best": "Own best", model: "Model" } satisfies Record<RowKind, string>,
  notAlike: (words: string) => `Not like for like: ${words}.`,
  place: ({ of, number }: SheetRow["place"]) => (of > 1 ? `, ${number} of ${of}` : ""),
  rate: (framesPerSecond: number | null) => (framesPerSecond === null ? "real time not known" : `${framesPerSecond} a second`),
  noFrame: (event: string, why: NoFrame) => `${event} ${NO_FRAME[why]}`,
  cellName: (row: string, event: string, seconds: string | null, opens = "Open the frame") => `${row}, ${event.toLowerCase()}${seconds === null ? "" : `, ${seconds} seconds from contact`}. ${opens}.`,
  emptyName: (row: string, words: string, opens = "Open the swing") => `${row}: ${words}. ${opens}.`,
  opensBeside: "Open it beside this swing",
  coming: "This still is being made …",
  noDecoding: "This device could not decode the film here. The film itself is kept.",
  lostFrame: "This part of the film cannot be decoded. The film itself is kept.",
  missing: (count: number) => `${count === 1 ? "One still is" : `${count} stills are`} missing; each says why. What was placed is kept.`,
  again: "Try again",
  moreFine: (count: number) => `${count} more`,
  /** On paper only what speaks is named. */
  onPaper: (fine: number, noVerdict: number, notSure: number, unread: number) =>
    [fine > 0 ? `${fine} fine` : "", noVerdict > 0 ? `${noVerdict} read` : "", notSure > 0 ? `${notSure} not sure` : "", unread > 0 ? `${unread} not read` : ""].filter(Boolean).join(", "),
  notRead: (count: number) => (count === 1 ? "one not read" : `${count} not read`),
  called: "Called",
  read: "Read",
  counts: "How often",
  countedOver: (count: number) => (count === 1 ? "in this swing" : `in the last ${count} taken alike`),
  means: { called: "by coaches", read: "as one to talk about" },
  count: ({ seen, judged, notVisible, isHabit }: SheetCount) =>
    `${seen} of ${judged} ${notVisible > 0 ? (judged === 1 ? "that shows it" : "that show it") : judged === 1 ? "swing" : "swings"}${isHabit ? ": a habit" : ""}`,
  outside: ({ notVisible, notLooked }: SheetCount) =>
    [notVisible > 0 ? `not visible in ${notVisible}` : "", notLooked > 0 ? `not looked at in ${notLooked}` : ""].filter(Boolean).join(", "),
  neverCounted: "is never counted as",
  keys: { walk: "walk", opens: "opens", returns: "returns", numbers: "numbers" },
  paper: "On paper stands what speaks most; all of it stands on the screen.",
  keepOwnBest: "Keep as own best",
  isOwnBest: "own best",
  takeBack: "Take back as own best",
  done: "Kept.",
  choose: "Choose swings",
  chooseMost: (most: number) => `At most ${most} beside this one, newest first.`,
  chooseDone: "Show these",
  noChoice: "There is no other swing from this side and view yet.",
  model: "A model beside it",
  otherModel: "Another model",
  takeModel: "Take the model away",
  layModel: (label: string) => `Lay “${label}” beside it`,
  modelIsHere: "lies on the sheet",
  noModel: "A head coach keeps a swing as a model from its swing view.",
  goneModel: "This model may no longer be shown. The sheet stands without it.",
  otherwise: (words: readonly string[]) => `Otherwise: ${words.map(small).join("; ")}.`,
  asAsked: (words: readonly string[]) => `Alike: ${words.map(small).join("; ")}.`,
  tooMany: "More swings were asked for than fit on a page. The newest of them are shown.",
  unmirrored: "The film is a mirror image; it is shown the right way round.",
  strange: (count: number) =>
    `${count === 1 ? "One swing that was asked for is" : `${count} swings that were asked for are`} not this player's from this side and view, and left out. The others are shown.`,
};

export const sheetWords = defineWords({ en });

const DAY = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });

/** "25 Nov, 3 of 5" */
export function whichSwing({ filmedOn, place }: { readonly filmedOn: string } & Pick<SheetRow, "place">): string {
  return `${DAY.format(new Date(`${filmedOn}T00:00:00Z`))}${sheetWords.place(place)}`;
}
