import { defineFormula } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { WindowView } from "@/lib/measure/window-read";
import { timeOfZero } from "@/lib/measure/windows/crossing";
import { median3 } from "@/lib/measure/windows/median3";

/** The heel is up when its lift over the toe is more than this, in foot lengths. */
const UP = 0.3;

type Foot = WindowView<"heel" | "toe">;
const scratch = { lift: new Float64Array(0) };

/** Lift of the heel over the toe above that at stance, in foot lengths, median of three frames. */
function liftOf(window: Foot, { length, resting }: FormulaScales): Float64Array {
  if (scratch.lift.length !== window.seconds.length) scratch.lift = new Float64Array(window.seconds.length);
  const { heel, toe } = window.at;
  const still = resting["heel over toe"] ?? NaN;
  return median3(window, (i) => ((heel.v[i] ?? NaN) - (toe.v[i] ?? NaN) - still) / length.Fs, scratch.lift);
}

/** First sample from which the heel is up without a break until contact; after it the first on which it is up; -1 = none. */
function lightSample(window: Foot, lift: Float64Array, contact: number): number {
  let start = -1;
  for (let i = window.first; i <= window.last; i++) {
    const isUp = (lift[i] ?? NaN) > UP;
    if ((window.seconds[i] ?? NaN) > contact + 1e-9) {
      if (start >= 0 || isUp) return start >= 0 ? start : i;
      continue;
    }
    if (Number.isNaN(lift[i])) continue;
    if (!isUp) start = -1;
    else if (start < 0) start = i;
  }
  return start;
}

/** When the lift passed its limit, between the sample on which it is up and the one before it. */
function upSeconds(window: Foot, lift: Float64Array, light: number): number {
  const then = light > window.first ? (lift[light - 1] ?? NaN) - UP : NaN;
  return timeOfZero(window, Number.isNaN(then) ? -1 : light - 1, light, then, (lift[light] ?? NaN) - UP);
}

/**
 * How long before contact the back heel is up and stays up, seconds; negative = it comes up only after contact; none by 0.10 s after it =
 * "not before 0.10 s after contact".
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-foot-light-lead",
  version: 1,
  reads: {},
  window: { from: ({ stance }) => stance, to: ({ contact }) => contact + 0.1, tracks: { heel: "heel_b", toe: "toe_b" }, axes: "v" },
  events: ["stance", "contact"],
  lengths: ["Fs"],
  resting: { "heel over toe": ["heel_b", "toe_b"] },
  cameraSdPerDeg: 0.0011,
  value: (_, scales, window) => {
    const light = lightSample(window, liftOf(window, scales), scales.seconds.contact);
    if (light < 0) return -Infinity;
    window.decidedBy = light;
    return scales.seconds.contact - upSeconds(window, scratch.lift, light);
  },
});
