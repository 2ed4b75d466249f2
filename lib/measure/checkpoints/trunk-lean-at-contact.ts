import { atan2Deg } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";

/**
 * Lean of the trunk from upright at contact, degrees; positive = upper body tilted toward the catcher.
 * Camera: about 6 degrees for 15 off the line (conventions `cameraOff`; 0.43 a degree on drawn hitters).
 */
export default defineFormula({
  id: "trunk-lean-at-contact",
  version: 1,
  reads: { hips: ["midhip", "contact"], chest: ["midsh", "contact"] },
  cameraSdPerDeg: 6 / 15,
  value: ({ hips, chest }) => atan2Deg(hips.h - chest.h, chest.v - hips.v),
});
