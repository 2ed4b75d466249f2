import type { Camera } from "./camera";
import type { PointId } from "./points";
import type { Hitter, Pose } from "./skeleton";
import { along, dot, length, mix, sub, unit, type Vec3 } from "./vec";

/** A thick line of the body that can hide points, and the points that sit in it. */
interface Cover {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
  readonly own: readonly PointId[];
}

/** Least distance between two segments. */
function gapBetween(a0: Vec3, a1: Vec3, b0: Vec3, b1: Vec3): number {
  const [u, v, w] = [sub(a1, a0), sub(b1, b0), sub(a0, b0)];
  const [a, b, c, d, e] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const flat = a * c - b * b;
  const clamp = (k: number): number => Math.max(0, Math.min(1, k));
  let s = flat < 1e-12 ? 0 : clamp((b * e - c * d) / flat);
  const t = clamp((b * s + e) / Math.max(c, 1e-12));
  s = clamp((b * t - d) / Math.max(a, 1e-12));
  return length(sub(along(a0, u, s), along(b0, v, t)));
}

function coversOf(hitter: Hitter, pose: Pose): Cover[] {
  const g = hitter.size.girth;
  const r = hitter.size.headRadius;
  const chest = pose.chest.centre;
  const trunk: PointId[] = ["sh_f", "sh_b", "hip_f", "hip_b"];
  const limb = (pose_: Pose["frontLeg"], thick: number, thin: number, root: PointId, joint: PointId, end: PointId, more: PointId[]): Cover[] => [
    { from: pose_.root, to: pose_.joint, radius: thick * g, own: [root, joint] },
    { from: pose_.joint, to: pose_.end, radius: thin * g, own: [joint, end, ...more] },
  ];
  const half = pose.chest.across;
  const belly = mix(pose.pelvis.centre, chest, 0.1);
  return [
    { from: along(belly, half, 0.05 * g), to: along(mix(belly, chest, 0.85), half, 0.08 * g), radius: 0.11 * g, own: trunk },
    { from: along(belly, half, -0.05 * g), to: along(mix(belly, chest, 0.85), half, -0.08 * g), radius: 0.11 * g, own: trunk },
    { from: along(pose.head.centre, pose.head.up, -0.3 * r), to: along(pose.head.centre, pose.head.up, 0.2 * r), radius: 0.9 * r, own: ["helmet", "nose"] },
    ...limb(pose.frontLeg, 0.078, 0.052, "hip_f", "kn_f", "an_f", ["heel_f", "toe_f"]),
    ...limb(pose.backLeg, 0.078, 0.052, "hip_b", "kn_b", "an_b", ["heel_b", "toe_b"]),
    ...limb(pose.frontArm, 0.055, 0.036, "sh_f", "el_f", "wr_f", ["knob"]),
    ...limb(pose.backArm, 0.055, 0.036, "sh_b", "el_b", "wr_b", []),
    { from: pose.frontFoot.heel, to: pose.frontFoot.toe, radius: 0.04 * g, own: ["heel_f", "toe_f", "an_f"] },
    { from: pose.backFoot.heel, to: pose.backFoot.toe, radius: 0.04 * g, own: ["heel_b", "toe_b", "an_b"] },
    { from: pose.frontHand, to: pose.backHand, radius: 0.042 * g, own: ["wr_f", "wr_b", "knob"] },
  ];
}

/**
 * Which points of a pose can be seen: no other part of the body lies between them and the camera. A joint is seen when the limb it
 * sits in is; an ear also needs its side of the head turned to the camera.
 */
export function seenPoints(hitter: Hitter, pose: Pose, camera: Camera, points: Readonly<Record<PointId, Vec3>>): ReadonlySet<PointId> {
  const covers = coversOf(hitter, pose);
  const isSeen = (id: PointId): boolean => {
    const point = points[id];
    const toCamera = unit(sub(camera.position, point));
    const isEar = id === "ear_f" || id === "ear_b";
    if (isEar && dot(pose.head.across, toCamera) * (id === "ear_f" ? 1 : -1) < 0) return false;
    if (id === "nose" && dot(pose.head.ahead, toCamera) < -0.25) return false;
    const start = along(point, toCamera, 0.01);
    return covers.every((cover) => {
      if (cover.own.includes(id) || (isEar && cover.own.includes("helmet"))) return true;
      return gapBetween(start, camera.position, cover.from, cover.to) > cover.radius * 0.85;
    });
  };
  return new Set((Object.keys(points) as PointId[]).filter(isSeen));
}
