import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the front shoulder is behind the front knee at landing, in torso lengths; positive = nearer the catcher.
 * Camera: knee and shoulder a third of a torso apart in depth (judgement).
 */
export default defineFormula({
  id: "shoulder-behind-knee",
  version: 1,
  reads: { knee: ["kn_f", "plant"], shoulder: ["sh_f", "plant"] },
  lengths: ["T"],
  cameraSdPerDeg: 0.33 * (Math.PI / 180),
  value: ({ knee, shoulder }, { length }) => (knee.h - shoulder.h) / length.T,
});
