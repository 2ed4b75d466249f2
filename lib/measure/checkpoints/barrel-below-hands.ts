import { atan2Deg } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the barrel hangs below the hands at contact, degrees from level; positive = lower. The bat's width counts
 * without its sign, so that the angle folds at straight up and straight down.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "barrel-below-hands",
  version: 1,
  reads: { knob: ["knob", "contact"], tip: ["tip", "contact"] },
  foldsAt: [-90, 90],
  cameraSdPerDeg: 0.071,
  value: ({ knob, tip }) => atan2Deg(knob.v - tip.v, Math.abs(tip.h - knob.h)),
});
