import type { Camera } from "./camera";
import { BYTE_OF_LIGHT, LINEAR_OF_BYTE, type Light } from "./light";
import type { ShadowMap } from "./shadow";
import type { FootPose, Pose } from "./skeleton";
import type { Vec3 } from "./vec";

/** How much of the ground's light the closeness of a shoe leaves, 0 to 1. */
function closeness(foot: FootPose, gx: number, gz: number): number {
  const ex = foot.toe[0] - foot.heel[0];
  const ez = foot.toe[2] - foot.heel[2];
  const share = ((gx - foot.heel[0]) * ex + (gz - foot.heel[2]) * ez) / (ex * ex + ez * ez);
  const k = share < 0 ? 0 : share > 1 ? 1 : share;
  const dx = gx - foot.heel[0] - k * ex;
  const dz = gz - foot.heel[2] - k * ez;
  const d2 = dx * dx + dz * dz;
  const height = Math.max(0, foot.heel[1] + k * (foot.toe[1] - foot.heel[1]));
  const size = 0.006 + 0.05 * height;
  return d2 > 6 * size ? 1 : 1 - (0.5 * Math.exp(-d2 / size)) / (1 + 14 * height);
}

/** Darkens the ground in an RGB picture: the soft shadow of everything in the map, and what lies close under the shoes. */
export function paintGroundShadow(picture: Uint8Array, camera: Camera, light: Light, shadow: ShadowMap, pose: Pose, heightM: number): void {
  const { position: o, into: f, right: r, mirror, focalPx, centreX, centreY, widthPx } = camera;
  const box = shadowBox(camera, light, heightM);
  const { frontFoot, backFoot } = pose;
  for (let y = box.top; y <= box.bottom; y++) {
    const depth = (focalPx * o[1]) / (y + 0.5 - centreY);
    const startX = o[0] + f[0] * depth;
    const startZ = o[2] + f[2] * depth;
    for (let x = box.left; x <= box.right; x++) {
      const sideways = (mirror * (x + 0.5 - centreX) * depth) / focalPx;
      const gx = startX + r[0] * sideways;
      const gz = startZ + r[2] * sideways;
      const lit = shadow.lit(gx, 0.005, gz, 0.035, 0.006);
      const keep = (1 - 0.56 * (1 - lit)) * closeness(frontFoot, gx, gz) * closeness(backFoot, gx, gz);
      if (keep > 0.996) continue;
      const at = 3 * (y * widthPx + x);
      for (let c = 0; c < 3; c++) {
        picture[at + c] = BYTE_OF_LIGHT[((LINEAR_OF_BYTE[picture[at + c] as number] as number) * keep * 4096) | 0] as number;
      }
    }
  }
}

/** The pixels that the shadow of a hitter of this height can reach. */
function shadowBox(camera: Camera, light: Light, h: number): { left: number; top: number; right: number; bottom: number } {
  const { position: o, into: f, right: r, mirror, focalPx, centreX, centreY, widthPx, heightPx } = camera;
  const [kx, kz] = [light.toward[0] / light.toward[1], light.toward[2] / light.toward[1]];
  const corners: Vec3[] = [];
  for (const x of [-0.62, 0.62]) {
    for (const z of [-0.3, 0.75]) for (const height of [0, 1.2]) corners.push([(x - height * kx) * h, 0, (z - height * kz) * h]);
  }
  let [left, top, right, bottom] = [widthPx, heightPx, 0, 0];
  for (const c of corners) {
    const depth = Math.max(0.3, (c[0] - o[0]) * f[0] + (c[2] - o[2]) * f[2]);
    const k = focalPx / depth;
    const x = centreX + mirror * k * ((c[0] - o[0]) * r[0] + (c[2] - o[2]) * r[2]);
    const y = centreY + k * o[1];
    [left, top, right, bottom] = [Math.min(left, x), Math.min(top, y), Math.max(right, x), Math.max(bottom, y)];
  }
  return {
    left: Math.max(0, Math.floor(left)),
    right: Math.min(widthPx - 1, Math.ceil(right)),
    top: Math.max(Math.ceil(centreY) + 4, Math.floor(top)),
    bottom: Math.min(heightPx - 1, Math.ceil(bottom)),
  };
}
