import type { Side, View } from "@/lib/measure/clip-input";

/**
 * How far the camera stood off the ideal line of its view, turned about the hitter. Positive = from the ideal place on
 * toward the next in the order side (facing the chest), front, the hitter's back, rear; so toward the pitcher in the side
 * view, toward the hitter's back in the front view, toward the chest in the rear view. The same for left-handed hitters
 * and mirrored files.
 */
export interface CameraLine {
  /** Degrees, -180 to 180; where the sign is not known, how far (0 or more). */
  readonly offDeg: number;
  readonly sdDeg: number;
  readonly isSignKnown: boolean;
  readonly source: LineSource;
}

/** What an estimate was made from: home plate marked in the picture, how wide the body looks at the stance, or both. */
export type LineSource = "plate" | "widths" | "both";

/** An estimate, or the sentence that says why there is none. */
export type LineResult = { readonly line: CameraLine; readonly reason: null } | { readonly line: null; readonly reason: string };

/** What one needs of a clip to tell its directions. */
export interface PictureOfView {
  readonly view: View;
  readonly side: Side;
  readonly mirrored: boolean;
}

/** Direction from the hitter to the ideal camera: 0 = over the plate (facing the chest), 90 = toward the pitcher. */
export const IDEAL_YAW_DEG: Readonly<Record<View, number>> = { side: 0, front: 90, rear: -90 };

/** No estimate. */
export function noLine(reason: string): LineResult {
  return { line: null, reason };
}

/** An angle in degrees brought to -180 (left out) to 180. */
export function wrapDeg(deg: number): number {
  const turned = ((deg % 360) + 360) % 360;
  return turned > 180 ? turned - 360 : turned;
}
