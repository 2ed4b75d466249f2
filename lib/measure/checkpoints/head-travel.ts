import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * How far the head travels along u from landing to contact, in torso lengths; positive = toward the pitcher. The head is
 * the helmet in both frames, else the middle of both ears in both.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "head-travel",
  version: 1,
  reads: { atContact: ["head", "contact"], atPlant: ["head", "plant"] },
  lengths: ["T"],
  cameraSdPerDeg: 0.0036,
  value: ({ atContact, atPlant }, { length }) => (atContact.h - atPlant.h) / length.T,
  named: {
    /** How much lower the head is at contact than at the stance, in torso lengths. */
    drop: expression({
      reads: { atStance: ["head", "stance"], atContact: ["head", "contact"] },
      lengths: ["T"],
      value: ({ atStance, atContact }, { length }) => (atStance.v - atContact.v) / length.T,
    }),
  },
});
