import { defineFormula } from "@/lib/measure/formula";
import { pathThrough } from "@/lib/measure/windows/path";

/**
 * Length of the path of the bat's tip from launch to contact, in bat lengths. Tip filtered at 20 Hz. Own baseline only.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "barrel-path-length",
  version: 1,
  reads: {},
  window: { from: ({ launch }) => launch, to: ({ contact }) => contact, tracks: { tip: "tip" }, filterHz: 20 },
  events: ["launch", "contact"],
  lengths: ["Lb"],
  cameraSdPerDeg: 0.012,
  value: (_, { length }, window) => pathThrough(window.at.tip, window).length / length.Lb,
});
