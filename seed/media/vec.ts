/** A point or direction in swing coordinates, metres: x toward the pitcher, y up, z from the hitter toward the plate. */
export type Vec3 = readonly [number, number, number];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
/** a + k b */
export const along = (a: Vec3, b: Vec3, k: number): Vec3 => [a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
export const distance = (a: Vec3, b: Vec3): number => length(sub(a, b));
export const mix = (a: Vec3, b: Vec3, k: number): Vec3 => along(scale(a, 1 - k), b, k);
export const middle = (a: Vec3, b: Vec3): Vec3 => mix(a, b, 0.5);

/** The direction of `a`; a vector without length gives `otherwise`. */
export function unit(a: Vec3, otherwise: Vec3 = [0, 1, 0]): Vec3 {
  const size = length(a);
  return size < 1e-9 ? otherwise : scale(a, 1 / size);
}

/** What is left of `a` when its share along the unit vector `axis` is taken out. */
export const across = (a: Vec3, axis: Vec3): Vec3 => along(a, axis, -dot(a, axis));

/** The horizontal direction that faces `yawDeg`: 0 = the plate (+z), 90 = the pitcher (+x). */
export function facing(yawDeg: number): Vec3 {
  const yaw = (yawDeg * Math.PI) / 180;
  return [Math.sin(yaw), 0, Math.cos(yaw)];
}

/** The direction at a yaw (as `facing`) and a height over the horizon, both in degrees. */
export function heading(yawDeg: number, heightDeg: number): Vec3 {
  const height = (heightDeg * Math.PI) / 180;
  const flat = facing(yawDeg);
  return [flat[0] * Math.cos(height), Math.sin(height), flat[2] * Math.cos(height)];
}
