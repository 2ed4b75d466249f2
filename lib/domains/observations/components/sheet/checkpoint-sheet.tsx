"use client";

import { useEffect, useState } from "react";
import { eventNames } from "@/lib/domains/clips/components/words";
import { sheetEvents } from "@/lib/domains/clips/stills/view";
import { Button } from "@/lib/ui/button";
import { Choice } from "@/lib/ui/choice";
import { State } from "@/lib/ui/state";
import type { SheetView } from "../../sheet/view";
import { sheetAddress, type SheetState } from "./addresses";
import { EventTabs } from "./event-tabs";
import { SheetCellView } from "./sheet-cell";
import { SheetCounts } from "./sheet-counts";
import { SheetRowHead } from "./sheet-row-head";
import { sheetWords as words } from "./sheet-words";
import { useMadeStills } from "./use-made-stills";
import { useSheetWalk } from "./use-sheet-walk";
import { cellKey, firstPlace, placeOfKey, rowKey } from "./walk";

interface CheckpointSheetProps {
  readonly sheet: SheetView;
  /** What stood in the address: the cell one comes back to, lines and numbers. */
  readonly asked: Pick<SheetState, "withIds" | "modelId" | "at" | "lines" | "numbers">;
}

const LINES = ["bare", "cell", "all"] as const;
type Lines = (typeof LINES)[number];

/** The same instants of several swings side by side: a table of stills with what each says, walked by key, by finger and by reading aloud. */
export function CheckpointSheet({ sheet, asked }: CheckpointSheetProps) {
  const { rows, swingId, clipId } = sheet;
  const returning = placeOfKey(asked.at, rows);
  const { at, hasMoved, tableRef, goEvent, goCell, onKeyDown, onTouchStart, onTouchEnd } = useSheetWalk(returning ?? firstPlace(rows), rows.length, returning !== null);
  const { stillOf, onLost, missingCount, again } = useMadeStills(rows);
  const [lines, setLines] = useState<Lines>(LINES.find((it) => it === asked.lines) ?? "bare");
  const [hasNumbers, setHasNumbers] = useState(asked.numbers === "on");
  const column = sheetEvents[at.column] ?? "contact";
  const hand = rows[at.row];
  const state: SheetState = {
    swingId, clipId, withIds: asked.withIds, modelId: asked.modelId, at: hand && cellKey(hand, at.column), lines: lines === "bare" ? undefined : lines, numbers: hasNumbers ? "on" : undefined,
  };
  const address = sheetAddress(state);
  useEffect(() => {
    // The address keeps what one looks at, so that going back and sending it on both lead here.
    if (`${location.pathname}${location.search}` !== address && (asked.at !== undefined || hasMoved || lines !== "bare" || hasNumbers)) history.replaceState(history.state, "", address);
  }, [address, asked.at, hasMoved, lines, hasNumbers]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key.toLowerCase() !== "n" || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
      if (event.target instanceof HTMLElement && event.target.closest("input:not([type=radio]):not([type=checkbox]), textarea, select")) return;
      event.preventDefault();
      setHasNumbers((now) => !now);
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, []);

  return (
    <div className="checkpoint-sheet">
      <div className="bar-line no-print">
        <Choice
          name="lines" label={words.draw} isLabelHidden value={lines} options={LINES.map((value) => ({ value, label: words.lines[value] }))}
          onChange={(value) => setLines(LINES.find((it) => it === value) ?? "bare")}
        />
        <Button aria-pressed={hasNumbers} onClick={() => setHasNumbers(!hasNumbers)}>
          {words.numbers}
        </Button>
      </div>
      <div role="status" className="no-print">
        {missingCount > 0 ? (
          <p className="bar-line">
            <span className="note">{words.missing(missingCount)}</span>
            <Button onClick={again}>{words.again}</Button>
          </p>
        ) : null}
      </div>
      <EventTabs column={column} onGo={goEvent} />
      <table role="table" className="sheet" data-rows={rows.length} ref={tableRef} onKeyDown={onKeyDown} onTouchStart={onTouchStart} onTouchEnd={onTouchEnd}>
        <caption className="hush">{words.caption}</caption>
        <colgroup>
          <col className="rowhead" />
          <col span={sheetEvents.length} />
        </colgroup>
        <thead role="rowgroup">
          <tr role="row">
            <th role="columnheader" scope="col">
              <span className="note">{words.corner}</span>
            </th>
            {sheetEvents.map((event) => (
              <th key={event} role="columnheader" scope="col" className={event === column ? "here" : undefined}>
                <span className="ev">{eventNames[event]}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.map((row, rowAt) => (
            <tr role="row" key={rowKey(row)}>
              <SheetRowHead row={row} />
              {row.cells.map((cell, columnAt) => {
                const isHere = at.row === rowAt && at.column === columnAt;
                return (
                  <SheetCellView
                    key={cell.event} row={row} cell={cell} cellKey={cellKey(row, columnAt)} isColumn={cell.event === column} isHere={isHere}
                    hasLines={lines === "all" || (lines === "cell" && isHere)} hasNumbers={hasNumbers} from={state}
                    still={stillOf(row, cell)} onLost={onLost} onReach={() => goCell({ row: rowAt, column: columnAt })}
                  />
                );
              })}
            </tr>
          ))}
        </tbody>
        <tfoot role="rowgroup">
          <SheetCounts sheet={sheet} column={column} />
        </tfoot>
      </table>
      <p className="note sheet-foot">
        <State is="not-visible" /> {words.neverCounted} <em>not seen</em>.{" "}
        <span className="no-print">{words.pressed}</span> <span className="print-only">{words.paper}</span>
        <span className="only-wide no-print">
          <span className="key">←</span> <span className="key">→</span> <span className="key">↑</span> <span className="key">↓</span> {words.keys.walk}, <span className="key">Enter</span>{" "}
          {words.keys.opens}, <span className="key">Esc</span> {words.keys.returns}, <span className="key">N</span> {words.keys.numbers}.
        </span>
      </p>
    </div>
  );
}
