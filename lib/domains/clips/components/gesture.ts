import { insidePicture, type Look, type Size, type Spot } from "../rules";
import type { MarkShape, PointId } from "../view";

export type MarkTool = "line" | "ring" | "words";

/** What the hand is doing. Each is entered once and either ends or is cancelled, which restores what was before. */
export type Gesture =
  | { readonly kind: "none" }
  /** The cross is being moved over the picture. */
  | { readonly kind: "cross"; readonly before: Spot | null }
  /** A point that is on the frame is being dragged. */
  | { readonly kind: "point"; readonly point: PointId; readonly grip: Spot; readonly at: Spot }
  /** A line or a ring is being drawn from corner to corner. */
  | { readonly kind: "draw"; readonly tool: "line" | "ring"; readonly from: Spot; readonly to: Spot }
  /** Words have their place and wait to be written. */
  | { readonly kind: "write"; readonly at: Spot }
  /** A mark is being moved or reshaped. */
  | { readonly kind: "mark"; readonly id: string; readonly handle: MarkHandle; readonly grip: Spot; readonly before: MarkShape; readonly at: MarkShape }
  /** The picture is being pushed, or pinched with two fingers. */
  | { readonly kind: "look"; readonly before: Look };

/** Which part of a mark is held: an end of a line, the side or foot of a ring, or the whole. */
export type MarkHandle = "start" | "end" | "side" | "foot" | "whole";

/** The shape that a drag from corner to corner makes. */
export function drawnShape(tool: "line" | "ring", from: Spot, to: Spot): MarkShape {
  if (tool === "line") return { v: 1, kind: "line", x1: from.x, y1: from.y, x2: to.x, y2: to.y };
  return {
    v: 1, kind: "ring", cx: (from.x + to.x) / 2, cy: (from.y + to.y) / 2,
    rx: Math.abs(to.x - from.x) / 2, ry: Math.abs(to.y - from.y) / 2,
  };
}

/** A shape too small to have been meant, in picture pixels. */
export function isTooSmall(shape: MarkShape, leastPx: number): boolean {
  if (shape.kind === "line") return Math.hypot(shape.x2 - shape.x1, shape.y2 - shape.y1) < leastPx;
  if (shape.kind === "ring") return Math.min(shape.rx, shape.ry) * 2 < leastPx;
  return shape.text.trim() === "";
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
      const lowX = Math.min(shape.x1, shape.x2);
      const lowY = Math.min(shape.y1, shape.y2);
      const dx = Math.max(-lowX, Math.min(picture.width - Math.max(shape.x1, shape.x2), by.x));
      const dy = Math.max(-lowY, Math.min(picture.height - Math.max(shape.y1, shape.y2), by.y));
      return { ...shape, x1: shape.x1 + dx, x2: shape.x2 + dx, y1: shape.y1 + dy, y2: shape.y2 + dy };
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
