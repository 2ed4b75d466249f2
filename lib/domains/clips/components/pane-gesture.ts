import { clampLook, panBy, placementOf, toPicture, zoomAbout, type Look, type Size, type Spot } from "../rules";

/** A picture with where it is shown. */
export interface Pane {
  readonly picture: Size;
  readonly box: Size;
  readonly isFlipped: boolean;
}

/** What the fingers do on a picture. `before` comes back when it is cancelled. */
export type PaneGesture =
  | { readonly kind: "none" }
  | { readonly kind: "push"; readonly before: Look; readonly from: Spot }
  | { readonly kind: "pinch"; readonly before: Look; readonly start: Look; readonly from: readonly [Spot, Spot] };

/** One finger pushes, a second one makes it a pinch; any other number ends it. */
export function beginPane(now: PaneGesture, look: Look, fingers: readonly Spot[]): PaneGesture {
  const before = now.kind === "none" ? look : now.before;
  const [a, b] = fingers;
  if (a && b) return { kind: "pinch", before, start: look, from: [a, b] };
  return a ? { kind: "push", before, from: a } : { kind: "none" };
}

/** The look after the fingers have moved: the place of the picture between them stays between them. */
export function movePane(now: PaneGesture, fingers: readonly Spot[], pane: Pane): Look | null {
  const [a, b] = fingers;
  if (now.kind === "push" && a) return pushed(now.before, now.from, a, pane);
  if (now.kind !== "pinch" || !a || !b) return null;
  const middle = between(a, b);
  const along = pushed(now.start, between(...now.from), middle, pane);
  const wide = Math.hypot(a.x - b.x, a.y - b.y) / Math.max(1, Math.hypot(now.from[0].x - now.from[1].x, now.from[0].y - now.from[1].y));
  const about = toPicture(placementOf(along, pane.picture, pane.box, pane.isFlipped), middle);
  return zoomAbout(along, wide, about, pane.picture, pane.box);
}

function pushed(look: Look, from: Spot, to: Spot, { picture, box, isFlipped }: Pane): Look {
  return panBy(clampLook(look, picture, box), isFlipped ? from.x - to.x : to.x - from.x, to.y - from.y, picture, box);
}

const between = (a: Spot, b: Spot): Spot => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
