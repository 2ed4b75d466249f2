import { splineWeights } from "@/lib/measure/between/spline-weights";
import type { PicturePlace } from "@/lib/measure/following/grey-picture";

/** The points that are followed: the two ends of the bat. */
export const FOLLOWED_POINTS = ["knob", "tip"] as const;
export type FollowedPoint = (typeof FOLLOWED_POINTS)[number];

/** Where the ends of the bat stand on one frame, as far as they are placed. Pixels of the picture. */
export type BatEnds = Readonly<Partial<Record<FollowedPoint, PicturePlace>>>;

/** Where the ends are expected on a frame, and how the bat lies there: radians from x toward y, knob to tip; 0 when it is not known. */
export interface ExpectedBat {
  readonly ends: BatEnds;
  readonly turnRad: number;
}

/** A placed frame beside the hole speaks for the curve when it is no further from it than the hole is long. */
const BESIDE_PER_HOLE = 1;

/**
 * The course of the bat between two placed frames, from them and the nearest placed frame on either side. Where both ends are placed it is
 * told as knob, direction and length, each along a smooth curve, since a bat swings around and does not bend: a curve through the tip's
 * own places would cut its arc short. Else each end goes along a curve of its own.
 * @param seconds times of frames @param placed the ends on placed frames, by frame; those of the hole's two ends among them
 */
export function batCourse(seconds: ArrayLike<number>, placed: ReadonlyMap<number, BatEnds>, from: number, to: number): (frame: number) => ExpectedBat {
  const timeOf = (frame: number) => seconds[frame] ?? NaN;
  const span = timeOf(to) - timeOf(from);
  const knotsWith = (points: readonly FollowedPoint[]) => {
    const has = (frame: number) => points.every((point) => placed.get(frame)?.[point]);
    if (!has(from) || !has(to)) return null;
    const all = [...placed.keys()].filter(has).sort((a, b) => a - b);
    const before = all.findLast((frame) => frame < from && timeOf(from) - timeOf(frame) <= BESIDE_PER_HOLE * span);
    const after = all.find((frame) => frame > to && timeOf(frame) - timeOf(to) <= BESIDE_PER_HOLE * span);
    const knots = [...(before === undefined ? [] : [before]), from, to, ...(after === undefined ? [] : [after])];
    return { knots, left: before === undefined ? 0 : 1 };
  };
  const along = ({ knots, left }: { readonly knots: readonly number[]; readonly left: number }, values: readonly number[], frame: number) =>
    splineWeights(knots.map(timeOf), left, timeOf(frame)).reduce((sum, weight, i) => sum + weight * (values[i] ?? NaN), 0);

  const both = knotsWith(FOLLOWED_POINTS);
  if (both) {
    const ends = both.knots.map((frame) => placed.get(frame) as Readonly<Record<FollowedPoint, PicturePlace>>);
    const turns = unwrapped(ends.map(({ knob, tip }) => Math.atan2(tip.y - knob.y, tip.x - knob.x)));
    const lengths = ends.map(({ knob, tip }) => Math.hypot(tip.x - knob.x, tip.y - knob.y));
    return (frame) => {
      const knob = { x: along(both, ends.map((it) => it.knob.x), frame), y: along(both, ends.map((it) => it.knob.y), frame) };
      const turnRad = along(both, turns, frame);
      const length = along(both, lengths, frame);
      return { ends: { knob, tip: { x: knob.x + length * Math.cos(turnRad), y: knob.y + length * Math.sin(turnRad) } }, turnRad };
    };
  }
  const alone = FOLLOWED_POINTS.flatMap((point) => {
    const own = knotsWith([point]);
    return own ? [{ point, own, places: own.knots.map((frame) => placed.get(frame)?.[point] ?? NOWHERE) }] : [];
  });
  return (frame) => ({
    ends: Object.fromEntries(alone.map(({ point, own, places }) => [point, { x: along(own, places.map(({ x }) => x), frame), y: along(own, places.map(({ y }) => y), frame) }])),
    turnRad: 0,
  });
}

const NOWHERE: PicturePlace = { x: NaN, y: NaN };

/** Each direction by the shorter way from the one before it. */
function unwrapped(turns: readonly number[]): readonly number[] {
  const all: number[] = [];
  for (const turn of turns) {
    const before = all.at(-1) ?? turn;
    all.push(turn - 2 * Math.PI * Math.round((turn - before) / (2 * Math.PI)));
  }
  return all;
}
