import { defineFormula } from "@/lib/measure/formula";
import { clampedYawDeg } from "@/lib/measure/yaw";

/**
 * Turn of the hips at landing, degrees, by asin of their width along w over their full width; 0 = square to the plate,
 * positive = open toward the pitcher. Beyond 70 degrees the checkpoint's own rule refuses it.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "pelvis-open-at-plant",
  version: 1,
  reads: { back: ["hip_b", "plant"], front: ["hip_f", "plant"] },
  lengths: ["Wh"],
  cameraSdPerDeg: 1.1,
  value: ({ back, front }, { length }) => clampedYawDeg(back.h - front.h, length.Wh),
});
