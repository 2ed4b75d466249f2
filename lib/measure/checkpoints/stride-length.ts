import { defineFormula } from "@/lib/measure/formula";

/**
 * How far apart the ankles land along u, as a fraction of standing height; unsigned.
 * Camera: the feet stand a tenth of a height apart in depth (judgement); what the cosine takes off is smaller.
 */
export default defineFormula({
  id: "stride-length",
  version: 1,
  reads: { front: ["an_f", "plant"], back: ["an_b", "plant"] },
  lengths: ["H"],
  cameraSdPerDeg: 0.1 * (Math.PI / 180),
  value: ({ front, back }, { length }) => Math.abs(front.h - back.h) / length.H,
});
