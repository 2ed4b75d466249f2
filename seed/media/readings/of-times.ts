import { none, reads, type TruthOf } from "./true-reading";

/** Made of event times alone. */
export const TIME_READINGS = {
  "plant-to-contact-time": ({ events, releaseSeconds }) =>
    releaseSeconds === null ? none("off a tee there is no pitch to be on time for") : reads(-events.plant),
  "launch-to-contact-time": ({ events }) => reads(-events.launch),
  "plant-in-ball-flight": ({ events, releaseSeconds }) =>
    releaseSeconds === null ? none("off a tee there is no flight") : reads((events.plant - releaseSeconds) / -releaseSeconds),
  "load-before-release": ({ events, releaseSeconds }) =>
    releaseSeconds === null ? none("off a tee there is no release") : reads(releaseSeconds - events.load),
} as const satisfies Record<string, TruthOf>;
