import { defineFormula } from "@/lib/measure/formula";
import { smallestIn } from "@/lib/measure/windows/extremes";

/**
 * How far the front knee stays behind the front ankle from landing to contact, at its least, along u in torso lengths;
 * positive = knee nearer the catcher than the ankle.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "front-knee-behind-foot",
  version: 1,
  reads: {},
  window: { from: ({ plant }) => plant, to: ({ contact }) => contact, tracks: { ankle: "an_f", knee: "kn_f" }, axes: "h" },
  events: ["plant", "contact"],
  lengths: ["T"],
  cameraSdPerDeg: 0.00085,
  value: (_, { length }, window) => smallestIn(window, (i) => (window.at.ankle.h[i] ?? NaN) - (window.at.knee.h[i] ?? NaN)) / length.T,
});
