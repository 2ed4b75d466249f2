import { sheetEvents, type SheetEvent } from "@/lib/domains/clips/stills/view";
import { Tally } from "@/lib/ui/count-row";
import { classNames } from "@/lib/ui/class-names";
import type { SheetCount, SheetView } from "../../sheet/view";
import { sheetWords as words } from "./sheet-words";

interface SheetCountsProps {
  readonly sheet: Pick<SheetView, "called" | "read" | "countedSwings">;
  readonly column: SheetEvent;
}

const KINDS = ["called", "read"] as const;

/** The last row: in how many of the last swings each thing was there, what people called apart from what the readings say. What is not visible stands outside the sum. */
export function SheetCounts({ sheet, column }: SheetCountsProps) {
  const kinds = KINDS.filter((kind) => sheetEvents.some((event) => sheet[kind][event]));
  if (kinds.length === 0) return null;
  return (
    <tr role="row">
      <th role="rowheader" scope="row">
        <span className="head">{words.counts}</span>
        <span className="note">{words.countedOver(sheet.countedSwings)}</span>
        {kinds.map((kind) => (
          <span key={kind} className="note">
            <b className={classNames("count-kind", kind)}>{words[kind]}</b> {words.means[kind]}
          </span>
        ))}
      </th>
      {sheetEvents.map((event) => (
        <td key={event} role="cell" className={event === column ? "here" : undefined}>
          {kinds.map((kind) => {
            const counts = sheet[kind][event];
            return counts ? (
              <div key={kind} className="counts">
                <p className={classNames("count-kind", kind)}>{words[kind]}</p>
                {counts.map((count) => (
                  <OneCount key={count.id} count={count} />
                ))}
              </div>
            ) : null;
          })}
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
