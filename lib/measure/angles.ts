import type { SwingPosition } from "@/lib/measure/swing-coordinates";

const DEGREES = 180 / Math.PI;

/** Cross product of two vectors in the plane (pixels squared); positive = the second lies counter-clockwise of the first, v up. */
export function cross(a: SwingPosition, b: SwingPosition): number {
  return a.h * b.v - a.v * b.h;
}

/** The vector from one place to another, pixels. */
export function vector(from: SwingPosition, to: SwingPosition): SwingPosition {
  return { h: to.h - from.h, v: to.v - from.v };
}

/** Distance between two places in the plane of the picture, pixels. */
export function distance(a: SwingPosition, b: SwingPosition): number {
  return Math.hypot(a.h - b.h, a.v - b.v);
}

/**
 * The angle at `b` between `a` and `c` in the plane of the picture, 0 to 180 degrees, by atan2(|cross|, dot); NaN when
 * `b` lies on one of the others. Source: conventions `derived`, angle; case T6.5.
 */
export function angleDeg(a: SwingPosition, b: SwingPosition, c: SwingPosition): number {
  const first = vector(b, a);
  const second = vector(b, c);
  const across = Math.abs(cross(first, second));
  const along = first.h * second.h + first.v * second.v;
  return across === 0 && along === 0 ? NaN : Math.atan2(across, along) * DEGREES;
}

/** atan2 in degrees, -180 to 180; NaN for (0, 0). */
export function atan2Deg(y: number, x: number): number {
  return x === 0 && y === 0 ? NaN : Math.atan2(y, x) * DEGREES;
}

/** Angles in degrees made continuous: no step larger than half a turn. Case T6.5. */
export function unwrapDeg(angles: readonly number[]): number[] {
  let turns = 0;
  return angles.map((angle, i) => {
    const step = angle - (angles[i - 1] ?? angle);
    if (step > 180) turns -= 360;
    if (step < -180) turns += 360;
    return angle + turns;
  });
}
