"use client";
import { sayClock } from "../../rules";
import type { Following } from "./use-following";

export interface FollowBatProps {
  readonly following: Following;
  /** Seconds of a frame as the clock says them. */
  readonly secondsAt: (frameIndex: number) => number;
}

/** The bat followed through the pictures between two frames on which it is placed: asked for, shown, and taken in one step. */
export function FollowBat({ following, secondsAt }: FollowBatProps) {
  const { state, stretch, held, onFollow, onTake, onStop } = following;
  if (state === "none" || !stretch) return null;
  const where = `from ${sayClock(secondsAt(stretch.from))} to ${sayClock(secondsAt(stretch.to))} s`;
  return (
    <section aria-label="Follow the bat">
      <div className="bar-line">
        {state === "ready" ? <button type="button" className="btn" aria-keyshortcuts="K" title="K" onClick={onFollow}>Follow the bat {where}</button> : null}
        {state === "found" && held > 0 ? <button type="button" className="btn" aria-keyshortcuts="K" title="K" onClick={onTake}>{held === 1 ? "Take one place" : `Take ${held} places`}</button> : null}
        {state === "working" || state === "found" ? <button type="button" className="btn plain" aria-keyshortcuts="Escape" title="Escape" onClick={onStop}>{state === "working" ? "Stop" : held > 0 ? "Leave them" : "All right"}</button> : null}
      </div>
      <p className={state === "ready" ? "hush" : "note"} role="status">{saidOf(following, where)}</p>
    </section>
  );
}

/** What was found, and how sure it is: "Followed on 18 of 22 places from … to … s. Each lies within 4 pixels of where it is shown, in 95 of 100." */
function saidOf({ state, held, open, worstSdPx }: Following, where: string): string {
  if (state === "ready" || state === "none") return "";
  if (state === "working") return `Following the bat ${where}…`;
  if (held === 0) return `The bat cannot be followed ${where}: it is hidden, blurred, or too quick for the pictures. Place a frame between.`;
  const reach = Math.max(1, Math.round(1.96 * worstSdPx));
  const most = held === 1 ? "It lies" : "Each lies";
  return `Followed to ${held} of ${open} places ${where}; look at them before you take them. ${most} within ${reach} pixels across and down, in 95 of 100.`;
}
