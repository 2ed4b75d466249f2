import { useEffect, useRef, useState, type Dispatch } from "react";
import { frameAtTick } from "@/lib/core/frame-times";
import { clockSecondsOf, tickAtClockSeconds } from "../rules";
import type { ClipView } from "../view";
import type { FrameSource } from "./frame-source-type";
import { judgeSeconds, longestTurnSeconds, slowPart } from "./playing-pace";
import type { ViewerAction, ViewerState } from "./viewer-state";

/** The clock runs no further than this ahead of the picture: a device that cannot keep up plays slower. */
const mostLagSeconds = 0.15;

/**
 * Plays by the clip's own frame times at a part of real time, showing the latest frame that is ready; the time shown is
 * always that of the frame shown. True is given back once playing has fallen behind what was asked.
 */
export function usePlaying(state: ViewerState, dispatch: Dispatch<ViewerAction>, source: FrameSource | null, clip: ClipView): boolean {
  const [isSlow, setIsSlow] = useState(false);
  const frameRef = useRef(state.frameIndex);
  useEffect(() => {
    frameRef.current = state.frameIndex;
  }, [state.frameIndex]);
  const { isPlaying, rate } = state;

  useEffect(() => {
    if (!isPlaying || !source) return;
    const last = source.frameCount - 1;
    let frame = frameRef.current >= last ? 0 : frameRef.current;
    let seconds = clockSecondsOf(clip, frame, null);
    let before: number | null = null;
    let request = 0;
    let asked = 0;
    const begun = seconds;
    const turn = (nowMs: number) => {
      const passed = before === null ? 0 : Math.min(longestTurnSeconds, (nowMs - before) / 1000);
      before = nowMs;
      asked += passed * rate;
      const shown = clockSecondsOf(clip, frame, null);
      const nextShown = clockSecondsOf(clip, Math.min(last, frame + 1), null);
      seconds = Math.min(seconds + passed * rate, Math.max(shown + mostLagSeconds * rate, nextShown));
      const target = frameAtTick(clip.frameTimes, tickAtClockSeconds(clip, seconds, null) + 1e-6);
      source.want(target, 1);
      const ready = latestReady(source, frame, target);
      if (ready !== frame) dispatch({ kind: "show", frameIndex: ready });
      frame = ready;
      if (asked > judgeSeconds * rate) setIsSlow(seconds - begun < asked * slowPart);
      if (frame >= last) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    if (frame !== frameRef.current) dispatch({ kind: "show", frameIndex: frame });
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, source, clip, dispatch]);
  return isSlow;
}

/** The latest frame after `shown` and up to `target` whose picture is ready; `shown` when there is none. */
function latestReady(source: FrameSource, shown: number, target: number): number {
  for (let frame = target; frame > shown; frame -= 1) if (source.draw(frame, () => undefined)) return frame;
  return shown;
}
