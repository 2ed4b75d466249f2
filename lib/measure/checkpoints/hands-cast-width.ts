import { defineFormula } from "@/lib/measure/formula";
import { largestIn } from "@/lib/measure/windows/extremes";

/**
 * How far the hands go out toward the plate from the middle of the shoulders in the first 40 % of the swing, at most,
 * along w in lengths of the back arm; positive = toward the plate.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "hands-cast-width",
  version: 1,
  reads: {},
  window: {
    from: ({ launch }) => launch,
    to: ({ launch, contact }) => launch + 0.4 * (contact - launch),
    tracks: { hands: "hands", shoulders: "midsh" },
    axes: "h",
  },
  events: ["launch", "contact"],
  lengths: ["Ua", "Fa"],
  cameraSdPerDeg: 0.0024,
  value: (_, { length }, window) => largestIn(window, (i) => (window.at.hands.h[i] ?? NaN) - (window.at.shoulders.h[i] ?? NaN)) / (length.Ua + length.Fa),
});
