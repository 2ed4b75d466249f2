/** Smooth value noise on the plane, 0 to 1, the same on every machine. */
export function valueNoise(x: number, y: number, seed: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const fx = smooth(x - ix);
  const fy = smooth(y - iy);
  const top = corner(ix, iy, seed) * (1 - fx) + corner(ix + 1, iy, seed) * fx;
  const low = corner(ix, iy + 1, seed) * (1 - fx) + corner(ix + 1, iy + 1, seed) * fx;
  return top * (1 - fy) + low * fy;
}

/** Several octaves of value noise, 0 to 1. */
export function cloudNoise(x: number, y: number, seed: number, octaves: number): number {
  let sum = 0;
  let weight = 0;
  for (let i = 0, k = 1, w = 1; i < octaves; i++, k *= 2.03, w *= 0.55) {
    sum += w * valueNoise(x * k, y * k, seed + i);
    weight += w;
  }
  return sum / weight;
}

const smooth = (t: number): number => t * t * (3 - 2 * t);

function corner(ix: number, iy: number, seed: number): number {
  let h = Math.imul(ix, 0x27d4eb2f) ^ Math.imul(iy, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 13), 0x297a2d39);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** 0 below `low`, 1 above `high`, smooth between. */
export function ramp(low: number, high: number, value: number): number {
  const t = Math.max(0, Math.min(1, (value - low) / (high - low)));
  return smooth(t);
}
