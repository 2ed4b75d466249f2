import type { Formula } from "@/lib/measure/formula";
import armsExtension from "@/lib/measure/checkpoints/arms-extension";
import backElbowDraw from "@/lib/measure/checkpoints/back-elbow-draw";
import backElbowLead from "@/lib/measure/checkpoints/back-elbow-lead";
import backElbowRise from "@/lib/measure/checkpoints/back-elbow-rise";
import backFootLightLead from "@/lib/measure/checkpoints/back-foot-light-lead";
import backFootRelease from "@/lib/measure/checkpoints/back-foot-release";
import backFootSpinLead from "@/lib/measure/checkpoints/back-foot-spin-lead";
import backKneeInside from "@/lib/measure/checkpoints/back-knee-inside";
import barrelBelowHands from "@/lib/measure/checkpoints/barrel-below-hands";
import barrelCatchUp from "@/lib/measure/checkpoints/barrel-catch-up";
import barrelClimbAngle from "@/lib/measure/checkpoints/barrel-climb-angle";
import barrelPathLength from "@/lib/measure/checkpoints/barrel-path-length";
import batAngleEarly from "@/lib/measure/checkpoints/bat-angle-early";
import chestOpenAtPlant from "@/lib/measure/checkpoints/chest-open-at-plant";
import chestOpenLead from "@/lib/measure/checkpoints/chest-open-lead";
import contactDepth from "@/lib/measure/checkpoints/contact-depth";
import faceToContact from "@/lib/measure/checkpoints/face-to-contact";
import finishBalance from "@/lib/measure/checkpoints/finish-balance";
import frontFootAngle from "@/lib/measure/checkpoints/front-foot-angle";
import frontKneeBehindFoot from "@/lib/measure/checkpoints/front-knee-behind-foot";
import frontKneeFirming from "@/lib/measure/checkpoints/front-knee-firming";
import frontSideStack from "@/lib/measure/checkpoints/front-side-stack";
import handPathDirectness from "@/lib/measure/checkpoints/hand-path-directness";
import handsBackAtPlant from "@/lib/measure/checkpoints/hands-back-at-plant";
import handsCastWidth from "@/lib/measure/checkpoints/hands-cast-width";
import headTravel from "@/lib/measure/checkpoints/head-travel";
import hipShoulderSeparation from "@/lib/measure/checkpoints/hip-shoulder-separation";
import hipTravel from "@/lib/measure/checkpoints/hip-travel";
import launchToContactTime from "@/lib/measure/checkpoints/launch-to-contact-time";
import leadArmBendAtPlant from "@/lib/measure/checkpoints/lead-arm-bend-at-plant";
import loadBeforeRelease from "@/lib/measure/checkpoints/load-before-release";
import loadHipShift from "@/lib/measure/checkpoints/load-hip-shift";
import pelvisOpenAtContact from "@/lib/measure/checkpoints/pelvis-open-at-contact";
import pelvisOpenAtPlant from "@/lib/measure/checkpoints/pelvis-open-at-plant";
import plantInBallFlight from "@/lib/measure/checkpoints/plant-in-ball-flight";
import plantToContactTime from "@/lib/measure/checkpoints/plant-to-contact-time";
import shiftInBallFlight from "@/lib/measure/checkpoints/shift-in-ball-flight";
import shoulderBehindKnee from "@/lib/measure/checkpoints/shoulder-behind-knee";
import strideDirection from "@/lib/measure/checkpoints/stride-direction";
import strideLength from "@/lib/measure/checkpoints/stride-length";
import topHandHold from "@/lib/measure/checkpoints/top-hand-hold";
import trunkFoldChange from "@/lib/measure/checkpoints/trunk-fold-change";
import trunkLeanAtContact from "@/lib/measure/checkpoints/trunk-lean-at-contact";
import trunkShortening from "@/lib/measure/checkpoints/trunk-shortening";
import wristRollTime from "@/lib/measure/checkpoints/wrist-roll-time";

const FORMULAS: readonly Formula[] = [
  loadHipShift, backKneeInside, backElbowRise, backElbowDraw, strideLength, strideDirection, frontFootAngle,
  handsBackAtPlant, leadArmBendAtPlant, chestOpenAtPlant, pelvisOpenAtPlant, hipShoulderSeparation,
  plantToContactTime, launchToContactTime, backFootSpinLead, backFootRelease, frontKneeFirming, frontSideStack,
  trunkFoldChange, trunkLeanAtContact, backElbowLead, barrelCatchUp, handPathDirectness, handsCastWidth,
  barrelClimbAngle, barrelBelowHands, headTravel, faceToContact, wristRollTime, armsExtension, finishBalance,
  contactDepth, plantInBallFlight, frontKneeBehindFoot, shoulderBehindKnee, hipTravel, backFootLightLead,
  trunkShortening, chestOpenLead, loadBeforeRelease, shiftInBallFlight, pelvisOpenAtContact, batAngleEarly,
  topHandHold, barrelPathLength,
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

/** Ids and versions of all formulas, in the order of the library. */
export function listFormulas(): readonly { readonly id: string; readonly version: number }[] {
  return FORMULAS.map(({ id, version }) => ({ id, version }));
}
