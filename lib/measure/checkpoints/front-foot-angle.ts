import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the front foot is open at landing, degrees, from its width along w over the back foot's length; 0 = toes square
 * to the plate, 90 = toes at the pitcher. It cannot go below 0.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "front-foot-angle",
  version: 1,
  reads: { toe: ["toe_f", "plant"], heel: ["heel_f", "plant"] },
  lengths: ["F"],
  foldsAt: [0, 180],
  cameraSdPerDeg: 1.6,
  value: ({ toe, heel }, { length }) => {
    if (toe.h === heel.h && toe.v === heel.v) return NaN;
    return (Math.acos(Math.max(-1, Math.min(1, (toe.h - heel.h) / length.F))) * 180) / Math.PI;
  },
});
