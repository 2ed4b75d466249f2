import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the face is turned toward the plate at contact: nose from the middle of the ears along w, in ear spans.
 * Camera: the nose stands about three quarters of an ear span before the ears in depth (judgement).
 */
export default defineFormula({
  id: "face-to-contact",
  version: 1,
  reads: { nose: ["nose", "contact"], ears: ["midears", "contact"] },
  lengths: ["earSpan"],
  cameraSdPerDeg: 0.75 * (Math.PI / 180),
  value: ({ nose, ears }, { length }) => (nose.h - ears.h) / length.earSpan,
});
