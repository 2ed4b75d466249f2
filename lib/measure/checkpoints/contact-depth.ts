import { defineFormula } from "@/lib/measure/formula";

/**
 * How far in front of the front ankle the sweet spot meets the ball, along u, in torso lengths.
 * Camera: the sweet spot lies about a torso and a half nearer the plate than the ankle (measured on drawn hitters, tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "contact-depth",
  version: 1,
  reads: { sweetSpot: ["S", "contact"], ankle: ["an_f", "contact"] },
  lengths: ["T"],
  cameraSdPerDeg: 0.029,
  value: ({ sweetSpot, ankle }, { length }) => (sweetSpot.h - ankle.h) / length.T,
});
