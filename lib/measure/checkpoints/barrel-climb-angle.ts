import { atan2Deg } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";
import { slopeOfParabola } from "@/lib/measure/windows/parabola";

/**
 * How steeply the sweet spot of the bat rises at contact, degrees above the line to the pitcher: direction of the parabolas of least
 * squares through its last four frames up to contact.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "barrel-climb-angle",
  version: 1,
  reads: {},
  window: { from: ({ contact }, period) => contact - 4 * period, to: ({ contact }) => contact, frames: 4, tracks: { sweetSpot: "S" } },
  events: ["contact"],
  cameraSdPerDeg: 0.086,
  value: (_, { seconds }, { seconds: times, first, last, at }) => {
    const slope = (values: Float64Array) => slopeOfParabola(times, values, first, last, seconds.contact);
    return atan2Deg(slope(at.sweetSpot.v), slope(at.sweetSpot.h));
  },
});
