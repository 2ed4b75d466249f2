"use client";
import type { PointId } from "../view";
import type { WaitingRun } from "./waiting-runs";
import { eventNames, pointNames, startSentence } from "./words";

export interface PointRunsProps {
  /** Runs that wait, those with the least work first. */
  readonly runs: readonly WaitingRun[];
  /** The run that is being placed frame by frame. */
  readonly inHand: WaitingRun | null;
  readonly onBegin: (run: WaitingRun) => void;
  readonly onStop: () => void;
}

/** One run in words: "Front knee on 12 more frames between plant and contact". */
export function runWords({ point, open, from, to }: WaitingRun): string {
  const frames = open === 1 ? "one more frame" : `${open} more frames`;
  const where = from === to ? `around ${eventNames[from].toLowerCase()}` : `between ${eventNames[from].toLowerCase()} and ${eventNames[to].toLowerCase()}`;
  return `${startSentence(pointNames[point])} on ${frames} ${where}`;
}

/** Whether two runs ask for the same point over the same stretch. */
export function isSameRun(run: WaitingRun, other: { readonly point: PointId; readonly frames: readonly number[] }): boolean {
  return run.point === other.point && run.frames[0] === other.frames[0] && run.frames.length === other.frames.length;
}

/** What is wanted on every frame of a stretch; nobody is asked for it before choosing to place it. */
export function PointRuns({ runs, inHand, onBegin, onStop }: PointRunsProps) {
  if (inHand)
    return (
      <section aria-label="Frame by frame">
        <p className="small" role="status">{runWords(inHand)}. The next frame comes by itself.</p>
        <div className="bar-line">
          <button type="button" className="btn" onClick={onStop}>Leave it for now</button>
        </div>
      </section>
    );
  if (runs.length === 0) return null;
  return (
    <section aria-label="Frame by frame">
      <details className="fold">
        <summary>More readings want points frame by frame</summary>
        <ul className="rows points">
          {runs.map((run) => (
            <li key={`${run.point} ${run.frames[0]} ${run.frames.length}`} className="run">
              <button type="button" className="btn plain" onClick={() => onBegin(run)}>{runWords(run)}</button>
              <span className="quiet">{run.readings === 1 ? "1 reading" : `${run.readings} readings`}</span>
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
}
