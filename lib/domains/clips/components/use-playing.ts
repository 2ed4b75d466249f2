import { useEffect, useRef, type Dispatch } from "react";
import { frameAtTick } from "@/lib/core/frame-times";
import { tickAtClockSeconds, clockSecondsOf } from "../rules";
import type { ClipView } from "../view";
import type { FrameSource } from "./frame-source";
import type { ViewerAction, ViewerState } from "./viewer-state";

/**
 * Plays by the clip's own frame times at a part of real time. A frame that is not ready holds the clock, so that a slow
 * device plays slower and never skips what it was asked to show.
 */
export function usePlaying(state: ViewerState, dispatch: Dispatch<ViewerAction>, source: FrameSource | null, clip: ClipView): void {
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
    const turn = (nowMs: number) => {
      const passed = before === null ? 0 : Math.min(0.1, (nowMs - before) / 1000);
      before = nowMs;
      const wished = seconds + passed * rate;
      const target = frameAtTick(clip.frameTimes, tickAtClockSeconds(clip, wished, null) + 1e-6);
      if (target === frame || source.draw(target, () => undefined)) {
        seconds = wished;
        if (target !== frame) dispatch({ kind: "show", frameIndex: target });
        frame = target;
      } else source.want(target, 1);
      if (frame >= last) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    if (frame !== frameRef.current) dispatch({ kind: "show", frameIndex: frame });
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, source, clip, dispatch]);
}
