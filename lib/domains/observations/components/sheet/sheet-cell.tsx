import Link from "next/link";
import { useState } from "react";
import { eventNames } from "@/lib/domains/clips/components/words";
import { sayClock } from "@/lib/domains/clips/rules";
import { cutAddress } from "@/lib/domains/clips/stills/schema";
import { classNames } from "@/lib/ui/class-names";
import { Cut } from "@/lib/ui/cut";
import type { SheetCell, SheetRow } from "../../sheet/view";
import { isTurned } from "../../sheet/rules";
import { besideAddress, frameAddress, type SheetState } from "./addresses";
import { BodyLines } from "./body-lines";
import type { MadeStill } from "./make-stills";
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
  /** What the browser made of this cell where no still lies ready; undefined while it works, or has nothing to do. */
  readonly still: MadeStill | undefined;
  /** The still that was said to lie ready did not come. */
  readonly onLost: (row: SheetRow, frameIndex: number) => void;
  readonly onReach: (cellKey: string) => void;
}

/** One clip at one instant: its still, which is a link to the frame, and what is read there. */
export function SheetCellView({ row, cell, cellKey, isColumn, isHere, hasLines, hasNumbers, from, still, onLost, onReach }: SheetCellProps) {
  const [isLost, setIsLost] = useState(false);
  const event = eventNames[cell.event];
  const frameIndex = "frameIndex" in cell.frame ? cell.frame.frameIndex : null;
  const seconds = cell.seconds === null ? null : sayClock(cell.seconds, 2);
  const why = "why" in cell.frame ? words.noFrame(event, cell.frame.why) : null;
  const isKept = frameIndex !== null && row.picture.keptFrames.includes(frameIndex) && !isLost;
  const stillUrl = isKept ? cutAddress(row.clipId, row.picture.window, frameIndex) : still?.url;
  const onStillFailed = () => {
    if (frameIndex === null || !isKept) return;
    setIsLost(true);
    onLost(row, frameIndex);
  };
  const rowName = words.row[row.kind];
  const own = { ...from, at: cellKey };
  const href = row.model ? besideAddress({ clipId: row.clipId, seconds: cell.seconds }, own) : frameAddress({ swingId: row.swingId, clipId: row.clipId, frameIndex }, own);
  const opens = row.model ? words.opensBeside : undefined;
  return (
    <td role="cell" className={isColumn ? "here" : undefined}>
      <Link
        href={href} prefetch={false}
        className={classNames("cell", isHere && "here", isTurned(row) && "turned")} data-cell={cellKey} tabIndex={isHere ? 0 : -1} aria-current={isHere ? "true" : undefined}
        aria-label={why === null ? words.cellName(rowName, event, seconds, opens) : words.emptyName(rowName, why, opens)} onFocus={() => onReach(cellKey)}
      >
        {frameIndex === null ? (
          <Cut alt="" missing={`${why}.`} />
        ) : (
          <Cut src={stillUrl} alt="" tag={seconds ?? undefined} missing={still?.problem ?? words.coming} onFailed={onStillFailed}>
            {hasLines && stillUrl ? <BodyLines window={row.picture.window} points={cell.points} /> : null}
          </Cut>
        )}
      </Link>
      <CellReadings readings={cell.readings} hasNumbers={hasNumbers} isHere={isHere} />
    </td>
  );
}
