import { useEffect, useRef, useState, type Dispatch } from "react";
import { clockOn, judgeSeconds, longestTurnSeconds, slowPart } from "../playing-pace";
import { playReach, playStart, type BesideAction, type BesideState } from "./beside-state";
import { commonSeconds, type LinedClip } from "./lined-clip";
import type { Frames } from "./showing";

/** The clock runs no further than this, in real time, ahead of the pictures: a device that cannot keep up plays slower. */
const mostLagSeconds = 0.2;

/** Plays the clips that move together by the common clock, or the clip in hand by its own. True once it has fallen behind. */
export function useBesidePlaying(clips: readonly LinedClip[], state: BesideState, dispatch: Dispatch<BesideAction>, shown: Frames): boolean {
  const [isSlow, setIsSlow] = useState(false);
  const nowRef = useRef({ clips, state, shown });
  useEffect(() => {
    nowRef.current = { clips, state, shown };
  });
  const { isPlaying, rate, inHand, isLocked, isStretched } = state;

  useEffect(() => {
    if (!isPlaying) return;
    const { clips: open, state: begun } = nowRef.current;
    const reach = playReach(open, begun);
    if (!reach) return dispatch({ kind: "play", isPlaying: false });
    const from = playStart(open, begun, reach);
    let seconds = from;
    let asked = 0;
    let before: number | null = null;
    let request = 0;
    const turn = (nowMs: number) => {
      const passed = before === null ? 0 : Math.min(longestTurnSeconds, (nowMs - before) / 1000);
      before = nowMs;
      asked += passed * rate;
      // A film that has ended stands still; the slowest that runs says how far the pictures are.
      const pictures = open.flatMap((it) => {
        const frame = nowRef.current.shown[it.id];
        return frame === undefined || frame >= it.frameCount - 1 || frame === 0 || it.notLined ? [] : [commonSeconds(it, frame)];
      });
      const furthest = pictures.length > 0 ? Math.min(...pictures) + mostLagSeconds * rate + 1 / 30 : Infinity;
      seconds = clockOn(seconds, passed, rate, furthest);
      dispatch({ kind: "show-at", seconds });
      if (asked > judgeSeconds * rate) setIsSlow(seconds - from < asked * slowPart);
      if (seconds >= reach[1]) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, inHand, isLocked, isStretched, dispatch]);
  return isSlow;
}
