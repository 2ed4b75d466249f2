import { useEffect, useRef, useState, type Dispatch } from "react";
import { frameAtTick } from "@/lib/core/frame-times";
import { tickAtClockSeconds, clockSecondsOf } from "../rules";
import type { ClipView } from "../view";
import type { FrameSource } from "./frame-source";
import type { ViewerAction, ViewerState } from "./viewer-state";

/** Pace is judged after so long, and called slow below this part of what was asked. */
const judgeSeconds = 0.4;
const slowPart = 0.85;
/** A page that was put aside goes on where it stood. */
const longestTurnSeconds = 0.1;

/**
 * Plays by the clip's own frame times at a part of real time. A frame that is not ready holds the clock, so that a slow
 * device plays slower and never shows another instant than the clock says. True is given back once it has fallen behind.
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
    let gone = 0;
    const turn = (nowMs: number) => {
      const passed = before === null ? 0 : Math.min(longestTurnSeconds, (nowMs - before) / 1000);
      before = nowMs;
      const wished = seconds + passed * rate;
      asked += passed;
      const target = frameAtTick(clip.frameTimes, tickAtClockSeconds(clip, wished, null) + 1e-6);
      if (target === frame || source.draw(target, () => undefined)) {
        seconds = wished;
        gone += passed;
        if (target !== frame) dispatch({ kind: "show", frameIndex: target });
        frame = target;
      } else source.want(target, 1);
      if (asked > judgeSeconds) setIsSlow(gone < asked * slowPart);
      if (frame >= last) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    if (frame !== frameRef.current) dispatch({ kind: "show", frameIndex: frame });
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, source, clip, dispatch]);
  return isSlow;
}
