import { defineFormula } from "@/lib/measure/formula";
import { largestIn } from "@/lib/measure/windows/extremes";

/**
 * How much the back elbow rises over the back shoulder from the stance to its highest between load and landing, in
 * upper-arm lengths; positive = it rose.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-elbow-rise",
  version: 1,
  reads: { elbow: ["el_b", "stance"], shoulder: ["sh_b", "stance"] },
  window: { from: ({ load }) => load, to: ({ plant }) => plant, tracks: { elbow: "el_b", shoulder: "sh_b" }, axes: "v" },
  events: ["load", "plant"],
  lengths: ["Ua"],
  cameraSdPerDeg: 0.0013,
  value: ({ elbow, shoulder }, { length }, window) => {
    const { at } = window;
    const highest = largestIn(window, (i) => (at.elbow.v[i] ?? NaN) - (at.shoulder.v[i] ?? NaN));
    return (highest - (elbow.v - shoulder.v)) / length.Ua;
  },
});
