import { defineFormula } from "@/lib/measure/formula";
import { firstAbove } from "@/lib/measure/windows/crossing";

/** How much higher than the front wrist the back wrist must be, in torso lengths. */
const ABOVE = 0.04;

/**
 * When the top hand rolls over the bottom hand, seconds from contact: first time from 0.03 s before contact at which the back wrist is
 * higher than the front one by 0.04 torso lengths, between frames; none by 0.30 s = "not before 0.30 s".
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "wrist-roll-time",
  version: 1,
  reads: {},
  window: { from: ({ contact }) => contact - 0.03, to: ({ contact }) => contact + 0.3, tracks: { back: "wr_b", front: "wr_f" }, axes: "v", smoothSeconds: 0.04 },
  events: ["contact"],
  lengths: ["T"],
  cameraSdPerDeg: 0.000093,
  value: (_, { length, seconds }, window) => {
    const { back, front } = window.at;
    const above = (i: number) => (back.v[i] ?? NaN) - (front.v[i] ?? NaN) - ABOVE * length.T;
    const crossed = firstAbove(window, above);
    if (crossed !== null) return crossed - seconds.contact;
    return Infinity;
  },
});
