import { distance } from "@/lib/measure/angles";
import { defineFormula } from "@/lib/measure/formula";

/**
 * How far the top hand has left the back shoulder from load to launch, in torso lengths; positive = moved away.
 * Camera: hand and shoulder a third of a torso apart in depth (judgement).
 */
export default defineFormula({
  id: "top-hand-hold",
  version: 1,
  reads: {
    launchHand: ["wr_b", "launch"], launchShoulder: ["sh_b", "launch"],
    loadHand: ["wr_b", "load"], loadShoulder: ["sh_b", "load"],
  },
  lengths: ["T"],
  cameraSdPerDeg: 0.33 * (Math.PI / 180),
  value: (p, { length }) => (distance(p.launchHand, p.launchShoulder) - distance(p.loadHand, p.loadShoulder)) / length.T,
});
