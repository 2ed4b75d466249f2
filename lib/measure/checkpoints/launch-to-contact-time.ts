import { defineFormula } from "@/lib/measure/formula";

/** Seconds from launch to contact, captured time. Made of event times: no camera part. */
export default defineFormula({
  id: "launch-to-contact-time",
  version: 1,
  reads: {},
  events: ["launch", "contact"],
  cameraSdPerDeg: 0,
  value: (_, { seconds }) => seconds.contact - seconds.launch,
});
