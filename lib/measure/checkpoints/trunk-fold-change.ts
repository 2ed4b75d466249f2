import { atan2Deg } from "@/lib/measure/angles";
import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * How much the trunk bends toward the plate from landing to contact, degrees; positive = folds, negative = stands up.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "trunk-fold-change",
  version: 1,
  reads: {
    contactChest: ["midsh", "contact"], contactHips: ["midhip", "contact"],
    plantChest: ["midsh", "plant"], plantHips: ["midhip", "plant"],
  },
  cameraSdPerDeg: 0.18,
  value: (p) =>
    atan2Deg(p.contactChest.h - p.contactHips.h, p.contactChest.v - p.contactHips.v) -
    atan2Deg(p.plantChest.h - p.plantHips.h, p.plantChest.v - p.plantHips.v),
  named: {
    /** How far the hips are shoved away from the plate from landing to contact, in torso lengths. */
    "seat-out": expression({
      reads: { atPlant: ["midhip", "plant"], atContact: ["midhip", "contact"] },
      lengths: ["T"],
      value: ({ atPlant, atContact }, { length }) => (atPlant.h - atContact.h) / length.T,
    }),
  },
});
