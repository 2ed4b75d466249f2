import { describe, expect, test, vi } from "vitest";
import { ANCHORS } from "./anchors";
import { BodyFollower, MOST_BODIES, type PoseModel } from "./follow-bodies";

const PICTURE = { bytes: new Uint8Array(224 * 224 * 3), width: 224, height: 224 };

// Pictures are really sampled, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

/** A model that sees people where it is told, upright and 40 px from hips to the circle's top, and stays where it looks. */
function seeing(people: () => readonly (readonly [number, number])[], flag = () => 1): PoseModel & { looks: number } {
  const model = {
    looks: 0,
    detect: async () => {
      model.looks++;
      const [scores, numbers] = [new Float32Array(2254).fill(-20), new Float32Array(2254 * 12)];
      for (const [i, [x, y]] of people().entries()) {
        const [anchorX, anchorY] = ANCHORS[i] ?? [0, 0];
        const [dx, dy] = [x - anchorX * 224, y - anchorY * 224];
        scores[i] = 5;
        numbers.set([dx, dy, 30, 80, dx, dy, dx, dy - 40], i * 12);
      }
      return { scores, numbers };
    },
    joints: async () => {
      const numbers = new Float32Array(195);
      numbers.set([128, 128], 33 * 5);
      numbers.set([128, 128 - 256 / 2.5], 34 * 5);
      return { numbers, heat: null, flag: flag() };
    },
  };
  return model;
}

describe("following bodies", () => {
  test("each keeps its number from frame to frame, and people are looked for anew now and then only", async () => {
    const model = seeing(() => [[60, 120], [160, 120]]);
    const follower = new BodyFollower(model);
    const seen = [];
    for (let i = 0; i < 9; i++) seen.push((await follower.frame(PICTURE, i / 60)).map(({ body }) => body));
    expect(seen).toEqual(Array.from({ length: 9 }, () => [0, 1]));
    expect(model.looks).toBe(2);
  });

  test("after a pause the known are taken where they are found, under their own number", async () => {
    let x = 60;
    const follower = new BodyFollower(seeing(() => [[x, 120]]));
    const before = await follower.frame(PICTURE, 0);
    x = 72;
    const after = await follower.frame(PICTURE, 0.1);
    expect(after.map(({ body }) => body)).toEqual([0]);
    expect((after[0]?.joints[0]?.x ?? NaN) - (before[0]?.joints[0]?.x ?? NaN)).toBeCloseTo(12, 3);
  });

  test("one whom the model no longer sees is let go and looked for on the next frame", async () => {
    let flag = 1;
    const model = seeing(() => [[60, 120]], () => flag);
    const follower = new BodyFollower(model);
    await follower.frame(PICTURE, 0);
    flag = 0.2;
    expect(await follower.frame(PICTURE, 1 / 60)).toEqual([]);
    flag = 1;
    expect((await follower.frame(PICTURE, 2 / 60)).map(({ body }) => body)).toEqual([1]);
    expect(model.looks).toBe(2);
  });

  test("a crowd is followed up to a number", async () => {
    const follower = new BodyFollower(seeing(() => Array.from({ length: 6 }, (_, i) => [20 + 35 * i, 120] as const)));
    expect(await follower.frame(PICTURE, 0)).toHaveLength(MOST_BODIES);
  });
});
