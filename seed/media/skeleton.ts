import { bodySize, type BodySize } from "./body";
import { armCurves, type ArmCurves } from "./keys-arms";
import { BACK_ANKLE, legCurves, type LegCurves } from "./keys-legs";
import { trunkCurves, type TrunkCurves } from "./keys-trunk";
import type { SwingSpec } from "./spec";
import { amountOf, keyTimes, type KeyTimes } from "./timing";
import { across, add, along, cross, distance, dot, facing, heading, middle, scale, sub, unit, type Vec3 } from "./vec";

/** A foot on or over the ground: the ends of its sole line, its ankle, where it points. */
export interface FootPose {
  readonly heel: Vec3;
  readonly toe: Vec3;
  readonly ankle: Vec3;
  readonly forward: Vec3;
  readonly up: Vec3;
}

/** One limb of two bones: its ends and the joint between. */
export interface LimbPose {
  readonly root: Vec3;
  readonly joint: Vec3;
  readonly end: Vec3;
  /** Distance asked for over the length of both bones: below 1 the ends are reached. */
  readonly stretch: number;
}

/** The hitter at one moment, in swing coordinates (metres). Front = nearer the pitcher at set-up. */
export interface Pose {
  readonly pelvis: { readonly centre: Vec3; readonly across: Vec3; readonly up: Vec3; readonly ahead: Vec3 };
  readonly chest: { readonly centre: Vec3; readonly across: Vec3; readonly up: Vec3; readonly ahead: Vec3 };
  readonly head: { readonly centre: Vec3; readonly ahead: Vec3; readonly up: Vec3; readonly across: Vec3 };
  readonly frontLeg: LimbPose;
  readonly backLeg: LimbPose;
  readonly frontArm: LimbPose;
  readonly backArm: LimbPose;
  readonly frontFoot: FootPose;
  readonly backFoot: FootPose;
  readonly frontHand: Vec3;
  readonly backHand: Vec3;
  readonly bat: { readonly knob: Vec3; readonly tip: Vec3; readonly along: Vec3 };
}

/** A hitter in motion: sizes, key times and the pose at any time in seconds from contact. */
export interface Hitter {
  readonly size: BodySize;
  readonly times: KeyTimes;
  readonly poseAt: (timeSeconds: number) => Pose;
}

/** Two bones from `root` toward `target`, the joint on the side of `pole`; a target out of reach is met straight. */
export function reach(root: Vec3, target: Vec3, first: number, second: number, pole: Vec3): LimbPose {
  const wanted = distance(root, target);
  const span = Math.min(wanted, (first + second) * 0.9995);
  const axis = unit(sub(target, root));
  const lengthwise = (first * first - second * second + span * span) / (2 * span);
  const sideways = Math.sqrt(Math.max(0, first * first - lengthwise * lengthwise));
  const joint = along(along(root, axis, lengthwise), unit(across(pole, axis), unit(across([0.3, 1, 0.2], axis))), sideways);
  return { root, joint, end: along(root, axis, span), stretch: wanted / (first + second) };
}

function footPose(size: BodySize, toe: Vec3, yawDeg: number, pitchDeg: number): FootPose {
  const pitch = (pitchDeg * Math.PI) / 180;
  const flat = facing(yawDeg);
  const forward: Vec3 = [flat[0] * Math.cos(pitch), -Math.sin(pitch), flat[2] * Math.cos(pitch)];
  const up: Vec3 = [flat[0] * Math.sin(pitch), Math.cos(pitch), flat[2] * Math.sin(pitch)];
  const sole = size.ankleHeight * 0.28;
  const heel = along(toe, forward, -(size.footBack + size.footAhead));
  const ankle = along(along(toe, forward, -size.footAhead), up, size.ankleHeight - sole);
  return { heel, toe, ankle, forward, up };
}

function chestOf(hips: Vec3, size: BodySize, curves: TrunkCurves, t: number): Pose["chest"] {
  const lean = Math.tan((curves.lean(t) * Math.PI) / 180);
  const bend = Math.tan((curves.bend(t) * Math.PI) / 180);
  const up = unit([-lean, 1, bend]);
  const yaw = curves.shoulderYaw(t);
  const level = unit(across(facing(yaw + 90), up));
  const ahead0 = unit(cross(level, up));
  const tilt = (curves.shoulderTilt(t) * Math.PI) / 180;
  const sideways = add(scale(level, Math.cos(tilt)), scale(up, Math.sin(tilt)));
  return { centre: along(hips, up, size.trunk), across: sideways, up: unit(cross(ahead0, sideways)), ahead: ahead0 };
}

/** The hips, let down as far as both legs need to reach their feet (a smooth minimum, so that nothing jerks). */
function loweredToReach(hips: Vec3, leg: number, legs: readonly { readonly root: Vec3; readonly ankle: Vec3 }[]): Vec3 {
  const longest = 0.992 * leg;
  const limits = legs.map(({ root, ankle }) => {
    const flat = Math.hypot(ankle[0] - root[0], ankle[2] - root[2]);
    return ankle[1] + Math.sqrt(Math.max(0, longest * longest - flat * flat));
  });
  const softness = 0.008 * leg;
  const sum = [hips[1], ...limits].reduce((total, y) => total + Math.exp((hips[1] - y) / softness), 0);
  return [hips[0], hips[1] - softness * Math.log(sum), hips[2]];
}

