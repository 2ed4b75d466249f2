import type { CameraView } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";
import { seenWords, type SeenCount } from "@/lib/measure/several/seen-count";
import { changeWords, differenceWords, severalNotes, usualWords } from "@/lib/measure/several/several-words";
import type { ComparableReadings } from "../view";
import { severalRow, type SeveralRow } from "./several-rows";
import { severalText as text } from "./several-words";

interface SeveralOfReadingProps {
  readonly comparable: ComparableReadings;
  /** This swing's reading as it is now on the screen. */
  readonly reading: Reading;
  /** From where the clip on the screen was filmed: other swings are compared from the same view only. */
  readonly view: CameraView;
}

/** Under one reading: in how many swings, the usual spread, and whether it changed. Nothing when no other swing has it. */
export function SeveralOfReading({ comparable, reading, view }: SeveralOfReadingProps) {
  const row = severalRow(comparable, reading, view);
  return row ? <SeveralLines row={row} /> : null;
}

function sayCount(seen: SeenCount, side: string): string {
  if (seen.judged === 0) return `${seenWords(seen)}.`;
  return seen.seen === 0 ? text.nothing(seen.judged) : `${text.talkAbout(seenWords(seen))}${side}.`;
}

/** The lines of one checkpoint, words first. */
export function SeveralLines({ row: { several, unit } }: { readonly row: SeveralRow }) {
  const { seen, change, by } = several;
  const usual = usualWords(several, unit);
  const difference = change.word === "changed" ? differenceWords(change, unit) : null;
  const side = seen.side ? `, ${text.seenSide[seen.side]}` : "";
  return (
    <>
      <p>{sayCount(seen, side)}</p>
      <p>{`${changeWords(change, by)}${difference ? `, ${difference}` : ""}.`}</p>
      {usual ? <p className="number">{`${usual.charAt(0).toUpperCase()}${usual.slice(1)}.`}</p> : null}
      {severalNotes(several).map((note) => (
        <p key={note} className="quiet">
          {note}.
        </p>
      ))}
    </>
  );
}
