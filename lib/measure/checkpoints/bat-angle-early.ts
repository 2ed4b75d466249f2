import { defineFormula, expression } from "@/lib/measure/formula";

/**
 * Angle of the bat a quarter of the way from launch to contact, degrees above level, from its height over its full
 * length; positive = barrel above the hands.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "bat-angle-early",
  version: 1,
  reads: { tip: ["tip", { launch: 0.75, contact: 0.25 }], knob: ["knob", { launch: 0.75, contact: 0.25 }] },
  lengths: ["Lb"],
  cameraSdPerDeg: 0.023,
  value: ({ tip, knob }, { length }) => (Math.asin(Math.max(-1, Math.min(1, (tip.v - knob.v) / length.Lb))) * 180) / Math.PI,
  named: {
    /** Moment of the bat's weight about the hands; no record holds a bat's mass and balance point yet. */
    "gravity-moment": {
      ...expression({ reads: {}, value: () => NaN }),
      lacks: "the bat's mass and balance point are not known",
    },
  },
});
