import { pointIds, type EventId, type PointId, type PointView, type UnseenPointView } from "../view";

/** One point that is wanted on every frame of a stretch between two events. */
export interface PointRun {
  readonly point: PointId;
  readonly from: EventId;
  readonly to: EventId;
  readonly frames: readonly number[];
  /** How many of the wanted readings wait for it. */
  readonly readings: number;
}

/** A run of which frames are still open, and the open frame nearest to the one shown. */
export interface WaitingRun extends PointRun {
  readonly open: number;
  readonly nextFrame: number;
}

/** A stretch is read when its point is placed on this share of the frames. */
const runShare = 0.8;

/** Runs that still wait and can be had, those with the least work first. */
export function waitingRuns(
  runs: readonly PointRun[], points: readonly PointView[], unseen: readonly UnseenPointView[], frameIndex: number,
): readonly WaitingRun[] {
  const placedOn = new Set(points.filter((it) => it.source === "coach").map((it) => `${it.frameIndex} ${it.point}`));
  const unseenOn = new Set(unseen.map((it) => `${it.frameIndex} ${it.point}`));
  return runs
    .flatMap((run): WaitingRun[] => {
      const placed = run.frames.filter((frame) => placedOn.has(`${frame} ${run.point}`)).length;
      const open = run.frames.filter((frame) => !placedOn.has(`${frame} ${run.point}`) && !unseenOn.has(`${frame} ${run.point}`));
      const enough = runShare * run.frames.length;
      const [first] = open;
      if (first === undefined || placed >= enough || placed + open.length < enough) return [];
      const nextFrame = open.reduce((best, frame) => (Math.abs(frame - frameIndex) < Math.abs(best - frameIndex) ? frame : best), first);
      return [{ ...run, open: open.length, nextFrame }];
    })
    .sort((a, b) => a.open - b.open || b.readings - a.readings || pointIds.indexOf(a.point) - pointIds.indexOf(b.point));
}
