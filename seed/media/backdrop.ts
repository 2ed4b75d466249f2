import type { Camera } from "./camera";
import { blend, groundColour, type Rgb } from "./ground";
import { wardrobeOf } from "./look";
import { cloudNoise, ramp, valueNoise } from "./noise";
import type { SwingSpec } from "./spec";

/** Cage wall: padded panels below, pale boards above, a net before it. `x` across, `y` up, metres; `soft` = half a pixel. */
function cageWall(x: number, y: number, soft: number, seed: number): Rgb {
  const out: Rgb = [206, 204, 194];
  const light = 0.93 + 0.09 * ramp(0, 4.5, y) - 0.05 * ramp(2.5, 6, Math.abs(x));
  const plank = Math.abs(((((y - 1.32) / 0.62) % 1) + 1) % 1 - 0.5);
  blend(out, [170, 168, 158], 0.5 * ramp(0.5 - (0.012 + soft) / 0.62, 0.5, plank));
  blend(out, [196, 192, 182], 0.35 * cloudNoise(x * 0.7, y * 2.2, seed, 3));
  if (y < 1.3) {
    const pad: Rgb = [96, 116, 118];
    const panel = Math.abs(((x / 1.5) % 1 + 1) % 1 - 0.5) * 1.5;
    blend(pad, [76, 94, 97], 0.85 * ramp(0.75 - 0.03 - soft, 0.75 - 0.004, panel));
    blend(pad, [120, 140, 140], 0.35 * ramp(0.5, 0.1, panel) * ramp(0, 1.2, y));
    blend(pad, [120, 138, 138], 0.6 * ramp(1.2, 1.27, y));
    blend(pad, [58, 68, 70], 0.7 * (1 - ramp(0, 0.16, y)));
    blend(out, pad, 1 - ramp(1.3 - soft, 1.3 + soft, y));
  }
  blend(out, [120, 118, 110], 0.45 * ramp(1.3, 1.301 + soft, y) * (1 - ramp(1.3, 1.42, y)));
  for (const slope of [1, -1]) {
    const thread = Math.abs((((x + slope * y * 0.8) / 0.2) % 1 + 1) % 1 - 0.5) * 0.2;
    blend(out, [126, 126, 120], 0.3 * (1 - ramp(0, 0.006 + soft * 1.3, thread)) * (0.006 / (0.006 + soft)) * 1.8);
  }
  const post = Math.abs(((x + 1.15) / 3.4 % 1 + 1) % 1 - 0.5) * 3.4;
  blend(out, [92, 98, 98], 1 - ramp(0.035 - soft, 0.035 + soft, post));
  blend(out, [130, 136, 134], 0.7 * (1 - ramp(0.006, 0.012 + soft, Math.abs(post - 0.012))));
  for (let i = 0; i < 3; i++) out[i] = (out[i] as number) * light;
  return out;
}

