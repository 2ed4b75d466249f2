import { bodyAllowance } from "@/lib/measure/body/body-allowance";
import { lengthAtStatureM, type StatureLength } from "@/lib/measure/body/stature-fractions";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/** Pixels per metre at the hitter, with its doubt. */
export interface PictureScale {
  readonly pixelsPerM: number;
  readonly sd: number;
  /** Share by which this source may be off before anybody is warned. */
  readonly limit: number;
  /** What gave it, for a sentence: "the thigh", "the bat". */
  readonly from: string;
}

/** A height entered at the office is about a centimetre off. Judgement. */
const STATURE_SD_M = 0.01;

/**
 * The scale that the entered height and one length of the body in the picture give. The length must lie in the picture
 * plane; a limb that points at the camera looks short and gives a scale that is too small. Unknown without a height.
 * @param lengthPx and its SD in pixels @param ageYears completed years; a growing body is allowed ten percent
 * @throws RangeError for an age below 0
 */
export function scaleFromStature(
  length: StatureLength, lengthPx: number, sdPx: number, statureM: number | null, ageYears: number | null,
): Answer<PictureScale> {
  if (statureM === null || !(statureM > 0 && statureM < Infinity)) return unknownBecause("no height is entered");
  if (!(lengthPx > 0 && lengthPx < Infinity && sdPx >= 0)) return unknownBecause("the length is not seen");
  const { limit, sd } = bodyAllowance(ageYears);
  const pixelsPerM = lengthPx / lengthAtStatureM(length, statureM);
  return { pixelsPerM, sd: pixelsPerM * Math.hypot(sdPx / lengthPx, STATURE_SD_M / statureM, sd), limit, from: `the ${length.replace(/ \(.*/, "")}` };
}

/** The scale of a thing of known length in the hitter's plane. Unknown when it is not seen. @throws RangeError for a length that is not above 0 */
export function scaleFromThing(from: string, lengthPx: number, sdPx: number, lengthM: number, sdM = 0): Answer<PictureScale> {
  if (!(lengthM > 0 && sdM >= 0)) throw new RangeError("a known length must be above 0 m");
  if (!(lengthPx > 0 && lengthPx < Infinity && sdPx >= 0)) return unknownBecause("the length is not seen");
  const pixelsPerM = lengthPx / lengthM;
  return { pixelsPerM, sd: pixelsPerM * Math.hypot(sdPx / lengthPx, sdM / lengthM), limit: 0, from };
}
