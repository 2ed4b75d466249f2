/** A turn told from how wide something looks. */
export interface WidthTurn {
  /** Degrees out of the plane of the picture, 0 to 90; to which side is not known. */
  readonly turnDeg: number;
  readonly sdDeg: number;
}

/** What a width says. */
export type WidthTurnResult =
  | { readonly turn: WidthTurn; readonly isTooSquare: boolean; readonly reason: null }
  | { readonly turn: null; readonly isTooSquare: boolean; readonly reason: string };

/** Below this the width hardly changes with the turn: only "no more than that" can be said. Source: conventions `yaw`. */
export const LEAST_WIDTH_TURN_DEG = 20;

/**
 * The turn of a length that looks `width` wide and is `whole` wide when square to the camera: arccos(width / whole), unsigned,
 * and bad near square. First-order SD. A width beyond the whole is reported, not clipped; under 20 degrees `isTooSquare`
 * says that the number is no reading. Case T6.8, conventions `yaw`.
 * @throws RangeError for SDs below 0
 */
export function turnFromWidth(width: number, whole: number, sdWidth: number, sdWhole: number): WidthTurnResult {
  if (!(sdWidth >= 0 && sdWhole >= 0)) throw new RangeError("an SD must be 0 or more");
  if (!(width >= 0 && whole > 0 && whole < Infinity)) return { turn: null, isTooSquare: false, reason: "there is no width to compare with" };
  if (width >= whole) return { turn: null, isTooSquare: true, reason: "it looks wider than it is" };
  const turn = Math.acos(width / whole);
  const slope = 1 / (whole * Math.sin(turn));
  const sd = Math.hypot(sdWidth * slope, sdWhole * slope * (width / whole));
  const turnDeg = (turn * 180) / Math.PI;
  return { turn: { turnDeg, sdDeg: (sd * 180) / Math.PI }, isTooSquare: turnDeg < LEAST_WIDTH_TURN_DEG, reason: null };
}

/**
 * The signed turn of a length of which `offset` is seen across a view in which it would be end-on: arcsin(offset / whole),
 * good near 0. Null beyond 70 degrees, where the width hardly changes, or without a whole. Source: conventions `yaw`.
 */
export function turnFromOffset(offset: number, whole: number, sdOffset: number, sdWhole: number): WidthTurn | null {
  if (!(sdOffset >= 0 && sdWhole >= 0)) throw new RangeError("an SD must be 0 or more");
  const share = offset / whole;
  if (!(whole > 0) || !(Math.abs(share) <= Math.sin((70 * Math.PI) / 180))) return null;
  const turn = Math.asin(share);
  const slope = 1 / (whole * Math.cos(turn));
  const sd = Math.hypot(sdOffset * slope, sdWhole * slope * share);
  return { turnDeg: (turn * 180) / Math.PI, sdDeg: (sd * 180) / Math.PI };
}
