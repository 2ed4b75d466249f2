import { distance } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";

/**
 * Length of the trunk in the picture at contact over its length at landing; below 1 = it tips toward or away from this
 * camera. Camera: it changes both alike; a fifth of a trunk of depth against the other (judgement).
 */
export default defineFormula({
  id: "trunk-shortening",
  version: 1,
  reads: {
    contactHips: ["midhip", "contact"], contactChest: ["midsh", "contact"],
    plantHips: ["midhip", "plant"], plantChest: ["midsh", "plant"],
  },
  comparesFrames: true,
  cameraSdPerDeg: 0.05 * (Math.PI / 180),
  value: (p) => {
    const atPlant = distance(p.plantChest, p.plantHips);
    const atContact = distance(p.contactChest, p.contactHips);
    return atPlant > 0 && atContact > 0 ? atContact / atPlant : NaN;
  },
});
