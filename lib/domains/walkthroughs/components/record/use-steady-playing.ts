import { useEffect, useRef, type Dispatch } from "react";
import { playedClips, playReach, playStart, type BesideAction, type BesideState } from "@/lib/domains/clips/components/beside/beside-state";
import type { LinedClip } from "@/lib/domains/clips/components/beside/lined-clip";

/** From when on what runs, and how. */
export interface Begun {
  readonly steadyMs: number;
  readonly rate: number;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly clipIds: readonly string[];
}

/**
 * Plays by the law by which it is replayed: seconds of the clips follow from the steady clock alone, and a device that cannot keep up
 * drops pictures rather than falling behind.
 */
export function useSteadyPlaying(clips: readonly LinedClip[], state: BesideState, dispatch: Dispatch<BesideAction>, onBegun: (begun: Begun) => void): void {
  const nowRef = useRef({ clips, state, onBegun });
  useEffect(() => {
    nowRef.current = { clips, state, onBegun };
  });
  const { isPlaying, rate, inHand, isLocked } = state;
  useEffect(() => {
    if (!isPlaying) return;
    const { clips: open, state: begun } = nowRef.current;
    const reach = playReach(open, begun);
    if (!reach) return dispatch({ kind: "play", isPlaying: false });
    const from = playStart(open, begun, reach);
    const steadyMs = performance.now();
    nowRef.current.onBegun({ steadyMs, rate, fromSeconds: from, toSeconds: reach[1], clipIds: playedClips(open, begun).map(({ id }) => id) });
    let request = 0;
    const turn = () => {
      const seconds = Math.min(reach[1], from + (Math.max(0, performance.now() - steadyMs) / 1000) * rate);
      dispatch({ kind: "show-at", seconds });
      if (seconds >= reach[1]) dispatch({ kind: "play", isPlaying: false });
      else request = requestAnimationFrame(turn);
    };
    request = requestAnimationFrame(turn);
    return () => cancelAnimationFrame(request);
  }, [isPlaying, rate, inHand, isLocked, dispatch]);
}
