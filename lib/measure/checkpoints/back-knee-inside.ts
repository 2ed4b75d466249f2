import { defineFormula } from "@/lib/measure/formula";
import { smallestIn } from "@/lib/measure/windows/extremes";

/**
 * How far the back knee stays inside the back ankle from stance to landing, at its least, along u in torso lengths;
 * positive = knee nearer the pitcher than the ankle.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-knee-inside",
  version: 1,
  reads: {},
  window: { from: ({ stance }) => stance, to: ({ plant }) => plant, tracks: { knee: "kn_b", ankle: "an_b" }, axes: "h" },
  events: ["stance", "plant"],
  lengths: ["T"],
  cameraSdPerDeg: 0.004,
  value: (_, { length }, window) => {
    const { knee, ankle } = window.at;
    return smallestIn(window, (i) => (knee.h[i] ?? NaN) - (ankle.h[i] ?? NaN)) / length.T;
  },
});
