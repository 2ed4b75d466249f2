import { defineFormula } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { WindowView } from "@/lib/measure/window-read";
import { medianIn } from "@/lib/measure/windows/extremes";
import { clampedYawDeg } from "@/lib/measure/yaw";

type Tracks = WindowView<"heel" | "toe" | "hipBack" | "hipFront">;

/** Where the back foot points, degrees: 0 = at the plate, 90 = at the pitcher. The lift of the heel shortens its length on the ground. */
function footDeg({ at }: Tracks, i: number, foot: number): number {
  const across = (at.toe.h[i] ?? NaN) - (at.heel.h[i] ?? NaN);
  const lift = (at.heel.v[i] ?? NaN) - (at.toe.v[i] ?? NaN);
  const onGround = Math.sqrt(Math.max((0.05 * foot) ** 2, foot ** 2 - lift ** 2));
  return (Math.acos(Math.max(-1, Math.min(1, across / onGround))) * 180) / Math.PI;
}

const middle = ({ plant, contact }: FormulaScales["seconds"]) => 0.5 * (plant + contact);

/**
 * How far the back foot has turned beyond the hips half way from landing to contact, median of three frames, degrees; positive
 * = the foot has turned further.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-foot-spin-lead",
  version: 1,
  reads: {},
  window: {
    from: (seconds, period) => middle(seconds) - 1.5 * period,
    to: (seconds, period) => middle(seconds) + 1.5 * period,
    frames: 3,
    tracks: { heel: "heel_b", toe: "toe_b", hipBack: "hip_b", hipFront: "hip_f" },
  },
  events: ["plant", "contact"],
  lengths: ["F", "Wh"],
  cameraSdPerDeg: 0.57,
  value: (_, { length }, window) =>
    medianIn(window, (i) => footDeg(window, i, length.F) - clampedYawDeg((window.at.hipBack.h[i] ?? NaN) - (window.at.hipFront.h[i] ?? NaN), length.Wh)),
});
