import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the back elbow is drawn in behind the back shoulder from stance to landing, along w, in upper-arm lengths;
 * positive = away from the plate. Ws is read for the checkpoint's own rule (the shoulders coiled) only.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "back-elbow-draw",
  version: 1,
  reads: {
    plantShoulder: ["sh_b", "plant"], plantElbow: ["el_b", "plant"],
    stanceShoulder: ["sh_b", "stance"], stanceElbow: ["el_b", "stance"],
  },
  lengths: ["Ua"],
  cameraSdPerDeg: 0.0056,
  value: (p, { length }) => (p.plantShoulder.h - p.plantElbow.h - (p.stanceShoulder.h - p.stanceElbow.h)) / length.Ua,
});
