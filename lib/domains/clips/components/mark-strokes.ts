import type { Spot } from "../rules";
import type { MarkShape } from "../view";

/** A shape made of strokes that follow places; a ring is none, nor are words. */
export type StrokeShape = Extract<MarkShape, { kind: "line" | "angle" | "pen" }>;

/** The places of a stroke in order, pixels of the upright picture. */
export function strokePlaces(shape: StrokeShape): readonly Spot[] {
  if (shape.kind === "line") return [{ x: shape.x1, y: shape.y1 }, { x: shape.x2, y: shape.y2 }];
  if (shape.kind === "angle") return [{ x: shape.x1, y: shape.y1 }, { x: shape.x2, y: shape.y2 }, { x: shape.x3, y: shape.y3 }];
  return shape.places.map(([x, y]) => ({ x, y }));
}

/** The stroke as an SVG path. @param at from the picture to where it is drawn */
export function strokePath(shape: StrokeShape, at: (spot: Spot) => Spot = (spot) => spot): string {
  return strokePlaces(shape)
    .map(at)
    .map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${round(x)} ${round(y)}`)
    .join("");
}

const round = (value: number) => Math.round(value * 10) / 10;

/** The angle at the middle place between its arms, degrees 0 to 180, as it is in the picture; NaN where an arm has no length. */
export function markAngleDeg({ x1, y1, x2, y2, x3, y3 }: Extract<MarkShape, { kind: "angle" }>): number {
  const [ax, ay, bx, by] = [x1 - x2, y1 - y2, x3 - x2, y3 - y2];
  if (Math.hypot(ax, ay) === 0 || Math.hypot(bx, by) === 0) return NaN;
  return (Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by) * 180) / Math.PI;
}

/** "87°". */
export const sayAngle = (shape: Extract<MarkShape, { kind: "angle" }>): string => {
  const deg = markAngleDeg(shape);
  return Number.isNaN(deg) ? "" : `${Math.round(deg)}°`;
};
