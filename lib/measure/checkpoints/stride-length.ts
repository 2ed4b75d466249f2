import { defineFormula } from "@/lib/measure/formula";

/**
 * How far apart the ankles land along u, as a fraction of standing height; unsigned.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "stride-length",
  version: 1,
  reads: { front: ["an_f", "plant"], back: ["an_b", "plant"] },
  lengths: ["H"],
  cameraSdPerDeg: 0.00059,
  value: ({ front, back }, { length }) => Math.abs(front.h - back.h) / length.H,
});
