import { defineFormula } from "@/lib/measure/formula";

/**
 * Where the middle of the hips is at contact on the base of the landing: 0 over the back ankle, 1 over the front ankle.
 * T is read for the checkpoint's own rule (base too narrow) only. Camera: hips a tenth of the base off its line (judgement).
 */
export default defineFormula({
  id: "hip-travel",
  version: 1,
  reads: { hips: ["midhip", "contact"], back: ["an_b", "plant"], front: ["an_f", "plant"] },
  comparesFrames: true,
  cameraSdPerDeg: 0.1 * (Math.PI / 180),
  value: ({ hips, back, front }) => (front.h === back.h ? NaN : (hips.h - back.h) / (front.h - back.h)),
});
