import { useState } from "react";
import { groupIds, groupOf, limitWords, type GroupId } from "@/lib/domains/measurement/components/groups";
import { numberOf } from "@/lib/domains/measurement/components/number-of";
import { measurementWords } from "@/lib/domains/measurement/components/words";
import { readingWords } from "@/lib/measure/reading-words";
import { effectOf, TRUST_REASONS } from "@/lib/measure/trust-reasons";
import { State } from "@/lib/ui/state";
import type { SheetReading } from "../../sheet/view";
import { sheetWords as words } from "./sheet-words";

/** Of what is fine so many stand open; the rest is one press away. */
const MOST_FINE = 3;

interface CellReadingsProps {
  readonly readings: readonly SheetReading[];
  readonly hasNumbers: boolean;
  readonly isHere: boolean;
}

/** The readings under one still: what speaks first, then what is fine, then what is not to be trusted; what is not read is folded with its reasons. */
export function CellReadings({ readings, hasNumbers, isHere }: CellReadingsProps) {
  const ordered = [...readings].sort((a, b) => groupIds.indexOf(groupOf(a.reading)) - groupIds.indexOf(groupOf(b.reading)));
  const of = (...groups: readonly GroupId[]) => ordered.filter(({ reading }) => groups.includes(groupOf(reading)));
  const fine = of("fine");
  const unread = of("not-read");
  const line = (it: SheetReading) => <ReadingLine key={it.reading.checkpointId} {...it} hasNumber={hasNumbers} isHere={isHere} />;
  if (ordered.length === 0) return null;
  return (
    <div className="cell-readings">
      <ul className="readings">
        {of("talk-about", "watch", "cannot-tell").map(line)}
        {fine.slice(0, MOST_FINE).map(line)}
        {of("no-verdict", "not-sure").map(line)}
      </ul>
      <p className="print-only">{words.onPaper(fine.length, of("no-verdict").length, of("not-sure").length, unread.length)}</p>
      {fine.length > MOST_FINE ? (
        <details className="fold">
          <summary>
            <State is="fine" /> {words.moreFine(fine.length - MOST_FINE)}
          </summary>
          <ul className="readings">{fine.slice(MOST_FINE).map(line)}</ul>
        </details>
      ) : null}
      {unread.length > 0 ? (
        <details className="fold no-print">
          <summary>{words.notRead(unread.length)}</summary>
          <ul className="readings">
            {unread.map(({ name, reading }) => (
              <li key={reading.checkpointId} className="off">
                <b>{name}</b>
                <br />
                {readingWords(reading).why[0] ?? measurementWords.notReadHere}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}

/** What a line of a reading needs besides the reading. */
interface LineProps extends SheetReading {
  /** Numbers are asked for on the whole sheet. */
  readonly hasNumber: boolean;
  /** Only the lines of the cell in hand are stops of the Tab key; the whole sheet's numbers have a key of their own. */
  readonly isHere: boolean;
}

/** One reading in words; pressed, it shows its number and what it is held against. */
function ReadingLine({ name, reading, hasNumber, isHere }: LineProps) {
  const [isOpen, setIsOpen] = useState(false);
  const group = groupOf(reading);
  const number = [numberOf(reading), limitWords(reading)].filter(Boolean).join("; ");
  const said = <ReadingSaid name={name} reading={reading} />;
  return (
    <li className={group === "not-sure" ? "off" : group === "fine" || group === "no-verdict" ? "ok" : undefined}>
      {number ? (
        <button type="button" className="line" aria-expanded={hasNumber || isOpen} tabIndex={isHere ? 0 : -1} onClick={() => setIsOpen(!isOpen)}>
          {said}
        </button>
      ) : (
        said
      )}
      {number && (hasNumber || isOpen) ? <span className="note number">{number}</span> : null}
    </li>
  );
}

function ReadingSaid({ name, reading }: SheetReading) {
  const group = groupOf(reading);
  if (group === "not-sure") {
    const grey = reading.reasons.find(({ id }) => effectOf(id) === "grey");
    return (
      <>
        <b>{name}</b>
        <br />
        {grey ? TRUST_REASONS[grey.id].words : measurementWords.short["not-sure"]}
      </>
    );
  }
  if (group === "fine" || group === "no-verdict") {
    return (
      <>
        {group === "fine" ? <State is="fine" /> : <span className="quiet">{measurementWords.short["no-verdict"]}</span>} <span className="what">{name}</span>
      </>
    );
  }
  return (
    <>
      {reading.verdict ? <State is={reading.verdict} /> : null} {reading.size && group !== "cannot-tell" ? <State is={reading.size} className="amount" /> : null}
      <span className="what">{name}</span>
    </>
  );
}
