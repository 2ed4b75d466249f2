import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * How far the back heel is up at contact: height of heel over toe in side-view foot lengths (0.52 torso), less the same
 * over the stance frames, which takes off what a high camera makes of a flat foot. Positive = lifted.
 * Camera: heights change with the cosine only; a tenth of a foot of depth (judgement).
 */
export default defineFormula({
  id: "back-foot-release",
  version: 1,
  reads: { heel: ["heel_b", "contact"], toe: ["toe_b", "contact"] },
  lengths: ["Fs"],
  resting: { heelOverToe: ["heel_b", "toe_b"] },
  cameraSdPerDeg: 0.1 * (Math.PI / 180),
  value: ({ heel, toe }, { length, resting }) => (heel.v - toe.v - (resting.heelOverToe ?? NaN)) / length.Fs,
  named: {
    /** How far the back toe has slid toward the pitcher from landing to contact, in foot lengths. */
    slide: expression({
      reads: { atContact: ["toe_b", "contact"], atPlant: ["toe_b", "plant"] },
      lengths: ["Fs"],
      value: ({ atContact, atPlant }, { length }) => (atContact.h - atPlant.h) / length.Fs,
    }),
  },
});
