/** A place in swing coordinates of one view, pixels: `h` toward the pitcher (side view) or the plate (front, rear), `v` up. */
export interface Flat {
  readonly h: number;
  readonly v: number;
}

const DEGREES = 180 / Math.PI;

/** The place a share `k` of the way from a to b; the middle when it is left out. */
export const between = (a: Flat, b: Flat, k = 0.5): Flat => ({ h: a.h + k * (b.h - a.h), v: a.v + k * (b.v - a.v) });

/** Distance in pixels. */
export const apart = (a: Flat, b: Flat): number => Math.hypot(a.h - b.h, a.v - b.v);

/** Angle at b in degrees, 0 to 180. */
export function cornerDeg(a: Flat, b: Flat, c: Flat): number {
  const [ah, av, ch, cv] = [a.h - b.h, a.v - b.v, c.h - b.h, c.v - b.v];
  return Math.atan2(Math.abs(ah * cv - av * ch), ah * ch + av * cv) * DEGREES;
}

/** Angle of a direction in degrees, -180 to 180. */
export const directionDeg = (y: number, x: number): number => Math.atan2(y, x) * DEGREES;

/** Arc sine in degrees of a share that is held between -1 and 1. */
export const arcsineDeg = (share: number): number => Math.asin(Math.max(-1, Math.min(1, share))) * DEGREES;

/** Arc cosine in degrees of a share that is held between -1 and 1. */
export const arccosineDeg = (share: number): number => Math.acos(Math.max(-1, Math.min(1, share))) * DEGREES;

/** Middle value of a list. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? Number.NaN;
  return (upper + lower) / 2;
}

/** 95th percentile, linear between order statistics. */
export function percentile95(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const rank = 0.95 * (sorted.length - 1);
  const low = sorted[Math.floor(rank)] ?? Number.NaN;
  const high = sorted[Math.ceil(rank)] ?? Number.NaN;
  return low + (high - low) * (rank - Math.floor(rank));
}
