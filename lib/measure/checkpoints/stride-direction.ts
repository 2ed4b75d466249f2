import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * Where the front foot steps from stance to landing, along w, in foot lengths; positive = toward the plate.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "stride-direction",
  version: 1,
  reads: { atPlant: ["an_f", "plant"], atStance: ["an_f", "stance"] },
  lengths: ["F"],
  cameraSdPerDeg: 0.014,
  value: ({ atPlant, atStance }, { length }) => (atPlant.h - atStance.h) / length.F,
  named: {
    /** How much nearer the plate the front toe lands than the back toe, in foot lengths. */
    "landing-line": expression({
      reads: { front: ["toe_f", "plant"], back: ["toe_b", "plant"] },
      lengths: ["F"],
      value: ({ front, back }, { length }) => (front.h - back.h) / length.F,
    }),
  },
});
