import { defineFormula } from "@/lib/measure/formula";
import { LARGEST_YAW_DEG, clampedYawDeg } from "@/lib/measure/yaw";

/** Share of the full width from which it no longer tells the turn. */
const FULL = Math.sin((LARGEST_YAW_DEG * Math.PI) / 180);

/**
 * Turn of the hips at contact, degrees, from their width along w over the full width; positive = open. Once the width has
 * grown to that of 70 degrees anywhere from landing on, only "70 or more" is known.
 * Camera: a turn, degree for degree (geometry; 1.1 on drawn hitters, tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "pelvis-open-at-contact",
  version: 1,
  reads: { back: ["hip_b", "contact"], front: ["hip_f", "contact"] },
  window: { from: ({ plant }) => plant, to: ({ contact }) => contact, tracks: { back: "hip_b", front: "hip_f" }, axes: "h" },
  events: ["plant"],
  lengths: ["Wh"],
  cameraSdPerDeg: 1.1,
  value: ({ back, front }, { length }, window) => {
    const { at } = window;
    for (let i = window.first; i <= window.last; i++) {
      if (Math.abs((at.back.h[i] ?? NaN) - (at.front.h[i] ?? NaN)) / length.Wh >= FULL) return Infinity;
    }
    return clampedYawDeg(back.h - front.h, length.Wh);
  },
});
