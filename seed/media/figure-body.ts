import { MATERIAL as M } from "./look";
import { ringsAlong, type Mesh, type Ring, type Station } from "./mesh";
import type { Hitter, LimbPose, FootPose, Pose } from "./skeleton";
import { across, add, along, cross, mix, scale, sub, unit, type Vec3 } from "./vec";

/** Rings of the trunk: share of the way hips to shoulders, half width, half depth, shift ahead (adult metres), material above. */
const TRUNK: readonly (readonly [number, number, number, number, number])[] = [
  [-0.2, 0.04, 0.05, -0.01, M.trousers],
  [-0.16, 0.1, 0.088, -0.014, M.trousers],
  [-0.08, 0.146, 0.114, -0.018, M.trousers],
  [0.04, 0.162, 0.124, -0.018, M.trousers],
  [0.15, 0.158, 0.116, -0.008, M.belt],
  [0.205, 0.156, 0.113, -0.004, M.shirt],
  [0.212, 0.164, 0.12, -0.002, M.shirt],
  [0.28, 0.166, 0.124, 0, M.shirt],
  [0.42, 0.16, 0.115, 0.002, M.shirt],
  [0.58, 0.168, 0.118, 0.004, M.shirt],
  [0.74, 0.182, 0.124, 0.004, M.shirt],
  [0.86, 0.19, 0.12, 0.0, M.shirt],
  [0.96, 0.182, 0.106, -0.006, M.shirt],
  [1.03, 0.152, 0.09, -0.01, M.shirt],
  [1.08, 0.108, 0.076, -0.012, M.shirt],
  [1.115, 0.07, 0.066, -0.008, M.trim],
  [1.135, 0.063, 0.06, -0.006, M.skin],
];

function trunkRings(hitter: Hitter, pose: Pose): Ring[] {
  const { size } = hitter;
  const g = size.girth;
  return TRUNK.map(([share, width, depth, shift]) => {
    const turn = Math.min(1, Math.max(0, (share - 0.1) / 0.75));
    const eased = turn * turn * (3 - 2 * turn);
    const sideways = unit(mix(pose.pelvis.across, pose.chest.across, eased));
    const up = unit(mix(pose.pelvis.up, pose.chest.up, Math.min(1, Math.max(0.1, share + 0.2))));
    const u = unit(across(sideways, up));
    const v = cross(u, up);
    const straight = mix(pose.pelvis.centre, pose.chest.centre, share);
    const below = share < 0 ? along(pose.pelvis.centre, pose.pelvis.up, share * size.trunk) : straight;
    const bow = Math.max(0, share * (1 - share)) * 0.09 * size.trunk;
    const centre = along(below, v, shift * g - bow);
    return { centre, u: scale(u, width * g), v: scale(v, depth * g), square: 2.35 };
  });
}

/** Stations of a limb, a few around its joint so that the bend is round. */
function stationsOf(limb: LimbPose, profile: readonly (readonly [bone: 0 | 1, share: number, radius: number])[], g: number): Station[] {
  return profile.map(([bone, share, radius]) => {
    const at = bone === 0 ? mix(limb.root, limb.joint, share) : mix(limb.joint, limb.end, share);
    return { at, radius: radius * g };
  });
}

const LEG = [
  [0, -0.02, 0.092], [0, 0.12, 0.098], [0, 0.3, 0.094], [0, 0.55, 0.083], [0, 0.8, 0.07], [0, 0.92, 0.066], [1, 0, 0.066], [1, 0.09, 0.065],
  [1, 0.22, 0.067], [1, 0.4, 0.066], [1, 0.62, 0.056], [1, 0.78, 0.052], [1, 0.79, 0.045], [1, 0.9, 0.04], [1, 1.02, 0.039],
] as const;
const SLEEVE = [[0, -0.02, 0.07], [0, 0.12, 0.078], [0, 0.3, 0.074], [0, 0.5, 0.069], [0, 0.58, 0.068], [0, 0.63, 0.067], [0, 0.63, 0.05]] as const;
const ARM = [
  [0, 0.3, 0.05], [0, 0.6, 0.05], [0, 0.85, 0.044], [0, 0.95, 0.043], [1, 0, 0.043], [1, 0.06, 0.043], [1, 0.25, 0.045], [1, 0.5, 0.04], [1, 0.8, 0.031],
  [1, 1, 0.029],
] as const;

