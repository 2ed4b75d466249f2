import { useState, type CSSProperties, type PointerEvent } from "react";

export interface TapeOptions {
  readonly widthPx: number;
  /** First and last second that the tape has, and the one in hand. */
  readonly first: number;
  readonly end: number;
  readonly now: number;
  /** Told where a finger or the mouse is. */
  readonly onAt: (at: TapePlace) => void;
}

/** A place on the tape. */
export interface TapePlace {
  readonly seconds: number;
  /** From the tape's left edge on the screen. */
  readonly x: number;
  /** The press itself, not a drag after it. */
  readonly isPress: boolean;
}

const leastPxPerSecond = 480;
const padPx = 28;
const tagHalfPx = 44;
/** This near to its edge a dragging finger pushes the tape on. */
const pushPx = 24;

/**
 * A tape measure of seconds: the second in hand in the middle, as far as the ends allow. While it is dragged along it stands still, and is
 * pushed on at its edges.
 */
export function useTape({ widthPx, first, end, now, onAt }: TapeOptions) {
  const [frozenStart, setFrozenStart] = useState<number | null>(null);
  const pxPerSecond = Math.max((widthPx - 2 * padPx) / Math.max(end - first, 0.05), leastPxPerSecond);
  const edge = padPx / pxPerSecond;
  const span = widthPx / pxPerSecond;
  const within = (start: number) => Math.max(first - edge, Math.min(end + edge - span, start));
  const start = frozenStart ?? within(now - span / 2);
  const xOf = (seconds: number) => (seconds - start) * pxPerSecond;

  const tellAt = (event: PointerEvent<HTMLElement>, isPress: boolean) => {
    const x = event.clientX - event.currentTarget.getBoundingClientRect().left;
    const beyond = x < pushPx ? x - pushPx : x > widthPx - pushPx ? x - widthPx + pushPx : 0;
    const shift = frozenStart === null ? 0 : (beyond / pxPerSecond) * 0.25;
    if (frozenStart !== null && shift !== 0) setFrozenStart(within(start + shift));
    onAt({ seconds: start + x / pxPerSecond + shift, x, isPress });
  };
  const letGo = () => setFrozenStart(null);
  return {
    pxPerSecond, start, xOf,
    /** Where the tag with the second in hand stands: as near to it as keeps the tag in sight. */
    tagX: Math.max(tagHalfPx, Math.min(widthPx - tagHalfPx, xOf(now))),
    style: { touchAction: "pan-y", cursor: "ew-resize", userSelect: "none" } satisfies CSSProperties,
    pointers: {
      onPointerDown: (event: PointerEvent<HTMLElement>) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        setFrozenStart(start);
        tellAt(event, true);
      },
      onPointerMove: (event: PointerEvent<HTMLElement>) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId) && event.buttons !== 0) tellAt(event, false);
      },
      onPointerUp: letGo,
      onPointerCancel: letGo,
      onLostPointerCapture: letGo,
    },
  };
}
