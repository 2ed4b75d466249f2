import { useMemo, useState } from "react";
import type { NextBestFrame } from "@/lib/measure/between/next-best-frame";
import type { ViewerCommand } from "../../rules";
import type { ClipView, PointId } from "../../view";
import type { Kept } from "../kept";
import type { PointRun } from "../waiting-runs";
import { betweenView, waitingOn, type BetweenPoint, type FrameInHand } from "./between-view";

/** What the view does with the frames between placed ones. */
export interface Between {
  /** The points worked out on the frame shown. */
  readonly points: readonly BetweenPoint[];
  readonly best: NextBestFrame | null;
  /** The runs that still have a hole that cannot be worked out. */
  readonly openRuns: readonly PointRun[];
  /** The point that is asked for on the frame shown, after going to the next best frame; null when all of it is placed. */
  readonly due: PointId | null;
  /** How many points wait on the frame in hand. */
  readonly left: number;
  /** Goes to the next best frame and asks for its points. */
  readonly onBest: () => void;
  readonly onStop: () => void;
  /** Does what a key asks; false when it asks for something else. */
  readonly obey: (command: ViewerCommand) => boolean;
}


export function useBetween(clip: ClipView, kept: Kept, runs: readonly PointRun[], frameIndex: number, onGo: (frameIndex: number) => void): Between {
  const { canMeasure } = clip.abilities;
  const { unseenPoints, events } = kept;
  // A suggestion is no placed frame: it ends no hole, and its own frame may still be the best to place.
  const points = useMemo(() => kept.points.filter(({ source }) => source === "coach"), [kept.points]);
  const view = useMemo(() => betweenView(clip, points, unseenPoints, events, canMeasure ? runs : []), [clip, points, unseenPoints, events, runs, canMeasure]);
  const [inHand, setInHand] = useState<FrameInHand | null>(null);
  const waiting = waitingOn(inHand, kept, frameIndex);
  const { best } = view;
  const onBest = () => {
    if (!best) return;
    setInHand({ frame: best.frame, points: best.points });
    onGo(best.frame);
  };
  return {
    points: view.on(frameIndex), best, openRuns: view.openRuns, due: waiting[0] ?? null, left: waiting.length, onBest, onStop: () => setInHand(null),
    obey: (command) => {
      if (command.kind !== "go-best") return false;
      onBest();
      return true;
    },
  };
}
