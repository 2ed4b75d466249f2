import { numberWords } from "@/lib/measure/reading-words";
import type { Change } from "@/lib/measure/several/change";
import type { SeveralSwings } from "@/lib/measure/several/summary";

const THAN = { "last-check": "since the last check", "earlier-days": "against the earlier days", "earlier-half": "against the earlier half of these swings" } as const;
const DIRECTION = { toward: "toward the band", away: "away from the band", inside: "inside the band" } as const;

/** "Changed since the last check, toward the band", "Within the usual spread …", "Cannot tell yet: …". */
export function changeWords({ word, because, direction }: Change, by: SeveralSwings["by"]): string {
  if (word === "cannot-tell") return `Cannot tell yet: ${because ?? "nothing to compare with"}`;
  if (word === "usual-spread") return `Within the usual spread ${THAN[by]}`;
  return `Changed ${THAN[by]}${direction ? `, ${DIRECTION[direction]}` : ""}`;
}

/** "lower by 0.03 s ± 0.01": the difference with no more digits than its doubt bears; null where there is none. */
export function differenceWords({ difference, differenceSd }: Change, unit: string): string | null {
  return difference === null || differenceSd === null ? null : `${difference < 0 ? "lower" : "higher"} by ${numberWords(Math.abs(difference), differenceSd, unit)}`;
}

/** "usually 0.19 s ± 0.01 from swing to swing"; null under three swings, where no spread is known. */
export function usualWords({ median, spread }: SeveralSwings, unit: string): string | null {
  return median === null || spread === null ? null : `usually ${numberWords(median, spread, unit)} from swing to swing`;
}

/** What to keep in mind: swings left out, one that stands apart, warm-up. */
export function severalNotes(several: SeveralSwings): readonly string[] {
  const { swingCount, readCount, seen, standsApart, isOwnDoubt, change } = several;
  const notes: string[] = [];
  const unread = swingCount - readCount;
  if (unread > 0 && unread !== seen.unknown) notes.push(unread === 1 ? "One swing gives no number to compare" : `${unread} swings give no number to compare`);
  if (seen.unknown > 0) notes.push(seen.unknown === 1 ? "One swing could not be judged and is not counted" : `${seen.unknown} swings could not be judged and are not counted`);
  if (standsApart) notes.push("One swing or two stand apart from the others and widen the spread");
  if (isOwnDoubt) notes.push("The swings differ no more than the readings' own doubt");
  if (change.word === "changed" && change.isSameDay) notes.push("Same day: may be warm-up");
  if (change.word !== "cannot-tell" && change.isCameraLeftOut) notes.push("Where the camera stood is not known on all of them: a moved camera may look like a change");
  return notes;
}
