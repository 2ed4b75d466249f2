import type { Formula } from "@/lib/measure/formula";
import backFootRelease from "@/lib/measure/checkpoints/back-foot-release";
import barrelCatchUp from "@/lib/measure/checkpoints/barrel-catch-up";
import contactDepth from "@/lib/measure/checkpoints/contact-depth";
import frontKneeFirming from "@/lib/measure/checkpoints/front-knee-firming";
import frontSideStack from "@/lib/measure/checkpoints/front-side-stack";
import handsBackAtPlant from "@/lib/measure/checkpoints/hands-back-at-plant";
import hipTravel from "@/lib/measure/checkpoints/hip-travel";
import launchToContactTime from "@/lib/measure/checkpoints/launch-to-contact-time";
import leadArmBendAtPlant from "@/lib/measure/checkpoints/lead-arm-bend-at-plant";
import loadHipShift from "@/lib/measure/checkpoints/load-hip-shift";
import plantToContactTime from "@/lib/measure/checkpoints/plant-to-contact-time";
import shoulderBehindKnee from "@/lib/measure/checkpoints/shoulder-behind-knee";
import topHandHold from "@/lib/measure/checkpoints/top-hand-hold";
import trunkLeanAtContact from "@/lib/measure/checkpoints/trunk-lean-at-contact";
import trunkShortening from "@/lib/measure/checkpoints/trunk-shortening";

const FORMULAS: readonly Formula[] = [
  loadHipShift, hipTravel, backFootRelease, frontKneeFirming, shoulderBehindKnee, frontSideStack, topHandHold,
  handsBackAtPlant, leadArmBendAtPlant, trunkLeanAtContact, trunkShortening, contactDepth, barrelCatchUp,
  plantToContactTime, launchToContactTime,
];

const BY_KEY = new Map(FORMULAS.map((formula) => [`${formula.id}@${formula.version}`, formula]));

/** The code of a formula, or null when this program has none for that id and version. */
export function findFormula(id: string, version: number): Formula | null {
  return BY_KEY.get(`${id}@${version}`) ?? null;
}

/** Whether a checkpoint with this formula can be read. */
export function isKnownFormula(id: string, version: number): boolean {
  return BY_KEY.has(`${id}@${version}`);
}

/** Ids and versions of all formulas, in the order of the swing. */
export function listFormulas(): readonly { readonly id: string; readonly version: number }[] {
  return FORMULAS.map(({ id, version }) => ({ id, version }));
}
