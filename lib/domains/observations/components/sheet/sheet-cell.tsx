import Link from "next/link";
import type { CSSProperties } from "react";
import { eventNames } from "@/lib/domains/clips/components/words";
import { sayClock } from "@/lib/domains/clips/rules";
import { clipAddress } from "@/lib/domains/clips/schema";
import { classNames } from "@/lib/ui/class-names";
import { Cut } from "@/lib/ui/cut";
import type { SheetCell, SheetRow } from "../../sheet/view";
import { frameAddress, type SheetState } from "./addresses";
import { BodyLines } from "./body-lines";
import { CellReadings } from "./sheet-reading";
import { sheetWords as words } from "./sheet-words";

interface SheetCellProps {
  readonly row: SheetRow;
  readonly cell: SheetCell;
  /** Which cell it is, "this.plant": the walk finds it by this. */
  readonly cellKey: string;
  /** The event's column is in hand; on a phone only that one is shown. */
  readonly isColumn: boolean;
  readonly isHere: boolean;
  readonly hasLines: boolean;
  readonly hasNumbers: boolean;
  readonly from: SheetState;
  readonly onReach: (cellKey: string) => void;
}

/** One clip at one instant: its still, which is a link to the frame, and what is read there. */
export function SheetCellView({ row, cell, cellKey, isColumn, isHere, hasLines, hasNumbers, from, onReach }: SheetCellProps) {
  const event = eventNames[cell.event];
  const frameIndex = "frameIndex" in cell.frame ? cell.frame.frameIndex : null;
  const seconds = cell.seconds === null ? null : sayClock(cell.seconds, 2);
  const why = "why" in cell.frame ? words.noFrame(event, cell.frame.why) : null;
  const rowName = words.row[row.kind];
  return (
    <td role="cell" className={isColumn ? "here" : undefined}>
      <Link
        href={frameAddress({ swingId: row.swingId, clipId: row.clipId, frameIndex }, { ...from, at: cellKey })} prefetch={false}
        className={classNames("cell", isHere && "here")} data-cell={cellKey} tabIndex={isHere ? 0 : -1} aria-current={isHere ? "true" : undefined}
        aria-label={why === null ? words.cellName(rowName, event, seconds) : words.emptyName(rowName, why)} onFocus={() => onReach(cellKey)}
      >
        {frameIndex === null ? (
          <Cut alt="" missing={`${why}.`} />
        ) : (
          <Cut src={clipAddress.still(row.clipId, frameIndex)} alt="" tag={seconds ?? undefined} shape="cropped" style={placeOf(row)}>
            {hasLines ? <BodyLines window={row.picture.window} points={cell.points} /> : null}
          </Cut>
        )}
      </Link>
      <CellReadings readings={cell.readings} hasNumbers={hasNumbers} />
    </td>
  );
}

/** Where the whole picture lies behind the window, in parts of the window. */
function placeOf({ picture: { window, widthPx, heightPx } }: SheetRow): CSSProperties {
  const part = (px: number, whole: number) => `${((100 * px) / whole).toFixed(3)}%`;
  return {
    "--left": part(-window.x, window.width), "--top": part(-window.y, window.height), "--wide": part(widthPx, window.width), "--tall": part(heightPx, window.height),
  } as CSSProperties;
}
