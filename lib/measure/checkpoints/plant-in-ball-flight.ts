import { defineFormula, expression } from "@/lib/measure/formula";

/** When the front heel lands in the ball's flight, as a share of it: 0 = at release, 1 = at contact. No camera part. */
export default defineFormula({
  id: "plant-in-ball-flight",
  version: 1,
  reads: {},
  events: ["release", "plant", "contact"],
  cameraSdPerDeg: 0,
  value: (_, { seconds }) => (seconds.contact === seconds.release ? NaN : (seconds.plant - seconds.release) / (seconds.contact - seconds.release)),
  named: {
    /** Seconds from release to contact. */
    flight: expression({ reads: {}, events: ["release", "contact"], value: (_, { seconds }) => seconds.contact - seconds.release }),
  },
});
