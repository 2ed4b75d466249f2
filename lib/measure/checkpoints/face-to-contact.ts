import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the face is turned toward the plate at contact: nose from the middle of the ears along w, in ear spans.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "face-to-contact",
  version: 1,
  reads: { nose: ["nose", "contact"], ears: ["midears", "contact"] },
  lengths: ["earSpan"],
  cameraSdPerDeg: 0.0059,
  value: ({ nose, ears }, { length }) => (nose.h - ears.h) / length.earSpan,
});
