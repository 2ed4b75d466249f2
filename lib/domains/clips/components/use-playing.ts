import { useEffect, useRef, useState, type Dispatch } from "react";
import type { ClipView } from "../view";
import type { FrameSource } from "./frame-source-type";
import { beginPlaying, playTurn } from "./play-turn";
import type { ViewerAction, ViewerState } from "./viewer-state";

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
    let now = beginPlaying({ clip, source }, frameRef.current);
    let before: number | null = null;
    let request = 0;
    const turn = (nowMs: number) => {
      const { frame } = now;
      now = playTurn(now, { clip, source, rate }, before === null ? 0 : (nowMs - before) / 1000);
      before = nowMs;
      if (now.frame !== frame) dispatch({ kind: "show", frameIndex: now.frame });
      if (now.isSlow !== null) setIsSlow(now.isSlow);
      if (now.frame >= source.frameCount - 1) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    if (now.frame !== frameRef.current) dispatch({ kind: "show", frameIndex: now.frame });
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, source, clip, dispatch]);
  return isSlow;
}
