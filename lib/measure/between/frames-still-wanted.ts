import { isOneCurve, type FrameClock } from "@/lib/measure/between/between-frames";
import type { PointId } from "@/lib/measure/points";

/** A point that is wanted on every frame of a stretch, placed or worked out between placed frames. */
export interface WantedStretch {
  readonly point: PointId;
  /** In order. */
  readonly frames: readonly number[];
  /** How many readings look at it. */
  readonly readings: number;
}

/** Where points are placed, and where a person said that one cannot be seen. */
export interface PlacedPoints {
  /** Frames on which each point is placed, in order. */
  readonly placed: (point: PointId) => readonly number[];
  readonly isUnseen: (point: PointId, frame: number) => boolean;
}

/** A frame on which points would have to be placed. */
export interface WantedFrame {
  readonly frame: number;
  readonly points: readonly PointId[];
}

/**
 * The fewest further frames with which no stretch has a hole that cannot be worked out: in order of time, each as late as the largest
 * hole allows, with every point that is wanted there. Never relies on a frame across contact.
 */
export function framesStillWanted(stretches: readonly WantedStretch[], points: PlacedPoints, clock: FrameClock): readonly WantedFrame[] {
  const wanted = new Map<PointId, Set<number>>();
  for (const { point, frames } of stretches) {
    const own = wanted.get(point) ?? new Set<number>();
    wanted.set(point, own);
    for (const frame of frames) own.add(frame);
  }
  const isJoined = (from: number | undefined, to: number | undefined) => isOneCurve(from, to, clock);
  const rows = [...wanted].map(([point, own]) => ({ point, own, order: [...own].sort((a, b) => a - b), placed: new Set(points.placed(point)), known: [...points.placed(point)], last: undefined as number | undefined }));
  const frames = [...new Set(rows.flatMap(({ order }) => order))].sort((a, b) => a - b);
  const plan: WantedFrame[] = [];
  for (const frame of frames) {
    const open = rows.filter(({ own, placed, point }) => own.has(frame) && !placed.has(frame) && !points.isUnseen(point, frame));
    const cannotWait = open.some((row) => {
      const before = lastUpTo(row.known, frame, row.last);
      if (isJoined(before, row.known.find((known) => known > frame))) return false;
      const next = row.order.find((later) => later > frame && !points.isUnseen(row.point, later));
      return !isJoined(before, frame) || next === undefined || !isJoined(before, next);
    });
    if (!cannotWait) continue;
    for (const row of open) row.last = frame;
    plan.push({ frame, points: open.map(({ point }) => point) });
  }
  return plan;
}

/** The last known frame before one: placed, or planned already. */
function lastUpTo(known: readonly number[], frame: number, planned: number | undefined): number | undefined {
  const placed = known.findLast((own) => own < frame);
  return placed === undefined ? planned : planned === undefined ? placed : Math.max(placed, planned);
}
