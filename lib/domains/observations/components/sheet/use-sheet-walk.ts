import { useCallback, useEffect, useRef, useState, type KeyboardEvent, type RefObject, type TouchEvent } from "react";
import { sheetEvents, type SheetEvent } from "@/lib/domains/clips/stills/view";
import { stepCell, type CellPlace } from "./walk";

/** A finger that went so far sideways meant another event. */
const SWIPE_PX = 48;

export interface SheetWalk {
  readonly at: CellPlace;
  /** Somebody has gone to another cell. */
  readonly hasMoved: boolean;
  readonly tableRef: RefObject<HTMLTableElement | null>;
  readonly goEvent: (event: SheetEvent) => void;
  readonly goCell: (at: CellPlace) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onTouchStart: (event: TouchEvent) => void;
  readonly onTouchEnd: (event: TouchEvent) => void;
}

/**
 * The cell in hand. Arrow keys, Home and End walk the grid; on a phone a finger pushes to the next event.
 * @param isReturning whether somebody comes back to the cell: then it takes the focus
 */
export function useSheetWalk(first: CellPlace, rowCount: number, isReturning: boolean): SheetWalk {
  const [start] = useState(first);
  const [at, setAt] = useState(start);
  const tableRef = useRef<HTMLTableElement>(null);
  const touchRef = useRef<{ x: number; y: number } | null>(null);
  const shouldFocusRef = useRef(isReturning);

  useEffect(() => {
    if (!shouldFocusRef.current) return;
    shouldFocusRef.current = false;
    tableRef.current?.querySelector<HTMLElement>('.cell[aria-current="true"]')?.focus();
  }, [at]);

  const goEvent = useCallback((event: SheetEvent) => setAt((now) => ({ ...now, column: sheetEvents.indexOf(event) })), []);
  const goCell = useCallback((cell: CellPlace) => setAt((now) => (now.row === cell.row && now.column === cell.column ? now : cell)), []);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof HTMLElement) || !event.target.closest(".cell")) return;
    const next = stepCell(at, event.key, { rows: rowCount, columns: sheetEvents.length });
    if (!next) return;
    event.preventDefault();
    shouldFocusRef.current = true;
    setAt(next);
  };
  const onTouchStart = (event: TouchEvent) => {
    const touch = event.touches[0];
    touchRef.current = touch && event.touches.length === 1 ? { x: touch.clientX, y: touch.clientY } : null;
  };
  const onTouchEnd = (event: TouchEvent) => {
    const [from, touch] = [touchRef.current, event.changedTouches[0]];
    touchRef.current = null;
    if (!from || !touch) return;
    const [dx, dy] = [touch.clientX - from.x, touch.clientY - from.y];
    if (Math.abs(dx) < SWIPE_PX || Math.abs(dx) < 2 * Math.abs(dy)) return;
    setAt((now) => stepCell(now, dx < 0 ? "ArrowRight" : "ArrowLeft", { rows: rowCount, columns: sheetEvents.length }) ?? now);
  };
  return { at, hasMoved: at !== start, tableRef, goEvent, goCell, onKeyDown, onTouchStart, onTouchEnd };
}
