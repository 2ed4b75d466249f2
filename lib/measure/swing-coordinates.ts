import type { Side, View } from "@/lib/measure/clip-input";

/**
 * A place in swing coordinates, pixels. `h` is the view's own horizontal axis: u, toward the pitcher, in the side view;
 * w, toward the plate, in the front and rear views. `v` is up.
 */
export interface SwingPosition {
  readonly h: number;
  readonly v: number;
}

/** How a clip is turned into swing coordinates. */
export interface PictureFrame {
  readonly view: View;
  readonly side: Side;
  /** The file itself is mirrored. */
  readonly mirrored: boolean;
}

/** +1 or -1: what the picture's x counts for the view's horizontal axis. The only place where side and mirror are used. */
export function horizontalSign({ view, side, mirrored }: PictureFrame): 1 | -1 {
  const isFlipped = ((side === "left") !== (view === "front")) !== mirrored;
  return isFlipped ? -1 : 1;
}

/**
 * Turns a place of the upright, unflipped picture (pixels, y down) into swing coordinates (pixels, v up).
 * Source: the library's conventions, `axes` and `mirror`.
 */
export function swingPositionOf(picture: { readonly x: number; readonly y: number }, frame: PictureFrame): SwingPosition {
  return { h: horizontalSign(frame) * picture.x, v: -picture.y };
}
