import { defineFormula } from "@/lib/measure/formula";
import { medianOfLargest } from "@/lib/measure/windows/extremes";

/**
 * How far the back elbow runs ahead of the hands in the first half of the swing: median of the three largest values,
 * along u in forearm lengths of the back arm; positive = elbow nearer the pitcher.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-elbow-lead",
  version: 1,
  reads: {},
  window: {
    from: ({ launch }) => launch,
    to: ({ launch, contact }) => launch + 0.5 * (contact - launch),
    tracks: { elbow: "el_b", hands: "hands" },
    axes: "h",
  },
  events: ["launch", "contact"],
  lengths: ["Fa"],
  cameraSdPerDeg: 0.016,
  value: (_, { length }, window) => medianOfLargest(window, 3, (i) => (window.at.elbow.h[i] ?? NaN) - (window.at.hands.h[i] ?? NaN)) / length.Fa,
});
