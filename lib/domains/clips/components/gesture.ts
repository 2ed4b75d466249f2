import { simplifyPath } from "@/lib/core/simplify-path";
import { insidePicture, type Look, type Size, type Spot } from "../rules";
import { MOST_PEN_PLACES } from "../schema";
import type { MarkShape, PointId } from "../view";
import { strokePlaces } from "./mark-strokes";

export type DrawTool = "line" | "angle" | "ring" | "pen";
export type MarkTool = DrawTool | "words";

/** A mark in the making: from its first place to where the hand is. */
export interface Drawing {
  readonly tool: DrawTool;
  readonly from: Spot;
  readonly to: Spot;
  /** Of an angle, once its first arm stands. */
  readonly corner?: Spot;
  /** Of a pen: where the hand has been. */
  readonly path?: readonly Spot[];
}

/** What the hand is doing. Each is entered once and either ends or is cancelled, which restores what was before. */
export type Gesture =
  | { readonly kind: "none" }
  /** The cross is being moved over the picture. */
  | { readonly kind: "cross"; readonly before: Spot | null }
  /** A point that is on the frame is being dragged. */
  | { readonly kind: "point"; readonly point: PointId; readonly grip: Spot; readonly at: Spot }
  | ({ readonly kind: "draw" } & Drawing)
  /** Words have their place and wait to be written. */
  | { readonly kind: "write"; readonly at: Spot }
  /** A mark is being moved or reshaped. */
  | { readonly kind: "mark"; readonly id: string; readonly handle: MarkHandle; readonly grip: Spot; readonly before: MarkShape; readonly at: MarkShape }
  /** The picture is being pushed, or pinched with two fingers. */
  | { readonly kind: "look"; readonly before: Look };

/** Which part of a mark is held: an end or the corner of a stroke, the side or foot of a ring, or the whole. */
export type MarkHandle = "start" | "corner" | "end" | "side" | "foot" | "whole";

/** How far a pen's stroke may be smoothed, in picture pixels. */
const PEN_TOLERANCE_PX = 1.5;

/** The shape that a drawing has now: a ring from corner to corner, an angle with one arm as a line. */
export function drawnShape({ tool, from, to, corner, path }: Drawing): MarkShape {
  if (tool === "pen") return { v: 1, kind: "pen", places: simplifyPath(path ?? [from, to], PEN_TOLERANCE_PX, MOST_PEN_PLACES).map(({ x, y }) => [x, y] as const) };
  if (tool === "angle" && corner) return { v: 1, kind: "angle", x1: from.x, y1: from.y, x2: corner.x, y2: corner.y, x3: to.x, y3: to.y };
  if (tool === "line" || tool === "angle") return { v: 1, kind: "line", x1: from.x, y1: from.y, x2: to.x, y2: to.y };
  return {
    v: 1, kind: "ring", cx: (from.x + to.x) / 2, cy: (from.y + to.y) / 2,
    rx: Math.abs(to.x - from.x) / 2, ry: Math.abs(to.y - from.y) / 2,
  };
}

/** A shape too small to have been meant, in picture pixels. */
export function isTooSmall(shape: MarkShape, leastPx: number): boolean {
  if (shape.kind === "line") return Math.hypot(shape.x2 - shape.x1, shape.y2 - shape.y1) < leastPx;
  if (shape.kind === "angle") return Math.min(Math.hypot(shape.x2 - shape.x1, shape.y2 - shape.y1), Math.hypot(shape.x3 - shape.x2, shape.y3 - shape.y2)) < leastPx;
  if (shape.kind === "pen") return Math.max(...spread(strokePlaces(shape))) < leastPx;
  if (shape.kind === "ring") return Math.min(shape.rx, shape.ry) * 2 < leastPx;
  return shape.text.trim() === "";
}

/** The next step of a drawing when the hand lets go: the second arm of an angle that has none; null = it is done. */
export function nextDrawing(drawing: Drawing): Drawing | null {
  return drawing.tool === "angle" && !drawing.corner ? { ...drawing, corner: drawing.to } : null;
}

/** A drawing with the hand elsewhere. */
export function drawnTo(drawing: Drawing, to: Spot): Drawing {
  if (drawing.tool !== "pen") return { ...drawing, to };
  const path = drawing.path ?? [drawing.from];
  const last = path.at(-1);
  return { ...drawing, to, path: last && Math.hypot(to.x - last.x, to.y - last.y) < 1 ? path : [...path, to] };
}

