import { facing, unit, type Vec3 } from "./vec";
import type { SwingSpec } from "./spec";

/** Light of a scene: direction toward the key light, and colours (linear) of key, sky and what the ground throws back. */
export interface Light {
  readonly toward: Vec3;
  readonly key: Vec3;
  readonly sky: Vec3;
  readonly ground: Vec3;
}

const YAW = { side: 0, front: 90, rear: -90 } as const;

/** Key light from the upper left of the camera's view, so that every view shows form. */
export function lightOf(view: SwingSpec["view"], scene: "cage" | "field"): Light {
  const flat = facing(YAW[view] - 52);
  const toward = unit([flat[0], 1.35, flat[2]]);
  return scene === "field"
    ? { toward, key: [0.86, 0.81, 0.72], sky: [0.36, 0.4, 0.46], ground: [0.2, 0.17, 0.13] }
    : { toward, key: [0.74, 0.71, 0.66], sky: [0.42, 0.43, 0.45], ground: [0.19, 0.18, 0.16] };
}

/** Linear light 0..1 of each sRGB byte. */
export const LINEAR_OF_BYTE = Float32Array.from({ length: 256 }, (_, i) => {
  const c = i / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
});

/** sRGB byte of linear light, in steps of 1/4096. */
export const BYTE_OF_LIGHT = Uint8Array.from({ length: 4097 }, (_, i) => {
  const c = i / 4096;
  return Math.round(255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055));
});

/** sRGB value (0–255, any fraction) to linear light 0..1. */
export const toLinear = (value: number): number => LINEAR_OF_BYTE[Math.max(0, Math.min(255, Math.round(value)))] as number;
