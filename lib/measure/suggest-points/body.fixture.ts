import { JOINT_NUMBERS, type PairName, type SeenBody, type SeenJoint } from "./seen-body";

type Spot = readonly [number, number];

/** A body of 100 px torso with its hips in the middle of (x, y): left points 10 px left of the middle line, right ones right of it, unless said otherwise. */
export function bodyAt(body: number, [x, y]: Spot, moved: Readonly<Partial<Record<PairName, { readonly left: Spot; readonly right: Spot }>>> = {}): SeenBody {
  const heights: Readonly<Record<PairName, number>> = { ear: -130, sh: -100, el: -60, wr: -40, hip: 0, kn: 50, an: 100, heel: 105, toe: 110 };
  const joints: SeenJoint[] = Array.from({ length: 33 }, () => ({ x, y, confidence: 0.9 }));
  for (const [pair, numbers] of Object.entries(JOINT_NUMBERS) as [PairName, { left: number; right: number }][]) {
    const { left, right } = moved[pair] ?? { left: [x - 10, y + heights[pair]] as Spot, right: [x + 10, y + heights[pair]] as Spot };
    joints[numbers.left] = { x: left[0], y: left[1], confidence: 0.9 };
    joints[numbers.right] = { x: right[0], y: right[1], confidence: 0.9 };
  }
  return { body, presence: 0.95, joints };
}

/** The same body with left and right of some pairs taken for each other. */
export function mixedUp(body: SeenBody, pairs: readonly PairName[]): SeenBody {
  const joints = [...body.joints];
  for (const pair of pairs) {
    const { left, right } = JOINT_NUMBERS[pair];
    const [a, b] = [body.joints[left], body.joints[right]];
    if (a && b) [joints[left], joints[right]] = [b, a];
  }
  return { ...body, joints };
}
