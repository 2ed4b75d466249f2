import { sheetEvents, type SheetEvent } from "@/lib/domains/clips/stills/view";
import { Tally } from "@/lib/ui/count-row";
import type { CountsByEvent, SheetCount } from "../../sheet/view";
import { sheetWords as words } from "./sheet-words";

interface SheetCountsProps {
  readonly title: string;
  readonly note: string;
  readonly counts: CountsByEvent;
  readonly column: SheetEvent;
}

/** One of the last rows: in how many of the last swings each thing was there. What is not visible stands outside the sum. */
export function SheetCounts({ title, note, counts, column }: SheetCountsProps) {
  if (sheetEvents.every((event) => !counts[event])) return null;
  return (
    <tr role="row">
      <th role="rowheader" scope="row">
        <span className="head">{title}</span>
        <span className="note">{note}</span>
      </th>
      {sheetEvents.map((event) => (
        <td key={event} role="cell" className={event === column ? "here" : undefined}>
          {(counts[event] ?? []).map((count) => (
            <OneCount key={count.id} count={count} />
          ))}
        </td>
      ))}
    </tr>
  );
}

function OneCount({ count }: { readonly count: SheetCount }) {
  const outside = words.outside(count);
  return (
    <div className="count-row">
      <span className="count">{words.count(count)}</span>
      <Tally count={count.seen} total={count.judged} notVisible={count.notVisible} />
      <br />
      {count.name}
      {outside ? `; ${outside}` : null}
    </div>
  );
}
