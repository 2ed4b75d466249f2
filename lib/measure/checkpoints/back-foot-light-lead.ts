import { defineFormula } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { WindowView } from "@/lib/measure/window-read";
import { timeOfZero } from "@/lib/measure/windows/crossing";
import { median3At } from "@/lib/measure/windows/median3";

/** The heel is up when its lift over the toe is more than this, in foot lengths. */
const UP = 0.3;

type Foot = WindowView<"heel" | "toe">;

/** Lift of the heel over the toe above that at stance on a sample, in foot lengths, median of three frames. */
function liftOn(window: Foot, { length, resting }: FormulaScales): (sample: number) => number {
  const { heel, toe } = window.at;
  const still = resting["heel over toe"] ?? NaN;
  const raw = (i: number) => ((heel.v[i] ?? NaN) - (toe.v[i] ?? NaN) - still) / length.Fs;
  return (sample) => median3At(window, raw, sample);
}

/** First sample from which the heel is up without a break until contact; else the first after contact on which it is up; -1 = none. */
function lightSample({ seconds, first, last }: Foot, lift: (sample: number) => number, contact: number): number {
  let sample = last;
  while (sample >= first && (seconds[sample] ?? NaN) > contact + 1e-9) sample--;
  const atContact = sample;
  let light = -1;
  for (; sample >= first; sample--) {
    const now = lift(sample);
    if (Number.isNaN(now)) continue;
    if (!(now > UP)) break;
    light = sample;
  }
  for (let i = atContact + 1; light < 0 && i <= last; i++) if (lift(i) > UP) light = i;
  return light;
}

/** When the lift passed its limit, between the sample on which it is up and the one before it. */
function upSeconds(window: Foot, lift: (sample: number) => number, light: number): number {
  const then = light > window.first ? lift(light - 1) - UP : NaN;
  return timeOfZero(window, Number.isNaN(then) ? -1 : light - 1, light, then, lift(light) - UP);
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
    const lift = liftOn(window, scales);
    const light = lightSample(window, lift, scales.seconds.contact);
    if (light < 0) return -Infinity;
    window.decidedBy = light;
    return scales.seconds.contact - upSeconds(window, lift, light);
  },
});
