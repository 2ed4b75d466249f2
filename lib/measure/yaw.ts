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
 * good near 0. A width above the full width is said, not clipped. Source: conventions `derived`, yaw.
 * @param across back point less front point along w, pixels @param fullWidth Ws or Wh, pixels
 */
export function yawOf(across: number, fullWidth: number): Yaw {
  const widthRatio = fullWidth > 0 ? across / fullWidth : NaN;
  const isWiderThanFull = Math.abs(widthRatio) > 1;
  if (Number.isNaN(widthRatio)) return { deg: null, widthRatio, isWiderThanFull, say: "the width is not known" };
  if (isWiderThanFull) return { deg: null, widthRatio, isWiderThanFull, say: `seen ${Math.round(100 * Math.abs(widthRatio) - 100)} % wider than its full width: the turn is beyond ${LARGEST_YAW_DEG} degrees, or a point is off` };
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

/** The turn below which a side view's width does not tell it. Degrees. */
export const SMALLEST_SIDE_YAW_DEG = 20;

/**
 * The other formula in use, from a side view, where the width is largest when square: arccos(width / full width),
 * unsigned and bad near 0, with its SD by first-order propagation. Null below 20 degrees, and for a width above the full
 * width. Source: case T6.8.
 * @param sdWidth SD of the width, pixels @param sdFullWidth SD of the full width, pixels
 * @throws RangeError for an SD below 0
 */
export function sideYawOf(width: number, fullWidth: number, sdWidth: number, sdFullWidth: number): { readonly deg: number; readonly sdDeg: number } | null {
  if (!(sdWidth >= 0 && sdFullWidth >= 0)) throw new RangeError("an SD cannot be below 0");
  const turn = sideYawWithSd(width, fullWidth, sdWidth, sdFullWidth);
  return turn && turn.deg >= SMALLEST_SIDE_YAW_DEG ? turn : null;
}

/** As sideYawOf, also where it is bad; for the published case. Null for a width that is no share of the full width. */
export function sideYawWithSd(width: number, fullWidth: number, sdWidth: number, sdFullWidth: number): { readonly deg: number; readonly sdDeg: number } | null {
  const ratio = width / fullWidth;
  if (!(fullWidth > 0 && ratio >= 0 && ratio <= 1)) return null;
  const turn = Math.acos(ratio);
  const slope = fullWidth * Math.sin(turn);
  return { deg: turn * DEGREES, sdDeg: Math.hypot(sdWidth / slope, (ratio * sdFullWidth) / slope) * DEGREES };
}
