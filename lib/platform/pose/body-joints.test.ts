import { describe, expect, test } from "vitest";
import { bodyJoints, finer } from "./body-joints";
import type { Crop } from "./crop";

const OUTPUTS = 39;
const cold = () => new Float32Array(64 * 64 * OUTPUTS).fill(-20);
const CROP: Crop = { x: 300, y: 200, size: 512, turnRad: 0 };

const outputs = (joints: Readonly<Record<number, readonly [number, number, number?]>>) => {
  const numbers = new Float32Array(OUTPUTS * 5);
  for (const [joint, [x, y, visibility = 0]] of Object.entries(joints)) numbers.set([x, y, 0, visibility, 0], Number(joint) * 5);
  return numbers;
};

describe("joints in the picture", () => {
  test("without heat lie where the numbers say: the middle of the input is the middle of the crop", () => {
    const { joints, presence } = bodyJoints(CROP, outputs({ 25: [128, 128, 2], 26: [192, 64] }), null, 0.75);
    expect(joints).toHaveLength(33);
    expect(joints[25]).toMatchObject({ x: 300, y: 200, confidence: expect.closeTo(1 / (1 + Math.exp(-2)), 9) });
    // 64 px of 256 right and above: a quarter of 512 px.
    expect(joints[26]).toMatchObject({ x: 428, y: 72, confidence: 0.5 });
    expect(presence).toBe(0.75);
  });

  test("a flag that was not squashed is", () => {
    expect(bodyJoints(CROP, outputs({}), null, 3).presence).toBeCloseTo(1 / (1 + Math.exp(-3)), 9);
  });

  test("the next crop stands on the two joints beyond the told ones", () => {
    // Hips in the middle, the circle's top 32 of 256 px above: 64 px of the picture, so the side is 160 px.
    const { next } = bodyJoints(CROP, outputs({ 33: [128, 128], 34: [128, 96] }), null, 1);
    expect(next).toMatchObject({ x: 300, y: 200, size: expect.closeTo(160, 9), turnRad: expect.closeTo(0, 12) });
  });
});

describe("the heat map", () => {
  test("draws a joint to the middle of the heat around it", () => {
    const heat = cold();
    // Two equally hot cells, 20 and 22 across in row 10: the middle is 21 of 64.
    for (const column of [20, 22]) heat[(10 * 64 + column) * OUTPUTS + 7] = 20;
    const place = finer({ x: 21.4 / 64, y: 10.9 / 64 }, heat, 7);
    expect([place.x, place.y]).toEqual([expect.closeTo(21 / 64, 6), expect.closeTo(10 / 64, 6)]);
  });

  test("leaves it where there is little heat, heat of another joint, or no map", () => {
    const heat = cold();
    heat[(10 * 64 + 20) * OUTPUTS + 8] = 20;
    heat[(10 * 64 + 20) * OUTPUTS + 7] = -0.1;
    const place = { x: 20.5 / 64, y: 10.5 / 64 };
    expect(finer(place, heat, 7)).toEqual(place);
    expect(finer({ x: 1.2, y: 0.5 }, heat, 7)).toEqual({ x: 1.2, y: 0.5 });
  });
});
