import { greyAt, type PicturePlace } from "@/lib/measure/following/grey-picture";
import type { Pyramid } from "@/lib/measure/following/pyramid";

/** The piece of a picture around a place that is looked for: its size, and how it lies on what is followed. */
export interface PatchShape {
  /** Half its side in pixels of the picture itself, at every level of the pyramid alike. */
  readonly radius: number;
  /** Pixels by which its middle lies from the place, along its own first axis. */
  readonly ahead: number;
}

/** A patch at one level: its values and how they change along its own axes, each counted by its weight. */
export interface PatchLevel {
  readonly values: Float32Array;
  readonly alongFirst: Float32Array;
  readonly alongSecond: Float32Array;
  /** Weighted products of the changes about their means: first², first × second, second². */
  readonly products: readonly [number, number, number];
}

export type Patch = readonly PatchLevel[];

const weightsBySide = new Map<number, Float32Array>();

/** Weights of a patch: a bell, half as high at six tenths of the radius; they add up to 1. */
export function patchWeights(radius: number): Float32Array {
  const known = weightsBySide.get(radius);
  if (known) return known;
  const side = 2 * radius + 1;
  const weights = new Float32Array(side * side);
  for (let j = -radius; j <= radius; j++) for (let i = -radius; i <= radius; i++) weights[(j + radius) * side + i + radius] = 2 ** -((i * i + j * j) / (0.6 * radius) ** 2);
  const sum = weights.reduce((all, weight) => all + weight, 0);
  const shares = weights.map((weight) => weight / sum);
  weightsBySide.set(radius, shares);
  return shares;
}

/**
 * Values on a grid around a place, turned: NaN where the picture ends.
 * @param place pixels of the whole picture @param rim further rows and columns on every side
 */
export function valuesAround(pyramid: Pyramid, level: number, place: PicturePlace, turnRad: number, { radius, ahead }: PatchShape, rim: number, into: Float32Array): boolean {
  const picture = pyramid.levels[level];
  if (!picture) return false;
  const scale = 2 ** -level;
  const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)];
  const [u, v] = [(place.x - pyramid.leftPx - 0.5 + ahead * cos) * scale, (place.y - pyramid.topPx - 0.5 + ahead * sin) * scale];
  const reach = radius + rim;
  let at = 0;
  for (let j = -reach; j <= reach; j++) {
    for (let i = -reach; i <= reach; i++) {
      const value = greyAt(picture, u + i * cos - j * sin, v + i * sin + j * cos);
      if (Number.isNaN(value)) return false;
      into[at++] = value;
    }
  }
  return true;
}

/**
 * The patch around a place at every level that has room for it.
 * @param turnRad how its first axis lies in the picture: from x toward y
 */
export function patchAround(pyramid: Pyramid, place: PicturePlace, turnRad: number, shape: PatchShape): Patch {
  const { radius } = shape;
  const side = 2 * radius + 1;
  const wide = side + 2;
  const weights = patchWeights(radius);
  const around = new Float32Array(wide * wide);
  const levels: PatchLevel[] = [];
  for (let level = 0; level < pyramid.levels.length; level++) {
    if (!valuesAround(pyramid, level, place, turnRad, shape, 1, around)) break;
    const [values, alongFirst, alongSecond] = [new Float32Array(side * side), new Float32Array(side * side), new Float32Array(side * side)];
    let [meanFirst, meanSecond] = [0, 0];
    for (let j = 0; j < side; j++) {
      for (let i = 0; i < side; i++) {
        const [at, from] = [j * side + i, (j + 1) * wide + i + 1];
        values[at] = around[from] ?? NaN;
        alongFirst[at] = ((around[from + 1] ?? NaN) - (around[from - 1] ?? NaN)) / 2;
        alongSecond[at] = ((around[from + wide] ?? NaN) - (around[from - wide] ?? NaN)) / 2;
        meanFirst += (weights[at] ?? 0) * (alongFirst[at] ?? 0);
        meanSecond += (weights[at] ?? 0) * (alongSecond[at] ?? 0);
      }
    }
    let [aa, ab, bb] = [0, 0, 0];
    for (let at = 0; at < side * side; at++) {
      const [a, b] = [(alongFirst[at] = (alongFirst[at] ?? 0) - meanFirst), (alongSecond[at] = (alongSecond[at] ?? 0) - meanSecond)];
      const weight = weights[at] ?? 0;
      aa += weight * a * a;
      ab += weight * a * b;
      bb += weight * b * b;
    }
    levels.push({ values, alongFirst, alongSecond, products: [aa, ab, bb] });
  }
  return levels;
}
