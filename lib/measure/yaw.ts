const DEGREES = 180 / Math.PI;

/** Beyond this turn the width hardly changes: the turn is not told from it. Degrees. */
export const LARGEST_YAW_DEG = 70;

/** A turn seen from its width, from the front or from behind. */
export interface Yaw {
  /** Degrees; 0 = square to the plate, positive = open toward the pitcher, negative = coiled. Null beyond 70 degrees. */
  readonly deg: number | null;
  /** Width over the full width, signed. Beyond 1 either way the points or the full width are off. */
  readonly widthRatio: number;
  readonly isWiderThanFull: boolean;
  /** Why there is no turn; null when there is one. */
  readonly say: string | null;
}

/**
 * The turn of shoulders (w(sh_b) - w(sh_f), Ws) or hips (w(hip_b) - w(hip_f), Wh) from a front or rear view: signed, and
 * good near 0. A width above the full width is said, not clipped. The other formula in use, arccos from a side view, is
 * camera/width-turn.ts. Source: conventions `derived`, yaw.
 * @param across back point less front point along w, pixels @param fullWidth Ws or Wh, pixels
 */
export function yawOf(across: number, fullWidth: number): Yaw {
  const widthRatio = fullWidth > 0 ? across / fullWidth : NaN;
  const isWiderThanFull = Math.abs(widthRatio) > 1;
  if (Number.isNaN(widthRatio)) return { deg: null, widthRatio, isWiderThanFull, say: "the width is not known" };
  if (isWiderThanFull) return { deg: null, widthRatio, isWiderThanFull, say: `it looks ${Math.max(1, Math.round(100 * Math.abs(widthRatio) - 100))} % wider than its full width: a point may be off` };
  const deg = Math.asin(widthRatio) * DEGREES;
  if (Math.abs(deg) > LARGEST_YAW_DEG) return { deg: null, widthRatio, isWiderThanFull, say: `beyond ${LARGEST_YAW_DEG} degrees the width hardly changes` };
  return { deg, widthRatio, isWiderThanFull, say: null };
}

/**
 * The turn in degrees by asin of the ratio clamped to -1..1: for formulas and rules whose checkpoint says by a rule of
 * its own what holds beyond 70 degrees. NaN when the full width is not above 0.
 */
export function clampedYawDeg(across: number, fullWidth: number): number {
  return fullWidth > 0 ? Math.asin(Math.max(-1, Math.min(1, across / fullWidth))) * DEGREES : NaN;
}