/** Field: pale sky, far trees, a low fence with a rail. */
function fieldWall(x: number, y: number, soft: number, seed: number): Rgb {
  const out: Rgb = [226, 232, 233];
  blend(out, [176, 200, 214], ramp(2, 7, y));
  blend(out, [240, 242, 240], 0.5 * ramp(0.52, 0.75, cloudNoise(x * 0.22, y * 0.8, seed + 5, 4)) * ramp(2.4, 3.6, y));
  const far = 2.5 + 0.5 * cloudNoise(x * 0.35, 3, seed + 41, 4);
  blend(out, [150, 172, 160], 1 - ramp(far - soft * 2, far + soft * 2, y));
  const near = 1.75 + 0.8 * cloudNoise(x * 0.75, 9, seed + 61, 5);
  if (y < near + 0.1) {
    const leaf: Rgb = [108, 138, 108];
    const clump = cloudNoise(x * 2.6, y * 3.2, seed + 71, 4);
    blend(leaf, [84, 114, 88], ramp(0.4, 0.66, clump));
    blend(leaf, [134, 160, 122], 0.6 * ramp(0.55, 0.3, clump) * ramp(0.8, 2.4, y));
    blend(out, leaf, 1 - ramp(near - soft * 2, near + soft * 2 + 0.03, y));
  }
  if (y < 1.25) {
    const screen: Rgb = [92, 118, 100];
    blend(screen, [78, 102, 88], valueNoise(x * 6, y * 2, seed + 81) * 0.5);
    const mesh = 0.5 + 0.5 * ramp(0.7, 1.2, y);
    blend(out, screen, 0.8 * mesh * (1 - ramp(1.2 - soft, 1.2 + soft, y)));
    for (const slope of [1, -1]) {
      const thread = Math.abs((((x + slope * y) / 0.14) % 1 + 1) % 1 - 0.5) * 0.14;
      blend(out, [176, 186, 178], 0.3 * (1 - ramp(0, 0.005 + soft, thread)) * (1 - ramp(1.18, 1.2, y)));
    }
    blend(out, [198, 204, 198], 1 - ramp(0.022 - soft, 0.022 + soft, Math.abs(y - 1.2)));
    const post = Math.abs(((x / 2.6) % 1 + 1) % 1 - 0.5) * 2.6;
    blend(out, [186, 192, 186], (1 - ramp(0.026 - soft, 0.026 + soft, post)) * (1 - ramp(1.22, 1.23, y)));
  }
  return out;
}

/** The place without the hitter: three bytes a pixel. Drawn once per clip; every edge is softened over a pixel by its own formula. */
export function paintBackdrop(spec: SwingSpec, camera: Camera, plateZ: number): Uint8Array {
  const { widthPx, heightPx, focalPx } = camera;
  const { scene } = wardrobeOf(spec);
  const seed = spec.seed * 131;
  const wallBehind = scene === "cage" ? 3.1 : 7.5;
  const wallDepth = camera.distanceM + wallBehind;
  const plan = { plateZ, plateX: 0.27, scene, seed };
  const bytes = new Uint8Array(new SharedArrayBuffer(3 * widthPx * heightPx));
  const [o, f, r] = [camera.position, camera.into, camera.right];
  for (let py = 0; py < heightPx; py++) {
    for (let px = 0; px < widthPx; px++) {
      const sx = camera.mirror * (px + 0.5 - camera.centreX);
      const sy = camera.centreY - (py + 0.5);
      const groundDepth = sy < 0 ? (focalPx * o[1]) / -sy : Infinity;
      let colour: Rgb;
      if (groundDepth < wallDepth) {
        const across = (sx * groundDepth) / focalPx;
        // A pixel covers more of the ground along the view than across it.
        const soft = (0.5 * groundDepth * Math.sqrt(groundDepth / o[1])) / focalPx;
        colour = groundColour(plan, o[0] + f[0] * groundDepth + r[0] * across, o[2] + f[2] * groundDepth + r[2] * across, soft);
        const corner = wallDepth - groundDepth;
        if (corner < 0.6) blend(colour, [40, 48, 46], 0.4 * (1 - corner / 0.6) ** 2);
      } else {
        const x = (sx * wallDepth) / focalPx;
        const y = o[1] + (sy * wallDepth) / focalPx;
        const soft = (0.6 * wallDepth) / focalPx;
        colour = scene === "cage" ? cageWall(x, y, soft, seed) : fieldWall(x, y, soft, seed);
      }
      const edge = 1 - ((px / widthPx - 0.5) ** 2 + (py / heightPx - 0.5) ** 2) * 0.13;
      const at = 3 * (py * widthPx + px);
      bytes[at] = Math.max(0, Math.min(255, Math.round(colour[0] * edge)));
      bytes[at + 1] = Math.max(0, Math.min(255, Math.round(colour[1] * edge)));
      bytes[at + 2] = Math.max(0, Math.min(255, Math.round(colour[2] * edge)));
    }
  }
  return bytes;
}
