import type { MarkShape } from "../view";
import { strokePath } from "./mark-strokes";

/** One layer of a mark's stroke over a still, in the picture's own pixels; words have none. */
export function MarkStroke({ shape, layer }: { readonly shape: MarkShape; readonly layer: "case" | "core" }) {
  if (shape.kind === "words") return null;
  if (shape.kind === "ring") return <ellipse className={layer} cx={shape.cx} cy={shape.cy} rx={shape.rx} ry={shape.ry} />;
  return <path className={layer} d={strokePath(shape)} />;
}
