import { describe, expect, test } from "vitest";
import { ANCHORS, DETECTOR_SIDE } from "./anchors";
import { cropOfBody, detectedBodies, onePerBody, sharedArea, squash, type DetectedBody } from "./detected-bodies";
import { wholeCrop } from "./crop";

describe("the detector's anchors", () => {
  test("are 28 × 28 × 2 + 14 × 14 × 2 + 7 × 7 × 6 = 2,254, each in the middle of its cell, row by row", () => {
    expect(ANCHORS).toHaveLength(2254);
    // By hand: 1/56 and 3/56 are the middles of the first two of 28 cells, 1/28 of the first of 14, 1/14 of the first of 7.
    expect(ANCHORS[0]).toEqual([1 / 56, 1 / 56]);
    expect(ANCHORS[1]).toEqual([1 / 56, 1 / 56]);
    expect(ANCHORS[2]?.[0]).toBeCloseTo(3 / 56, 12);
    expect(ANCHORS[28 * 2]?.[1]).toBeCloseTo(3 / 56, 12);
    expect(ANCHORS[1568]?.[0]).toBeCloseTo(1 / 28, 12);
    expect(ANCHORS[1960]?.[0]).toBeCloseTo(1 / 14, 12);
    expect(ANCHORS[2253]?.[0]).toBeCloseTo(13 / 14, 12);
  });
});

const empty = () => ({ scores: new Float32Array(2254).fill(-20), numbers: new Float32Array(2254 * 12) });

describe("the detector's guesses", () => {
  test("are boxes and points counted from their anchor in pixels of the input", () => {
    const { scores, numbers } = empty();
    // The anchor in the middle of the coarsest grid lies at one half. Box 56 × 112 px, 22.4 px right of it; hips 11.2 px below, top 44.8 px above.
    const middle = 1960 + (3 * 7 + 3) * 6;
    expect(ANCHORS[middle]).toEqual([0.5, 0.5]);
    scores[middle] = 2;
    numbers.set([22.4, 0, 56, 112, 0, 11.2, 0, -44.8], middle * 12);
    const [body, ...others] = detectedBodies(scores, numbers);
    expect(others).toEqual([]);
    expect(body?.score).toBeCloseTo(1 / (1 + Math.exp(-2)), 9);
    expect(body?.box.left).toBeCloseTo(0.6 - 0.125, 6);
    expect(body?.box.bottom).toBeCloseTo(0.5 + 0.25, 6);
    expect(body?.middle[1]).toBeCloseTo(0.55, 6);
    expect(body?.top[1]).toBeCloseTo(0.3, 6);
  });

  test("below one half are none, and a score beyond all bounds is still a number", () => {
    const { scores, numbers } = empty();
    scores[5] = -0.01;
    expect(detectedBodies(scores, numbers)).toEqual([]);
    expect([squash(1e9), squash(-1e9), squash(0)]).toEqual([1, expect.closeTo(0, 12), 0.5]);
  });
});

const guess = (score: number, left: number, right: number): DetectedBody => ({ score, box: { left, top: 0, right, bottom: 1 }, middle: [left, 0], top: [right, 1] });

describe("one body found several times", () => {
  test("is one, the mean of its guesses by their scores, with the best score", () => {
    // Boxes 0 to 1 and 0.2 to 1.2 share 0.8 of 1.2: two thirds. Weights 0.9 and 0.6: the left edge is 0.6 × 0.2 / 1.5 = 0.08.
    const [body, ...others] = onePerBody([guess(0.6, 0.2, 1.2), guess(0.9, 0, 1)]);
    expect(others).toEqual([]);
    expect(body?.score).toBe(0.9);
    expect(body?.box.left).toBeCloseTo(0.08, 12);
    expect(body?.middle[0]).toBeCloseTo(0.08, 12);
  });

  test("two that share three tenths of their area or less stay two", () => {
    // 0 to 1 and 0.6 to 1.6 share 0.4 of 1.6: a quarter.
    expect(sharedArea(guess(1, 0, 1).box, guess(1, 0.6, 1.6).box)).toBeCloseTo(0.25, 12);
    expect(onePerBody([guess(0.6, 0.6, 1.6), guess(0.9, 0, 1)]).map(({ score }) => score)).toEqual([0.9, 0.6]);
  });

  test("boxes without area share nothing", () => {
    expect(sharedArea(guess(1, 0, 0).box, guess(1, 0, 0).box)).toBe(0);
  });
});

test("a body found in the middle of a wide picture stands in a square around its hips", () => {
  // The square input spans 1280 px of a 1280 × 720 picture: its middle is (640, 360). Hips there, the circle's top 0.1 of 1280 px above.
  const crop = cropOfBody({ score: 1, box: guess(1, 0, 1).box, middle: [0.5, 0.5], top: [0.5, 0.4] }, wholeCrop({ width: 1280, height: 720 }));
  expect(crop).toMatchObject({ x: 640, y: 360 });
  expect(crop.size).toBeCloseTo(2 * 128 * 1.25, 9);
  expect(crop.turnRad).toBeCloseTo(0, 12);
  expect(DETECTOR_SIDE).toBe(224);
});
