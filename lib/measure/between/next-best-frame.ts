import { strayPx } from "@/lib/measure/between/between-doubt";
import { betweenFrames, type FrameClock } from "@/lib/measure/between/between-frames";
import { framesStillWanted, type PlacedPoints, type WantedFrame, type WantedStretch } from "@/lib/measure/between/frames-still-wanted";
import type { PointId } from "@/lib/measure/points";
import type { ClipTracks } from "@/lib/measure/tracks";

/** The frame whose placing lowers the doubt of the wanted readings most. */
export interface NextBestFrame extends WantedFrame {
  /** How many readings look at a point that would be placed there. */
  readonly readings: number;
  /** Further frames, this one among them, without which some stretch has a hole that cannot be worked out. */
  readonly stillWanted: number;
  /** By how much it lowers the variance of the wanted stretches, as a share of what they have; 0 to 1. */
  readonly lowers: number;
}

/** What a frame that is neither placed nor worked out counts, in variances of a placed point. */
const OPEN = 30;
/** Placed frames to either side that a further one can speak to. */
const NEAR = 4;

/** The doubt of points on frames, for finding where a further placed frame helps. */
export interface BetweenDoubt {
  readonly tracks: ClipTracks;
  readonly contactSeconds: number;
  readonly torsoPx: number;
  /** SD of a placed coordinate, pixels. */
  readonly noisePx: number;
}

/**
 * The next best frame: of those without which a stretch cannot be read, else of all on which a wanted point is worked out, the one that
 * lowers the sum of the stretches' mean variances most, each weighed by its readings. Null when every wanted point is placed.
 */
export function nextBestFrame(stretches: readonly WantedStretch[], points: PlacedPoints, doubt: BetweenDoubt): NextBestFrame | null {
  const clock = clockOf(doubt);
  const plan = framesStillWanted(stretches, points, clock);
  const weights = weightsOf(stretches);
  const candidates = plan.length > 0 ? plan : openFrames(stretches, points);
  let best: { readonly frame: WantedFrame; readonly gain: number } | null = null;
  for (const frame of candidates) {
    const gain = frame.points.reduce((sum, point) => sum + gainOf(point, frame.frame, points.placed(point), weights.get(point) ?? NO_WEIGHTS, clock, doubt), 0);
    if (!best || gain > best.gain + 1e-12) best = { frame, gain };
  }
  if (!best) return null;
  const { frame, gain } = best;
  const total = [...weights].reduce((sum, [point, own]) => sum + varianceOn(point, points.placed(point), own, [...own.keys()], clock, doubt, null), 0);
  const readings = stretches.filter((it) => frame.points.includes(it.point) && it.frames.includes(frame.frame)).reduce((most, it) => Math.max(most, it.readings), 0);
  return { ...frame, readings, stillWanted: plan.length, lowers: total > 0 ? gain / total : 0 };
}

const NO_WEIGHTS: ReadonlyMap<number, number> = new Map();

function clockOf({ tracks, contactSeconds }: BetweenDoubt): FrameClock {
  return { seconds: tracks.seconds, periodSeconds: tracks.periodSeconds, contactSeconds };
}

/** How much each frame of a point counts: its share of every stretch that has it, times the readings. */
function weightsOf(stretches: readonly WantedStretch[]): ReadonlyMap<PointId, ReadonlyMap<number, number>> {
  const all = new Map<PointId, Map<number, number>>();
  for (const { point, frames, readings } of stretches) {
    const own = all.get(point) ?? new Map<number, number>();
    all.set(point, own);
    for (const frame of frames) own.set(frame, (own.get(frame) ?? 0) + readings / frames.length);
  }
  return all;
}

function openFrames(stretches: readonly WantedStretch[], { placed, isUnseen }: PlacedPoints): readonly WantedFrame[] {
  const open = new Map<number, Set<PointId>>();
  for (const { point, frames } of stretches) {
    const known = new Set(placed(point));
    for (const frame of frames) if (!known.has(frame) && !isUnseen(point, frame)) open.set(frame, (open.get(frame) ?? new Set<PointId>()).add(point));
  }
  return [...open].sort(([a], [b]) => a - b).map(([frame, points]) => ({ frame, points: [...points] }));
}

/** By how much one more placed frame lowers the weighed variance of a point; only its neighbourhood is looked at. */
function gainOf(point: PointId, frame: number, placed: readonly number[], weights: ReadonlyMap<number, number>, clock: FrameClock, doubt: BetweenDoubt): number {
  const after = placed.findIndex((own) => own > frame);
  const at = after < 0 ? placed.length : after;
  const near = placed.slice(Math.max(0, at - NEAR), at + NEAR);
  const [from, to] = [placed[at - 3] ?? -Infinity, placed[at + 2] ?? Infinity];
  const frames = [...weights.keys()].filter((own) => own >= from && own <= to);
  const more = [...near.filter((own) => own < frame), frame, ...near.filter((own) => own > frame)];
  return varianceOn(point, near, weights, frames, clock, doubt, null) - varianceOn(point, more, weights, frames, clock, doubt, frame);
}

/** Weighed variance of a point on frames, in variances of a placed one. @param added a frame that is not placed yet, and is thought where the others say */
function varianceOn(point: PointId, placed: readonly number[], weights: ReadonlyMap<number, number>, frames: readonly number[], clock: FrameClock, { tracks, torsoPx, noisePx }: BetweenDoubt, added: number | null): number {
  const track = tracks.byPoint[point];
  const timeOf = (frame: number) => clock.seconds[frame] ?? NaN;
  const valueOf = (axis: "h" | "v") => (frame: number) => (frame === added ? lineThrough(placed.filter((own) => own !== added), frame, timeOf, (own) => track?.[axis][own] ?? NaN) : (track?.[axis][frame] ?? NaN));
  const known = new Set(placed);
  const filled = new Map<number, number>();
  for (const { frame, knots, left, weights: shares } of betweenFrames(placed, clock)) {
    const stray = strayPx(point, { times: knots.map(timeOf), left }, timeOf(frame), torsoPx, (["h", "v"] as const).map((axis) => (knot: number) => valueOf(axis)(knots[knot] ?? 0)));
    filled.set(frame, shares.reduce((sum, share) => sum + share * share, 0) + (stray / noisePx) ** 2);
  }
  return frames.reduce((sum, frame) => sum + (weights.get(frame) ?? 0) * (known.has(frame) ? 1 : Math.min(OPEN, filled.get(frame) ?? OPEN)), 0);
}

/** On the line between the placed frames beside it; beyond the last one where that lies. */
function lineThrough(placed: readonly number[], frame: number, timeOf: (frame: number) => number, valueOf: (frame: number) => number): number {
  const [before, after] = [placed.findLast((own) => own < frame), placed.find((own) => own > frame)];
  if (before === undefined || after === undefined) return valueOf(before ?? after ?? frame);
  const share = (timeOf(frame) - timeOf(before)) / (timeOf(after) - timeOf(before));
  return (1 - share) * valueOf(before) + share * valueOf(after);
}
