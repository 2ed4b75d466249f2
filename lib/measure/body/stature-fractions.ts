/**
 * Lengths and heights of the average adult as shares of standing height.
 * Source: Drillis & Contini 1966, as in Winter 2009; thigh, shank and trunk by subtraction of heights.
 */
export const STATURE_FRACTIONS = {
  "head height (chin-vertex)": 0.13, "ankle height": 0.039, "knee height": 0.285, "hip height": 0.53, "shoulder height": 0.818, "chin height": 0.87,
  "eye height": 0.936, "upper arm": 0.186, forearm: 0.146, hand: 0.108, "shoulder width": 0.259, "half shoulder": 0.129, "hip width": 0.191,
  "foot length": 0.152, "foot width": 0.055, "thigh (hip-knee)": 0.245, "shank (knee-ankle)": 0.246, "trunk (hip-shoulder)": 0.288,
} as const;

export type StatureLength = keyof typeof STATURE_FRACTIONS;

/** A length of the body in metres. @throws RangeError for a height that is not above 0 */
export function lengthAtStatureM(length: StatureLength, statureM: number): number {
  if (!(statureM > 0 && statureM < Infinity)) throw new RangeError(`a height must be above 0 m, not ${statureM}`);
  return STATURE_FRACTIONS[length] * statureM;
}
