import { angleDeg } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";

/**
 * Angle of the front elbow at landing, degrees; 180 = straight.
 * Camera: the arm points partly at it: about 6 degrees for 15 off the line (measured on drawn hitters, tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "lead-arm-bend-at-plant",
  version: 1,
  reads: { shoulder: ["sh_f", "plant"], elbow: ["el_f", "plant"], wrist: ["wr_f", "plant"] },
  foldsAt: [0, 180],
  cameraSdPerDeg: 0.41,
  value: ({ shoulder, elbow, wrist }) => angleDeg(shoulder, elbow, wrist),
});
