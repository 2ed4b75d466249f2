import type { PointId } from "../view";
import { POINT_PAIRS, type PointPair } from "./schema";

/** Pairs that are exchanged together, and what they are called. */
export const LIMBS = [
  { id: "arms", name: "Arms", pairs: ["el", "wr"] },
  { id: "legs", name: "Legs", pairs: ["kn", "an", "heel", "toe"] },
  { id: "trunk", name: "Shoulders and hips", pairs: ["sh", "hip"] },
  { id: "head", name: "Ears", pairs: ["ear"] },
] as const satisfies readonly { readonly id: string; readonly name: string; readonly pairs: readonly PointPair[] }[];
export type Limb = (typeof LIMBS)[number];

/** The pair to which a point belongs; null for knob, tip, nose and helmet. */
export function pairOf(point: PointId): PointPair | null {
  return POINT_PAIRS.find((pair) => point === `${pair}_f` || point === `${pair}_b`) ?? null;
}

/** The limb to which a point belongs; null for a point that the body has once. */
export function limbOf(point: PointId): Limb | null {
  const pair = pairOf(point);
  return pair && (LIMBS.find(({ pairs }) => (pairs as readonly PointPair[]).includes(pair)) ?? null);
}

/** The same point of the other side of the body; a point that the body has once is its own. */
export function otherSideOf(point: PointId): PointId {
  const pair = pairOf(point);
  return pair === null ? point : point === `${pair}_f` ? `${pair}_b` : `${pair}_f`;
}
