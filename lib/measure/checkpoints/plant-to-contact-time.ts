import { defineFormula } from "@/lib/measure/formula";

/** Seconds from heel plant to contact, captured time. Made of event times: no camera part. */
export default defineFormula({
  id: "plant-to-contact-time",
  version: 1,
  reads: {},
  events: ["plant", "contact"],
  cameraSdPerDeg: 0,
  value: (_, { seconds }) => seconds.contact - seconds.plant,
});