/** Width and height that places take up. */
function spread(places: readonly Spot[]): readonly [number, number] {
  const of = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  return [of(places.map(({ x }) => x)), of(places.map(({ y }) => y))];
}

/** Where the parts one can hold lie. */
export function markHandles(shape: MarkShape): readonly { readonly handle: MarkHandle; readonly at: Spot }[] {
  switch (shape.kind) {
    case "line":
      return [
        { handle: "start", at: { x: shape.x1, y: shape.y1 } },
        { handle: "end", at: { x: shape.x2, y: shape.y2 } },
        { handle: "whole", at: { x: (shape.x1 + shape.x2) / 2, y: (shape.y1 + shape.y2) / 2 } },
      ];
    case "angle":
      return [
        { handle: "start", at: { x: shape.x1, y: shape.y1 } },
        { handle: "corner", at: { x: shape.x2, y: shape.y2 } },
        { handle: "end", at: { x: shape.x3, y: shape.y3 } },
        { handle: "whole", at: { x: (shape.x1 + shape.x2 + shape.x3) / 3, y: (shape.y1 + shape.y2 + shape.y3) / 3 } },
      ];
    case "pen": {
      const [x, y] = shape.places[shape.places.length >> 1] ?? [0, 0];
      return [{ handle: "whole", at: { x, y } }];
    }
    case "ring":
      return [
        { handle: "side", at: { x: shape.cx + shape.rx, y: shape.cy } },
        { handle: "foot", at: { x: shape.cx, y: shape.cy + shape.ry } },
        { handle: "whole", at: { x: shape.cx, y: shape.cy } },
      ];
    case "words":
      return [{ handle: "whole", at: { x: shape.x, y: shape.y } }];
  }
}

/** The shape after one of its parts has been moved by so many picture pixels; the whole stays with its middle in the picture. */
export function moveHandle(shape: MarkShape, handle: MarkHandle, by: Spot, picture: Size): MarkShape {
  const moved = (x: number, y: number) => insidePicture({ x: x + by.x, y: y + by.y }, picture);
  switch (shape.kind) {
    case "line": {
      if (handle === "start") return { ...shape, x1: moved(shape.x1, shape.y1).x, y1: moved(shape.x1, shape.y1).y };
      if (handle === "end") return { ...shape, x2: moved(shape.x2, shape.y2).x, y2: moved(shape.x2, shape.y2).y };
      const { x: dx, y: dy } = pushWithin(strokePlaces(shape), by, picture);
      return { ...shape, x1: shape.x1 + dx, x2: shape.x2 + dx, y1: shape.y1 + dy, y2: shape.y2 + dy };
    }
    case "angle": {
      if (handle === "start") return { ...shape, x1: moved(shape.x1, shape.y1).x, y1: moved(shape.x1, shape.y1).y };
      if (handle === "corner") return { ...shape, x2: moved(shape.x2, shape.y2).x, y2: moved(shape.x2, shape.y2).y };
      if (handle === "end") return { ...shape, x3: moved(shape.x3, shape.y3).x, y3: moved(shape.x3, shape.y3).y };
      const { x: dx, y: dy } = pushWithin(strokePlaces(shape), by, picture);
      return { ...shape, x1: shape.x1 + dx, x2: shape.x2 + dx, x3: shape.x3 + dx, y1: shape.y1 + dy, y2: shape.y2 + dy, y3: shape.y3 + dy };
    }
    case "pen": {
      const { x: dx, y: dy } = pushWithin(strokePlaces(shape), by, picture);
      return { ...shape, places: shape.places.map(([x, y]) => [x + dx, y + dy] as const) };
    }
    case "ring": {
      if (handle === "side") return { ...shape, rx: Math.max(2, Math.abs(shape.rx + by.x)) };
      if (handle === "foot") return { ...shape, ry: Math.max(2, Math.abs(shape.ry + by.y)) };
      const centre = moved(shape.cx, shape.cy);
      return { ...shape, cx: centre.x, cy: centre.y };
    }
    case "words":
      return { ...shape, ...moved(shape.x, shape.y) };
  }
}

/** As much of a push as leaves all places in the picture. */
function pushWithin(places: readonly Spot[], by: Spot, picture: Size): Spot {
  const along = (values: readonly number[], push: number, most: number) => Math.max(-Math.min(...values), Math.min(most - Math.max(...values), push));
  return { x: along(places.map(({ x }) => x), by.x, picture.width), y: along(places.map(({ y }) => y), by.y, picture.height) };
}
