import type { CSSProperties } from "react";
import type { Placement } from "../../rules";
import type { ClipView } from "../../view";

interface OpeningStillProps {
  /** A data address. */
  readonly src: string;
  readonly clip: ClipView;
  /** Where the picture lies; null until the place on the screen is measured. */
  readonly placement: Placement | null;
}

/** What browsers report the first picture's time by. */
const TIMED = { elementtiming: "opening" };

/**
 * The picture that came with the page. Before its place is measured it fills it with the hitter in the middle, as a picture does that is
 * wider than its place (`useCloseStart`); then it lies where the sharp one will.
 */
export function OpeningStill({ src, clip, placement }: OpeningStillProps) {
  return <img src={src} alt="" style={placement ? placedStyle(clip, placement) : filledStyle(clip)} {...TIMED} />;
}

function placedStyle({ widthPx, heightPx }: ClipView, { scale, dx, dy, isFlipped = false }: Placement): CSSProperties {
  return {
    position: "absolute", left: 0, top: 0, width: widthPx, height: heightPx, maxWidth: "none", transformOrigin: "0 0",
    transform: `translate(${dx}px, ${dy}px) scale(${isFlipped ? -scale : scale}, ${scale})`,
  };
}

/** Width over height of a place beside another one (`look/swing.css`). */
const PLACE_ASPECT = 1 / 0.955;

function filledStyle({ widthPx, heightPx, points }: ClipView): CSSProperties {
  const xs = points.map(({ x }) => x).sort((a, b) => a - b);
  const seen = heightPx * PLACE_ASPECT;
  const room = widthPx - seen;
  const part = room > 0 ? Math.max(0, Math.min(1, ((xs[xs.length >> 1] ?? widthPx / 2) - seen / 2) / room)) : 0.5;
  return { objectFit: room > 0 ? "cover" : "contain", objectPosition: `${(part * 100).toFixed(1)}% 50%` };
}
