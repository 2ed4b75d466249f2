import type { Hitter, Pose } from "./skeleton";
import { along, type Vec3 } from "./vec";

/** The points of the starter library's conventions, in their order there. */
export const POINT_IDS = [
  "nose", "ear_f", "ear_b", "sh_f", "sh_b", "el_f", "el_b", "wr_f", "wr_b", "hip_f", "hip_b",
  "kn_f", "kn_b", "an_f", "an_b", "heel_f", "heel_b", "toe_f", "toe_b", "knob", "tip", "helmet",
] as const;

export type PointId = (typeof POINT_IDS)[number];

/** All points of a pose in swing coordinates, metres. */
export function pointsOf(hitter: Hitter, pose: Pose): Record<PointId, Vec3> {
  const { head } = pose;
  const r = hitter.size.headRadius;
  return {
    nose: along(along(head.centre, head.ahead, r * 0.98), head.up, -r * 0.3),
    ear_f: along(along(head.centre, head.across, r * 0.86), head.up, -r * 0.22),
    ear_b: along(along(head.centre, head.across, -r * 0.86), head.up, -r * 0.22),
    sh_f: pose.frontArm.root,
    sh_b: pose.backArm.root,
    el_f: pose.frontArm.joint,
    el_b: pose.backArm.joint,
    wr_f: pose.frontArm.end,
    wr_b: pose.backArm.end,
    hip_f: pose.frontLeg.root,
    hip_b: pose.backLeg.root,
    kn_f: pose.frontLeg.joint,
    kn_b: pose.backLeg.joint,
    an_f: pose.frontLeg.end,
    an_b: pose.backLeg.end,
    heel_f: pose.frontFoot.heel,
    heel_b: pose.backFoot.heel,
    toe_f: pose.frontFoot.toe,
    toe_b: pose.backFoot.toe,
    knob: pose.bat.knob,
    tip: pose.bat.tip,
    helmet: head.centre,
  };
}
