import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * Where the hands are along u from the back shoulder at landing, in torso lengths; positive = nearer the pitcher.
 * Camera: hands and shoulder a third of a torso apart in depth (judgement).
 */
export default defineFormula({
  id: "hands-back-at-plant",
  version: 1,
  reads: { hands: ["hands", "plant"], shoulder: ["sh_b", "plant"] },
  lengths: ["T"],
  cameraSdPerDeg: 0.33 * (Math.PI / 180),
  value: ({ hands, shoulder }, { length }) => (hands.h - shoulder.h) / length.T,
  named: {
    /** How much the distance from front ankle to hands grows from stance to landing, in torso lengths. */
    "hands-to-ankle-growth": expression({
      reads: {
        plantAnkle: ["an_f", "plant"], plantHands: ["hands", "plant"],
        stanceAnkle: ["an_f", "stance"], stanceHands: ["hands", "stance"],
      },
      lengths: ["T"],
      value: (p, { length }) => (p.plantAnkle.h - p.plantHands.h - (p.stanceAnkle.h - p.stanceHands.h)) / length.T,
    }),
  },
});
