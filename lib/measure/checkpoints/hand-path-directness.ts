import { defineFormula } from "@/lib/measure/formula";
import { pathThrough } from "@/lib/measure/windows/path";

/**
 * Length of the knob's path from launch to contact over the straight way between its ends; 1 = straight. Knob filtered
 * at 20 Hz.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "hand-path-directness",
  version: 1,
  reads: {},
  window: { from: ({ launch }) => launch, to: ({ contact }) => contact, tracks: { knob: "knob" }, filterHz: 20 },
  events: ["launch", "contact"],
  comparesFrames: true,
  cameraSdPerDeg: 0.0045,
  value: (_, __, window) => {
    const { length, start, end } = pathThrough(window.at.knob, window);
    return length / Math.hypot(end.h - start.h, end.v - start.v);
  },
});
