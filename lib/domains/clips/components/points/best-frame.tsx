"use client";
import { sayClock } from "../../rules";
import type { Between } from "./use-between";

export interface BestFrameProps {
  readonly between: Between;
  readonly frameIndex: number;
  /** Seconds of a frame as the clock says them. */
  readonly secondsAt: (frameIndex: number) => number;
}

/** Where a further placed frame helps most, what it would do, and how many more there are to place. */
export function BestFrame({ between, frameIndex, secondsAt }: BestFrameProps) {
  const { best, points, left } = between;
  if (!best && points.length === 0) return null;
  const isHere = best?.frame === frameIndex;
  return (
    <section aria-label="Between placed frames">
      {points.length > 0 ? (
        <p className="small"><span className="state between">{points.length === 1 ? "One point is" : `${points.length} points are`} worked out between placed frames</span></p>
      ) : null}
      {left > 0 ? <p className="small" role="status">{left === 1 ? "One point" : `${left} points`} to place on this frame.</p> : null}
      {best && left === 0 ? (
        <>
          <div className="bar-line">
            <button type="button" className="btn" aria-keyshortcuts="N" title="N" onClick={between.onBest}>
              {isHere ? "Place this frame" : `Next best frame: ${sayClock(secondsAt(best.frame))} s`}
            </button>
          </div>
          <p className="note" role="status">{bestWords(best)}</p>
        </>
      ) : null}
    </section>
  );
}

/** What placing the frame would do: "8 points there. 5 more frames, this one among them, and every stretch can be read." */
function bestWords({ points, stillWanted, lowers }: NonNullable<Between["best"]>): string {
  const there = points.length === 1 ? "One point there" : `${points.length} points there`;
  if (stillWanted === 0) {
    const percent = Math.round(100 * lowers);
    return `${there}. Every stretch can be read; this one ${percent < 1 ? "would change little" : `takes ${percent} of 100 parts of their doubt away`}.`;
  }
  if (stillWanted === 1) return `${there}: the last frame that is wanted. Then every stretch can be read.`;
  return `${there}. ${stillWanted} more frames, this one first, and every stretch can be read: the rest is worked out between them.`;
}
