import { angleDeg, cross, vector } from "@/lib/measure/angles";
import { defineFormula, expression } from "@/lib/measure/formula";

const atContact = { ankle: ["an_f", "contact"], hips: ["midhip", "contact"], chest: ["midsh", "contact"] } as const;

/**
 * Front ankle, hips and chest in one line at contact, degrees; 180 = straight.
 * Camera: about 7 degrees for 15 off the line (measured on drawn hitters, tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "front-side-stack",
  version: 1,
  reads: atContact,
  foldsAt: [0, 180],
  cameraSdPerDeg: 0.48,
  value: ({ ankle, hips, chest }) => angleDeg(ankle, hips, chest),
  named: {
    /** Where the hips stand out of the line; no word when the line is straight within two SD. */
    "side-of-break": {
      ...expression({
        reads: atContact,
        value: ({ ankle, hips, chest }) => cross(vector(ankle, hips), vector(hips, chest)),
      }),
      word: (turn, main) => {
        if (Math.abs(180 - main.value) < 2 * main.sd || turn === 0) return null;
        return turn > 0 ? "hips toward the pitcher" : "hips toward the catcher";
      },
    },
  },
});
