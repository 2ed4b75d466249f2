import { ANCHORS, DETECTOR_SIDE } from "./anchors";
import { bodyCrop, placeInPicture, type Crop } from "./crop";

/** Numbers of one guess: middle and size of the box, then four alignment points. */
const NUMBERS = 12;
const LEAST_SCORE = 0.5;
/** Boxes that share more of their area than this show the same body. */
const SAME_BODY = 0.3;
/** Raw scores are kept within this before they are squashed. */
const SCORE_LIMIT = 100;

/** A body that the detector found, in parts of its input (0 to 1). */
export interface DetectedBody {
  readonly score: number;
  readonly box: Box;
  /** Middle of the hips and the point above it on the circle around the body. */
  readonly middle: readonly [number, number];
  readonly top: readonly [number, number];
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The logistic function. */
export function squash(raw: number): number {
  return 1 / (1 + Math.exp(-Math.max(-SCORE_LIMIT, Math.min(SCORE_LIMIT, raw))));
}

/**
 * Reads the detector's two outputs: for every anchor a raw score, and twelve numbers in pixels of its input counted from the anchor.
 * @returns the bodies, the surest first, each once
 */
export function detectedBodies(scores: ArrayLike<number>, numbers: ArrayLike<number>): readonly DetectedBody[] {
  const guesses: DetectedBody[] = [];
  for (const [i, [anchorX, anchorY]] of ANCHORS.entries()) {
    const score = squash(scores[i] ?? -Infinity);
    if (score < LEAST_SCORE) continue;
    const at = (k: number) => (numbers[i * NUMBERS + k] ?? NaN) / DETECTOR_SIDE;
    const [x, y, width, height] = [at(0) + anchorX, at(1) + anchorY, at(2), at(3)];
    guesses.push({
      score,
      box: { left: x - width / 2, top: y - height / 2, right: x + width / 2, bottom: y + height / 2 },
      middle: [at(4) + anchorX, at(5) + anchorY],
      top: [at(6) + anchorX, at(7) + anchorY],
    });
  }
  return onePerBody(guesses);
}

/**
 * Non-maximum suppression, the weighted kind: guesses whose boxes overlap become one, the mean of all by their scores; it keeps the best score.
 */
export function onePerBody(guesses: readonly DetectedBody[]): readonly DetectedBody[] {
  let left = [...guesses].sort((a, b) => b.score - a.score);
  const bodies: DetectedBody[] = [];
  for (let best = left[0]; best; best = left[0]) {
    const first = best;
    const same = left.filter((it) => it === first || sharedArea(it.box, first.box) > SAME_BODY);
    left = left.filter((it) => !same.includes(it));
    const total = same.reduce((sum, { score }) => sum + score, 0);
    const mean = (of: (guess: DetectedBody) => number) => same.reduce((sum, guess) => sum + guess.score * of(guess), 0) / total;
    bodies.push({
      score: first.score,
      box: { left: mean(({ box }) => box.left), top: mean(({ box }) => box.top), right: mean(({ box }) => box.right), bottom: mean(({ box }) => box.bottom) },
      middle: [mean(({ middle }) => middle[0]), mean(({ middle }) => middle[1])],
      top: [mean(({ top }) => top[0]), mean(({ top }) => top[1])],
    });
  }
  return bodies;
}

/** Area of what two boxes share over the area of both together. */
export function sharedArea(a: Box, b: Box): number {
  const area = ({ left, top, right, bottom }: Box) => Math.max(0, right - left) * Math.max(0, bottom - top);
  const shared = area({ left: Math.max(a.left, b.left), top: Math.max(a.top, b.top), right: Math.min(a.right, b.right), bottom: Math.min(a.bottom, b.bottom) });
  const both = area(a) + area(b) - shared;
  return both > 0 ? shared / both : 0;
}

/** The square of the picture in which a found body stands upright. @param whole the crop that the detector was shown */
export function cropOfBody({ middle, top }: DetectedBody, whole: Crop): Crop {
  return bodyCrop(placeInPicture(whole, ...middle), placeInPicture(whole, ...top));
}
