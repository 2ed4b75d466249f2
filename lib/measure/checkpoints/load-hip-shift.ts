import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the hips gather in the load: shift of the middle of the hips along u from stance to load, in torso lengths;
 * negative = toward the catcher. Camera: hips that turn a tenth of a torso in depth (judgement).
 */
export default defineFormula({
  id: "load-hip-shift",
  version: 1,
  reads: { atLoad: ["midhip", "load"], atStance: ["midhip", "stance"] },
  lengths: ["T"],
  cameraSdPerDeg: 0.1 * (Math.PI / 180),
  value: ({ atLoad, atStance }, { length }) => (atLoad.h - atStance.h) / length.T,
});