function poseOf(size: BodySize, legs: LegCurves, trunk: TrunkCurves, arms: ArmCurves, t: number): Pose {
  const leg = size.thigh + size.shin;
  const arm = size.upperArm + size.forearm;
  const hipAcross = facing(legs.hipYaw(t) + 90);
  const hipAhead = facing(legs.hipYaw(t));
  const sole = size.ankleHeight * 0.28;

  const frontYaw = legs.frontYaw(t);
  const frontPlan: Vec3 = [legs.frontX(t) * leg, sole + legs.frontLift(t) * leg, 0];
  const frontFoot = footPose(size, along(frontPlan, facing(frontYaw), size.footAhead), frontYaw, legs.frontPitch(t));
  const backToe: Vec3 = [(BACK_ANKLE + legs.backSlide(t)) * leg, sole, size.footAhead];
  const backFoot = footPose(size, backToe, legs.backYaw(t), legs.backPitch(t));
  const wanted: Vec3 = [legs.hipX(t) * leg, size.ankleHeight + legs.hipY(t) * leg, legs.hipZ(t) * leg];
  const hips = loweredToReach(wanted, leg, [
    { root: along(wanted, hipAcross, size.hipHalf), ankle: frontFoot.ankle },
    { root: along(wanted, hipAcross, -size.hipHalf), ankle: backFoot.ankle },
  ]);
  const chest = chestOf(hips, size, trunk, t);
  const kneePole = (yaw: number): Vec3 => facing(yaw);
  const frontLeg = reach(along(hips, hipAcross, size.hipHalf), frontFoot.ankle, size.thigh, size.shin, kneePole(legs.frontKneeYaw(t)));
  const backLeg = reach(along(hips, hipAcross, -size.hipHalf), backFoot.ankle, size.thigh, size.shin, kneePole(legs.backKneeYaw(t)));

  const inChest = (a: number, b: number, c: number): Vec3 =>
    add(add(scale(chest.across, a), scale(chest.up, b)), scale(chest.ahead, c));
  const hands = add(chest.centre, scale(inChest(arms.handsAcross(t), arms.handsUp(t), arms.handsAhead(t)), arm));
  const batAlong = heading(arms.batYaw(t), arms.batHeight(t));
  const grip = size.girth * 0.042;
  const shoulders = {
    front: along(chest.centre, chest.across, size.shoulderHalf),
    back: along(chest.centre, chest.across, -size.shoulderHalf),
  };
  const armTo = (shoulder: Vec3, hand: Vec3, pole: Vec3): LimbPose => {
    // Mostly across the handle; along the arm where the bat points the way the arm does.
    const home = unit(sub(shoulder, hand));
    const wrist = along(hand, unit(along(home, batAlong, -0.6 * dot(home, batAlong))), size.girth * 0.068);
    return reach(shoulder, wrist, size.upperArm, size.forearm, pole);
  };
  const polesAt = (curves: ArmCurves["frontElbow"]): Vec3 => inChest(curves[0](t), curves[1](t), curves[2](t));
  const held = (centre: Vec3): { front: LimbPose; back: LimbPose; frontHand: Vec3; backHand: Vec3 } => {
    const frontHand = along(centre, batAlong, -grip);
    const backHand = along(centre, batAlong, grip);
    return {
      front: armTo(shoulders.front, frontHand, polesAt(arms.frontElbow)),
      back: armTo(shoulders.back, backHand, polesAt(arms.backElbow)),
      frontHand,
      backHand,
    };
  };
  let centre = hands;
  let grasp = held(centre);
  for (let turn = 0; turn < 8; turn++) {
    const far = grasp.front.stretch > grasp.back.stretch ? shoulders.front : shoulders.back;
    const excess = Math.max(grasp.front.stretch, grasp.back.stretch) - 0.9975;
    if (excess <= 0) break;
    centre = along(centre, unit(sub(far, centre)), excess * arm);
    grasp = held(centre);
  }
  const knob = along(centre, batAlong, -grip * 2.35);
  const headUp = unit(add(chest.up, [0, 1.4, 0]));
  const look = heading(trunk.headYaw(t), -trunk.headDown(t));
  const skullUp = unit(across([0, 1, 0], look));
  const neckTop = along(chest.centre, headUp, size.neck);
  return {
    pelvis: { centre: hips, across: hipAcross, up: [0, 1, 0], ahead: hipAhead },
    chest,
    head: { centre: along(neckTop, look, size.headRadius * 0.16), ahead: look, up: skullUp, across: unit(cross(skullUp, look)) },
    frontLeg,
    backLeg,
    frontArm: grasp.front,
    backArm: grasp.back,
    frontFoot,
    backFoot,
    frontHand: grasp.frontHand,
    backHand: grasp.backHand,
    bat: { knob, tip: along(knob, batAlong, size.bat), along: batAlong },
  };
}

/** The hitter of a spec, ready to be asked for its pose at any time. */
export function hitterOf(spec: Pick<SwingSpec, "body" | "seed" | "faults">): Hitter {
  const size = bodySize(spec);
  const times = keyTimes(spec);
  const fault = (id: Parameters<typeof amountOf>[1]) => amountOf(spec, id);
  const legs = legCurves(times, fault);
  const trunk = trunkCurves(times, fault);
  const arms = armCurves(times, fault, spec.body);
  return { size, times, poseAt: (t) => poseOf(size, legs, trunk, arms, t) };
}

/** The middle of the hands (as wrists) of a pose. */
export const handsOf = (pose: Pose): Vec3 => middle(pose.frontArm.end, pose.backArm.end);
