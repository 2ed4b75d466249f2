import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the tip of the bat is ahead of the knob at contact, along u, in bat lengths; positive = nearer the pitcher.
 * Camera: from 0.12 to 0.36 for 15 degrees off the line (conventions `cameraOff`).
 */
export default defineFormula({
  id: "barrel-catch-up",
  version: 1,
  reads: { tip: ["tip", "contact"], knob: ["knob", "contact"] },
  lengths: ["Lb"],
  cameraSdPerDeg: (0.36 - 0.12) / 15,
  value: ({ tip, knob }, { length }) => (tip.h === knob.h && tip.v === knob.v ? NaN : (tip.h - knob.h) / length.Lb),
});
