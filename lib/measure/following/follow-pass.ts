import type { ExpectedBat, FollowedPoint } from "@/lib/measure/following/bat-course";
import type { PicturePlace } from "@/lib/measure/following/grey-picture";
import { findPatch, type PatchFound } from "@/lib/measure/following/lucas-kanade";
import { patchAround, type Patch, type PatchShape } from "@/lib/measure/following/patch";
import type { Pyramid } from "@/lib/measure/following/pyramid";

/** A place reached from one placed frame. */
export interface PassStep extends PicturePlace {
  readonly frame: number;
  /** What the searches so far may have drifted, as an SD in pixels of one coordinate. */
  readonly driftPx: number;
}

/** Followed one frame on and back again it must come out this near to where it was, pixels. Source of the test: Z. Kalal, K. Mikolajczyk and J. Matas, Forward-backward error (ICPR 2010), where the better half is kept; the number is ours. */
const MOST_GAP_PX = 1;
/** From one frame to the next no more than this may be left of the patch, grey values. */
const MOST_RESIDUAL = 18;
/** The patch of the placed frame corrects the drift while it fits so well and lies so near. */
const FIRST_PATCH = { residual: 15, awayPx: 2 } as const;

interface Reached {
  readonly frame: number;
  readonly place: PicturePlace;
  readonly pyramid: Pyramid;
  readonly patch: Patch;
}

/**
 * Follows one point from a placed frame from frame to frame, and stops where it no longer holds: the patch is flat, leaves the picture, is
 * not found, is not found back, or looks unlike. From the frame before, then from the placed frame itself while that still looks alike, so that small
 * errors do not add up (the template update problem; I. Matthews, T. Ishikawa and S. Baker, 2004).
 * @param frames the placed one, then those to follow over, in order @param anchor where it is placed
 */
export function* followPass(point: FollowedPoint, frames: readonly number[], pyramidOn: (frame: number) => Pyramid | null, expected: (frame: number) => ExpectedBat, anchor: PicturePlace, shape: PatchShape): Generator<PassStep, void> {
  const [placed = -1, ...others] = frames;
  const start = pyramidOn(placed);
  if (!start) return;
  const first = patchAround(start, anchor, expected(placed).turnRad, shape);
  let before: Reached = { frame: placed, place: anchor, pyramid: start, patch: first };
  let earlier: Reached | null = null;
  let driftPx = 0;
  for (const frame of others) {
    const pyramid = pyramidOn(frame);
    if (!pyramid) return;
    const step: Step | null = bestStep(guesses(point, frame, before, earlier, expected), before, { pyramid, first, shape, turnRad: expected(frame).turnRad, turnBeforeRad: expected(before.frame).turnRad });
    if (!step) return;
    driftPx = step.isFirst ? Math.max(driftPx, step.found.sdPx) : driftPx + step.found.sdPx;
    yield { frame, x: step.found.x, y: step.found.y, driftPx };
    earlier = before;
    before = { frame, place: step.found, pyramid, patch: step.patch };
  }
}

/** Where the search may begin: where the course expects it, carried along by what it lay beside that on the frame before, and straight on. */
function guesses(point: FollowedPoint, frame: number, before: Reached, earlier: Reached | null, expected: (frame: number) => ExpectedBat): readonly PicturePlace[] {
  const [now, then] = [expected(frame), expected(before.frame)];
  const [here, there] = [now.ends[point], then.ends[point]];
  if (!here || !there) return [];
  const [cos, sin] = [Math.cos(now.turnRad - then.turnRad), Math.sin(now.turnRad - then.turnRad)];
  const [offX, offY] = [before.place.x - there.x, before.place.y - there.y];
  const byCourse = { x: here.x + offX * cos - offY * sin, y: here.y + offX * sin + offY * cos };
  if (!earlier) return [byCourse];
  return [byCourse, { x: 2 * before.place.x - earlier.place.x, y: 2 * before.place.y - earlier.place.y }];
}

interface Step {
  readonly found: PatchFound;
  readonly patch: Patch;
  /** The patch of the placed frame said the last word. */
  readonly isFirst: boolean;
}

interface Search {
  readonly pyramid: Pyramid;
  readonly first: Patch;
  readonly shape: PatchShape;
  readonly turnRad: number;
  readonly turnBeforeRad: number;
}

/** Of the searches that hold the one that leaves least; null when none holds. */
function bestStep(starts: readonly PicturePlace[], before: Reached, { pyramid, first, shape, turnRad, turnBeforeRad }: Search): Step | null {
  let best: PatchFound | null = null;
  for (const start of starts) {
    const found = findPatch(before.patch, shape, pyramid, start, turnRad);
    if (typeof found !== "string" && found.residual <= MOST_RESIDUAL && (!best || found.residual < best.residual)) best = found;
  }
  if (!best) return null;
  const byFirst = findPatch(first, shape, pyramid, best, turnRad);
  const isFirst = typeof byFirst !== "string" && byFirst.residual <= FIRST_PATCH.residual && apart(byFirst, best) <= FIRST_PATCH.awayPx;
  const found = isFirst ? byFirst : best;
  const patch = patchAround(pyramid, found, turnRad, shape);
  const back = findPatch(patch, shape, before.pyramid, before.place, turnBeforeRad);
  return typeof back !== "string" && apart(back, before.place) <= MOST_GAP_PX ? { found, patch, isFirst } : null;
}

const apart = (a: PicturePlace, b: PicturePlace): number => Math.hypot(a.x - b.x, a.y - b.y);
