import { useCallback, useEffect, useRef, type Dispatch } from "react";
import { invertChange, type Change } from "./kept";
import { notKept, Overtaken, send, type Keeping } from "./sending";
import type { ViewerAction, ViewerState, Way } from "./viewer-state";

export interface KeepingHands {
  readonly commit: (change: Change) => void;
  readonly undo: (state: ViewerState) => void;
  readonly redo: (state: ViewerState) => void;
}

/**
 * Shows a change at once, sends changes one after the other, and takes back one that was not kept, with a sentence.
 */
export function useKeeping(dispatch: Dispatch<ViewerAction>, keeping: Keeping): KeepingHands {
  const keepingRef = useRef(keeping);
  useEffect(() => {
    keepingRef.current = keeping;
  });
  const lastRef = useRef<Promise<unknown>>(Promise.resolve());
  const lastingIdsRef = useRef(new Map<string, string>());

  const run = useCallback(
    (change: Change, way: Way) => {
      dispatch({ kind: "apply", change, way });
      lastRef.current = lastRef.current
        .then(() => send(change, keepingRef.current, lastingIdsRef.current))
        .then(
          (renamed) => dispatch({ kind: "kept", renamed }),
          (problem: unknown) => {
            const isOvertaken = problem instanceof Overtaken;
            dispatch({ kind: "failed", change, sentence: notKept(change, problem), isOvertaken });
            if (isOvertaken) keepingRef.current.onOvertaken();
          },
        );
    },
    [dispatch],
  );
  const commit = useCallback((change: Change) => run(change, "new"), [run]);
  const undo = useCallback(
    (state: ViewerState) => {
      const last = state.undo[state.undo.length - 1];
      if (last) run(invertChange(last), "back");
    },
    [run],
  );
  const redo = useCallback(
    (state: ViewerState) => {
      const last = state.redo.at(-1);
      if (last) run(last, "again");
    },
    [run],
  );
  return { commit, undo, redo };
}
