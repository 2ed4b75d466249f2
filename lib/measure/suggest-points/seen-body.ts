/** A joint that the model saw, in pixels of one picture, y down. */
export interface SeenJoint {
  readonly x: number;
  readonly y: number;
  /** How sure the model is that it can be seen, 0 to 1. */
  readonly confidence: number;
}

/** One person on one frame; the number stays with the person from frame to frame. */
export interface SeenBody {
  readonly body: number;
  readonly presence: number;
  /** In the model's order (JOINT_NUMBERS). */
  readonly joints: readonly SeenJoint[];
}

/** One frame with everybody on it, and when it was in real seconds from contact. */
export interface SeenFrame {
  readonly frameIndex: number;
  readonly seconds: number;
  readonly bodies: readonly SeenBody[];
}

/** Points of the body that it has twice, as the model numbers them: of the person's own left and right side, so far as it can tell. */
export const JOINT_NUMBERS = {
  ear: { left: 7, right: 8 },
  sh: { left: 11, right: 12 },
  el: { left: 13, right: 14 },
  wr: { left: 15, right: 16 },
  hip: { left: 23, right: 24 },
  kn: { left: 25, right: 26 },
  an: { left: 27, right: 28 },
  heel: { left: 29, right: 30 },
  toe: { left: 31, right: 32 },
} as const;
export type PairName = keyof typeof JOINT_NUMBERS;
export const PAIR_NAMES = Object.keys(JOINT_NUMBERS) as readonly PairName[];
/** The point that it has once. */
export const NOSE_NUMBER = 0;

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Middle of the two points of a pair; NaN where the model gave none. */
export function middleOf({ joints }: Pick<SeenBody, "joints">, pair: PairName): Spot {
  const { left, right } = JOINT_NUMBERS[pair];
  const [a, b] = [joints[left], joints[right]];
  return a && b ? { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } : { x: NaN, y: NaN };
}

/** Length of the torso in pixels, as it is seen. */
export function torsoOf(body: Pick<SeenBody, "joints">): number {
  return apart(middleOf(body, "sh"), middleOf(body, "hip"));
}

export function apart(a: Spot, b: Spot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
