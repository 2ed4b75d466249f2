import { defineFormula } from "@/lib/measure/formula";

/** Seconds from the end of the load to the pitch's release; positive = loaded before it. Event times: no camera part. */
export default defineFormula({
  id: "load-before-release",
  version: 1,
  reads: {},
  events: ["release", "load"],
  cameraSdPerDeg: 0,
  value: (_, { seconds }) => seconds.release - seconds.load,
});
