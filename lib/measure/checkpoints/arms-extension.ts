import { angleAt } from "@/lib/measure/windows/angle-at";
import { defineFormula } from "@/lib/measure/formula";
import { largestIn } from "@/lib/measure/windows/extremes";

/**
 * How long both arms get within 0.10 s after contact: the largest of the smaller elbow angle, degrees; 180 = straight.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "arms-extension",
  version: 1,
  reads: {},
  window: {
    from: ({ contact }) => contact,
    to: ({ contact }) => contact + 0.1,
    tracks: { frontShoulder: "sh_f", frontElbow: "el_f", frontWrist: "wr_f", backShoulder: "sh_b", backElbow: "el_b", backWrist: "wr_b" },
  },
  events: ["contact"],
  foldsAt: [0, 180],
  cameraSdPerDeg: 0.26,
  value: (_, __, window) => {
    const { frontShoulder, frontElbow, frontWrist, backShoulder, backElbow, backWrist } = window.at;
    return largestIn(window, (i) => Math.min(angleAt(frontShoulder, frontElbow, frontWrist, i), angleAt(backShoulder, backElbow, backWrist, i)));
  },
});
