import { batCourse, FOLLOWED_POINTS, type BatEnds, type ExpectedBat, type FollowedPoint } from "@/lib/measure/following/bat-course";
import { followPass, type PassStep } from "@/lib/measure/following/follow-pass";
import type { PicturePlace } from "@/lib/measure/following/grey-picture";
import type { PatchShape } from "@/lib/measure/following/patch";
import type { Pyramid } from "@/lib/measure/following/pyramid";

/** A place of the bat between two placed frames, followed from both through the pictures. */
export interface FollowedPlace extends PicturePlace {
  readonly point: FollowedPoint;
  readonly frame: number;
  /** SD of one coordinate in pixels, that of the placed frames within it; and what of it is its own, beside their noise by how near they lie. */
  readonly sdPx: number;
  readonly ownSdPx: number;
}

/** Levels of a pyramid that a search wants. */
export const PYRAMID_LEVELS = 3;
/** More frames than this from one placed frame to the next are not followed over. */
export const MOST_FRAMES_APART = 24;
/** Half a patch's side: as much of the torso's length, in whole pixels within these. The barrel is about as wide as its whole side. */
const RADIUS = { perTorso: 0.065, least: 5, most: 14 } as const;
/** How many radii the patch of the tip lies inward of it: beyond the tip is the background. */
const TIP_INWARD_RADII = 0.45;
/** The two passes must meet as near as placing alone parts them in 99 of 100: 99 % of two coordinates (chi-squared with 2 degrees of freedom, 9.21), and the SD of a difference. */
const MEETS_WITHIN_SDS = Math.sqrt(9.21) * Math.SQRT2;
/** How much more the searches drift than is left of the patch. Measured on drawn swings (tests/bench/following.ts). */
const DRIFT_FACTOR = 2.7;

/** Two placed frames and what is known around them. */
export interface FollowedHole {
  readonly from: number;
  readonly to: number;
  /** The ends of the bat on placed frames, by frame; those of `from` and `to` among them. Pixels of the pictures that are searched. */
  readonly placed: ReadonlyMap<number, BatEnds>;
  /** SD in pixels of one coordinate of a placed point, and about how long the torso is. */
  readonly placedSdPx: number;
  readonly torsoPx: number;
  /** Times of the clip's frames. */
  readonly seconds: ArrayLike<number>;
}

/** The frames that belong to a hole, both placed ones included. */
export function framesOf({ from, to }: Pick<FollowedHole, "from" | "to">): readonly number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/**
 * The part of a frame's picture that a search may look at: around where the ends are expected, whole pixels.
 * @param aroundPx how far around
 */
export function lookedAt({ ends }: ExpectedBat, size: { readonly widthPx: number; readonly heightPx: number }, aroundPx: number): { readonly leftPx: number; readonly topPx: number; readonly widthPx: number; readonly heightPx: number } {
  const places = Object.values(ends);
  const span = (values: readonly number[], most: number) => [Math.max(0, Math.floor(Math.min(...values) - aroundPx)), Math.min(most, Math.ceil(Math.max(...values) + aroundPx))] as const;
  const [left, right] = span(places.map(({ x }) => x), size.widthPx);
  const [top, bottom] = span(places.map(({ y }) => y), size.heightPx);
  return { leftPx: left, topPx: top, widthPx: Math.max(0, right - left), heightPx: Math.max(0, bottom - top) };
}

/**
 * Follows the ends of the bat over the frames between two placed ones: from either of them through the pictures toward the other. What is
 * reached holds only when the two passes meet, for a patch that stays behind on something still looks as sound as a good one; where both have been
 * the nearer placed frame counts more.
 * @param pyramidOn the pictures, null where one is not to be had
 */
export function followBat(hole: FollowedHole, pyramidOn: (frame: number) => Pyramid | null): readonly FollowedPlace[] {
  const steps = followBatInSteps(hole, pyramidOn);
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
}

/** The same, one search after the other, for who has other things to do between them. */
export function* followBatInSteps(hole: FollowedHole, pyramidOn: (frame: number) => Pyramid | null): Generator<PassStep, readonly FollowedPlace[]> {
  const { from, to, placed, seconds } = hole;
  if (to - from < 2 || to - from > MOST_FRAMES_APART) return [];
  const expected = batCourse(seconds, placed, from, to);
  const frames = framesOf(hole);
  const found: FollowedPlace[] = [];
  for (const point of FOLLOWED_POINTS) {
    const [start, end] = [placed.get(from)?.[point], placed.get(to)?.[point]];
    if (!start || !end) continue;
    const shape = shapeOf(point, hole.torsoPx);
    const ahead: PassStep[] = [{ ...start, frame: from, driftPx: 0 }];
    const back: PassStep[] = [{ ...end, frame: to, driftPx: 0 }];
    for (const step of followPass(point, frames, pyramidOn, expected, start, shape)) {
      ahead.push(step);
      yield step;
    }
    for (const step of followPass(point, frames.toReversed(), pyramidOn, expected, end, shape)) {
      back.push(step);
      yield step;
    }
    for (const place of met(ahead, back, hole)) if (place.frame > from && place.frame < to) found.push({ point, ...place });
  }
  return found;
}

function shapeOf(point: FollowedPoint, torsoPx: number): PatchShape {
  const radius = Math.max(RADIUS.least, Math.min(RADIUS.most, Math.round(RADIUS.perTorso * torsoPx)));
  return { radius, ahead: point === "tip" ? -Math.round(TIP_INWARD_RADII * radius) : 0 };
}

/** The places of two passes that meet on every frame that both have reached; none when they do not, or reach none together. */
function met(ahead: readonly PassStep[], back: readonly PassStep[], { from, to, seconds, placedSdPx }: FollowedHole): readonly Omit<FollowedPlace, "point">[] {
  const [aheadOn, backOn] = [new Map(ahead.map((it) => [it.frame, it])), new Map(back.map((it) => [it.frame, it]))];
  const partings = ahead.flatMap((one) => {
    const other = backOn.get(one.frame);
    return other ? [Math.hypot(one.x - other.x, one.y - other.y)] : [];
  });
  if (partings.length === 0 || partings.some((apart) => !(apart <= MEETS_WITHIN_SDS * placedSdPx))) return [];
  const timeOf = (frame: number) => seconds[frame] ?? NaN;
  return framesOf({ from, to }).flatMap((frame) => {
    const [one, other] = [aheadOn.get(frame), backOn.get(frame)];
    const [a, b] = [one ?? other, other ?? one];
    if (!a || !b) return [];
    const share = (timeOf(frame) - timeOf(from)) / (timeOf(to) - timeOf(from));
    const weight = one && other ? share : one ? 0 : 1;
    const sdPx = Math.hypot(...[placedSdPx, DRIFT_FACTOR * a.driftPx].map((sd) => (1 - weight) * sd), ...[placedSdPx, DRIFT_FACTOR * b.driftPx].map((sd) => weight * sd));
    const ownSdPx = Math.sqrt(Math.max(0, sdPx ** 2 - placedSdPx ** 2 * ((1 - share) ** 2 + share ** 2)));
    return [{ frame, x: (1 - weight) * a.x + weight * b.x, y: (1 - weight) * a.y + weight * b.y, sdPx, ownSdPx }];
  });
}