function shoe(mesh: Mesh, foot: FootPose, g: number): void {
  const sideways = cross(foot.up, foot.forward);
  const long = Math.hypot(...sub(foot.toe, foot.heel));
  const base = foot.heel;
  const ring = (share: number, half: number, low: number, high: number): Ring => ({
    centre: along(along(base, foot.forward, share * long), foot.up, ((low + high) / 2) * g),
    u: scale(sideways, half * g),
    v: scale(foot.up, ((high - low) / 2) * g),
    square: 2.6,
  });
  mesh.begin();
  mesh.tube(
    [
      ring(-0.05, 0.006, 0, 0.03), ring(-0.035, 0.028, -0.012, 0.06), ring(0.03, 0.037, -0.016, 0.078), ring(0.2, 0.041, -0.016, 0.094),
      ring(0.34, 0.043, -0.016, 0.088), ring(0.5, 0.045, -0.016, 0.068), ring(0.7, 0.05, -0.016, 0.05), ring(0.88, 0.048, -0.015, 0.038),
      ring(0.98, 0.038, -0.012, 0.028), ring(1.03, 0.022, -0.008, 0.016), ring(1.04, 0.004, -0.002, 0.006),
    ].map((r) => ({ ...r, v: scale(r.v, -1) })),
    [M.shoe],
    16,
  );
  mesh.begin();
  mesh.tube(
    [ring(-0.05, 0.01, -0.018, 0), ring(-0.03, 0.034, -0.021, 0.002), ring(0.1, 0.043, -0.021, 0.002), ring(0.4, 0.046, -0.021, 0.001), ring(0.7, 0.054, -0.021, 0),
      ring(0.92, 0.048, -0.02, 0), ring(1.02, 0.03, -0.016, 0.001), ring(1.05, 0.006, -0.012, 0)].map((r) => ({ ...r, v: scale(r.v, -1) })),
    [M.sole],
    16,
  );
}

function fist(mesh: Mesh, hand: Vec3, wrist: Vec3, batAlong: Vec3, g: number): void {
  const out = unit(across(sub(hand, wrist), batAlong));
  const third = cross(batAlong, out);
  mesh.begin();
  const centre = along(hand, out, -0.004 * g);
  mesh.ellipsoid(centre, scale(out, 0.043 * g), scale(batAlong, 0.047 * g), scale(third, 0.039 * g), M.glove, 14);
  mesh.begin();
  const stations = [{ at: along(wrist, unit(sub(wrist, hand)), 0.012 * g), radius: 0.033 * g }, { at: wrist, radius: 0.034 * g }, { at: mix(wrist, hand, 0.35), radius: 0.033 * g }, { at: mix(wrist, hand, 0.8), radius: 0.036 * g }];
  mesh.tube(ringsAlong(stations, batAlong, { start: true, end: true }), [M.gloveBack, M.gloveBack, M.gloveBack, M.gloveBack, M.glove], 14);
}

/** Trunk, limbs, shoes and hands of a pose. */
export function addBody(mesh: Mesh, hitter: Hitter, pose: Pose): void {
  const g = hitter.size.girth;
  mesh.begin();
  mesh.tube(trunkRings(hitter, pose).map((ring) => ({ ...ring, v: scale(ring.v, -1) })), TRUNK.map((row) => row[4]), 28);
  mesh.begin();
  const neckLow = along(pose.chest.centre, pose.chest.up, 0.02 * g);
  const neckTop = along(pose.head.centre, pose.head.up, -hitter.size.headRadius * 0.5);
  mesh.tube(ringsAlong([{ at: neckLow, radius: 0.066 * g }, { at: mix(neckLow, neckTop, 0.45), radius: 0.055 * g }, { at: neckTop, radius: 0.055 * g }], pose.chest.across, { start: false, end: false }), [M.skin], 16);
  for (const [limb, foot] of [[pose.frontLeg, pose.frontFoot], [pose.backLeg, pose.backFoot]] as const) {
    mesh.begin();
    const rings = ringsAlong(stationsOf(limb, LEG, g), pose.pelvis.across, { start: true, end: false });
    mesh.tube(rings, rings.map((_, i) => (i >= 14 ? M.sock : M.trousers)), 18);
    shoe(mesh, foot, g);
  }
  for (const [limb, hand, sign] of [[pose.frontArm, pose.frontHand, 1], [pose.backArm, pose.backHand, -1]] as const) {
    const hint = unit(add(pose.chest.ahead, [0, 0.01, 0]));
    mesh.begin();
    const inner: Station = { at: along(along(limb.root, pose.chest.across, -sign * 0.05 * g), pose.chest.up, -0.012 * g), radius: 0.066 * g };
    const sleeve = ringsAlong([inner, ...stationsOf(limb, SLEEVE, g)], hint, { start: true, end: false });
    mesh.tube(sleeve, sleeve.map((_, i) => (i >= 8 ? M.trim : M.shirt)), 18);
    mesh.begin();
    mesh.tube(ringsAlong(stationsOf(limb, ARM, g), hint, { start: false, end: true }), [M.skin], 16);
    fist(mesh, hand, limb.end, pose.bat.along, g);
  }
}
