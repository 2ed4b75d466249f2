import { bodyCrop, placeInPicture, type Crop, type Place } from "./crop";
import { squash } from "./detected-bodies";

/** Side of the joint model's input picture in pixels. */
export const JOINTS_SIDE = 256;
/** Joints that are told, and two more that say where the body will be on the next frame. */
export const JOINTS = 33;
const OUTPUTS = 39;
/** Numbers of one joint: across, down, depth, raw visibility, raw presence. */
const NUMBERS = 5;
const NEXT_MIDDLE = 33;
const NEXT_TOP = 34;
const MAP_SIDE = 64;
/** The heat map is looked at so many cells to every side. */
const REACH = 3;
const LEAST_HEAT = 0.5;

/** One joint in pixels of the picture. */
export interface Joint extends Place {
  /** How sure the model is that it can be seen, 0 to 1. */
  readonly confidence: number;
}

/** A body with its joints, in the model's order; left and right are the body's own, as the model took them. */
export interface BodyJoints {
  /** How sure the model is that there is a body, 0 to 1. */
  readonly presence: number;
  readonly joints: readonly Joint[];
  /** Where to look on the next frame. */
  readonly next: Crop;
}

/**
 * Reads the joint model's outputs for one crop: joints in pixels of its input, made finer by the heat map, and laid back into the picture.
 * @param numbers 39 × 5, @param heat 64 × 64 × 39 raw values, row by row, or null for none, @param flag whether there is a body
 */
export function bodyJoints(crop: Crop, numbers: ArrayLike<number>, heat: ArrayLike<number> | null, flag: number): BodyJoints {
  const placeOf = (joint: number): Place => {
    const coarse = { x: (numbers[joint * NUMBERS] ?? NaN) / JOINTS_SIDE, y: (numbers[joint * NUMBERS + 1] ?? NaN) / JOINTS_SIDE };
    const { x, y } = heat ? finer(coarse, heat, joint) : coarse;
    return placeInPicture(crop, x, y);
  };
  const joints = Array.from({ length: JOINTS }, (_, joint): Joint => ({ ...placeOf(joint), confidence: squash(numbers[joint * NUMBERS + 3] ?? -Infinity) }));
  // Some builds of the model squash the flag themselves.
  const presence = flag >= 0 && flag <= 1 ? flag : squash(flag);
  return { presence, joints, next: bodyCrop(placeOf(NEXT_MIDDLE), placeOf(NEXT_TOP)) };
}

/** The middle of the heat around a place (parts of the crop, 0 to 1); the place itself where there is little heat. */
export function finer(coarse: Place, heat: ArrayLike<number>, joint: number): Place {
  const [column, row] = [Math.floor(coarse.x * MAP_SIDE), Math.floor(coarse.y * MAP_SIDE)];
  if (!(column >= 0 && row >= 0 && column < MAP_SIDE && row < MAP_SIDE)) return coarse;
  let [sum, across, down, most] = [0, 0, 0, 0];
  for (let y = Math.max(0, row - REACH); y <= Math.min(MAP_SIDE - 1, row + REACH); y++) {
    for (let x = Math.max(0, column - REACH); x <= Math.min(MAP_SIDE - 1, column + REACH); x++) {
      const warmth = squash(heat[(y * MAP_SIDE + x) * OUTPUTS + joint] ?? -Infinity);
      [sum, across, down, most] = [sum + warmth, across + warmth * x, down + warmth * y, Math.max(most, warmth)];
    }
  }
  return most >= LEAST_HEAT ? { x: across / sum / MAP_SIDE, y: down / sum / MAP_SIDE } : coarse;
}
