import { defineFormula } from "@/lib/measure/formula";
import { clampedYawDeg } from "@/lib/measure/yaw";

/**
 * Turn of the shoulders at landing, degrees, by asin of their width along w over their full width; 0 = square to the
 * plate, positive = open toward the pitcher. Beyond 70 degrees the checkpoint's own rule refuses it.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "chest-open-at-plant",
  version: 1,
  reads: { back: ["sh_b", "plant"], front: ["sh_f", "plant"] },
  lengths: ["Ws"],
  cameraSdPerDeg: 1.1,
  value: ({ back, front }, { length }) => clampedYawDeg(back.h - front.h, length.Ws),
});
