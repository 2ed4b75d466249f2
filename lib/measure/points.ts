/** The points of a hitter and a bat. `_f` = front (nearer the pitcher at set-up), `_b` = back; never left or right. */
export const POINT_IDS = [
  "nose", "ear_f", "ear_b", "sh_f", "sh_b", "el_f", "el_b", "wr_f", "wr_b", "hip_f", "hip_b",
  "kn_f", "kn_b", "an_f", "an_b", "heel_f", "heel_b", "toe_f", "toe_b", "knob", "tip", "helmet",
] as const;

export type PointId = (typeof POINT_IDS)[number];

/** True for the name of a point. */
export function isPointId(text: unknown): text is PointId {
  return typeof text === "string" && (POINT_IDS as readonly string[]).includes(text);
}

/** Points that no suggestion ever gives: a person places them. */
export const BY_HAND_ONLY: readonly PointId[] = ["knob", "tip", "helmet"];

/** Weights of placed points that together make one derived place; the weights add up to 1. */
export type PointMix = Readonly<Partial<Record<PointId, number>>>;

/** Middle of the hips, middle of the shoulders, middle of the ears, the sweet spot of the bat. */
export const DERIVED_POINTS = {
  midhip: { hip_f: 0.5, hip_b: 0.5 },
  midsh: { sh_f: 0.5, sh_b: 0.5 },
  midears: { ear_f: 0.5, ear_b: 0.5 },
  S: { tip: 0.82, knob: 0.18 },
} as const satisfies Record<string, PointMix>;

/**
 * Places that two sets of points can give, in order of preference: one set in every frame of a reading or the other in
 * every one, never a mixture.
 */
export const EITHER_POINTS = {
  hands: [{ wr_f: 0.5, wr_b: 0.5 }, { knob: 1 }],
  head: [{ helmet: 1 }, { ear_f: 0.5, ear_b: 0.5 }],
} as const satisfies Record<string, readonly PointMix[]>;

export type DerivedPointId = keyof typeof DERIVED_POINTS;
export type EitherPointId = keyof typeof EITHER_POINTS;
export type PlaceId = PointId | DerivedPointId | EitherPointId;

/** The point sets that can give a place, best first. */
export function mixesOf(place: PlaceId): readonly PointMix[] {
  if (isPointId(place)) return [{ [place]: 1 }];
  if (place === "hands" || place === "head") return EITHER_POINTS[place];
  return [DERIVED_POINTS[place]];
}

/** True for a point or a place derived from points. */
export function isPlaceId(text: unknown): text is PlaceId {
  return isPointId(text) || (typeof text === "string" && (Object.hasOwn(DERIVED_POINTS, text) || Object.hasOwn(EITHER_POINTS, text)));
}
