import { defineFormula } from "@/lib/measure/formula";
import { largestIn } from "@/lib/measure/windows/extremes";

/**
 * How far the belt goes past one of the feet in the half second after the finish, at most, along u in torso lengths;
 * 0 or less = it stays between them.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "finish-balance",
  version: 1,
  reads: {},
  window: { from: ({ finish }) => finish, to: ({ finish }) => finish + 0.5, tracks: { belt: "midhip", front: "an_f", back: "an_b" }, axes: "h" },
  events: ["finish"],
  lengths: ["T"],
  cameraSdPerDeg: 0.0013,
  value: (_, { length }, window) => {
    const { belt, front, back } = window.at;
    const past = (i: number) => Math.max((belt.h[i] ?? NaN) - (front.h[i] ?? NaN), (back.h[i] ?? NaN) - (belt.h[i] ?? NaN));
    return largestIn(window, past) / length.T;
  },
});
