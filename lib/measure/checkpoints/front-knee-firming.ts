import { angleDeg } from "@/lib/measure/angles";
import { defineFormula, expression } from "@/lib/measure/formula";

const atPlant = { hip: ["hip_f", "plant"], knee: ["kn_f", "plant"], ankle: ["an_f", "plant"] } as const;
const atContact = { hip: ["hip_f", "contact"], knee: ["kn_f", "contact"], ankle: ["an_f", "contact"] } as const;

/**
 * How much the front knee straightens from landing to contact, degrees; positive = extending.
 * Camera: a knee turned out of the picture reads straighter (geometry, T6.7); how much is measured on drawn hitters
 * (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "front-knee-firming",
  version: 1,
  reads: {
    plantHip: atPlant.hip, plantKnee: atPlant.knee, plantAnkle: atPlant.ankle,
    contactHip: atContact.hip, contactKnee: atContact.knee, contactAnkle: atContact.ankle,
  },
  cameraSdPerDeg: 0.19,
  value: (p) => angleDeg(p.contactHip, p.contactKnee, p.contactAnkle) - angleDeg(p.plantHip, p.plantKnee, p.plantAnkle),
  named: {
    "knee-at-plant": expression({ reads: atPlant, value: ({ hip, knee, ankle }) => angleDeg(hip, knee, ankle) }),
    "knee-at-contact": expression({ reads: atContact, value: ({ hip, knee, ankle }) => angleDeg(hip, knee, ankle) }),
  },
});
