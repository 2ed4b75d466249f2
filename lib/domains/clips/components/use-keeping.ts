import { useCallback, useRef, type Dispatch } from "react";
import type { EventId, MarkShape, PointId } from "../view";
import { invertChange, type Change } from "./kept";
import type { ViewerAction, ViewerState } from "./viewer-state";
import { eventNames, pointNames } from "./words";

/** How the page keeps what is done in the view. Each promise is refused when nothing was kept. */
export interface Keeping {
  readonly onSetEvent: (event: EventId, frameIndex: number) => Promise<unknown>;
  readonly onClearEvent: (event: EventId) => Promise<unknown>;
  readonly onPlacePoint: (point: { readonly frameIndex: number; readonly point: PointId; readonly x: number; readonly y: number }) => Promise<unknown>;
  readonly onPointUnseen: (point: { readonly frameIndex: number; readonly point: PointId }) => Promise<unknown>;
  /** Forget what a person said of the point on the frame: its place, or that it cannot be seen. */
  readonly onRemovePoint: (point: { readonly frameIndex: number; readonly point: PointId }) => Promise<unknown>;
  /** Gives back the id under which the mark was kept. */
  readonly onAddMark: (mark: { readonly frameIndex: number; readonly shape: MarkShape }) => Promise<string>;
  readonly onRemoveMark: (markId: string) => Promise<unknown>;
}

/**
 * Shows a change at once, sends changes one after the other, and takes back one that was not kept, with a sentence.
 */
export function useKeeping(dispatch: Dispatch<ViewerAction>, keeping: Keeping): { readonly commit: (change: Change) => void; readonly undo: (state: ViewerState) => void } {
  const keepingRef = useRef(keeping);
  keepingRef.current = keeping;
  const lastRef = useRef<Promise<unknown>>(Promise.resolve());
  const lastingIdsRef = useRef(new Map<string, string>());

  const run = useCallback(
    (change: Change, isUndo: boolean) => {
      dispatch({ kind: "apply", change, isUndo });
      lastRef.current = lastRef.current
        .then(() => send(change, keepingRef.current, lastingIdsRef.current))
        .then(
          (renamed) => dispatch({ kind: "kept", renamed }),
          (problem: unknown) => dispatch({ kind: "failed", change, sentence: notKept(change, problem) }),
        );
    },
    [dispatch],
  );
  const commit = useCallback((change: Change) => run(change, false), [run]);
  const undo = useCallback(
    (state: ViewerState) => {
      const last = state.undo[state.undo.length - 1];
      if (last) run(invertChange(last), true);
    },
    [run],
  );
  return { commit, undo };
}

async function send(change: Change, keeping: Keeping, lastingIds: Map<string, string>): Promise<{ from: string; to: string } | null> {
  switch (change.kind) {
    case "event":
      if (change.after?.frameIndex != null) await keeping.onSetEvent(change.event, change.after.frameIndex);
      else await keeping.onClearEvent(change.event);
      return null;
    case "point": {
      const { frameIndex, point, after } = change;
      if (after === "unseen") await keeping.onPointUnseen({ frameIndex, point });
      else if (after?.source === "coach") await keeping.onPlacePoint({ frameIndex, point, x: after.x, y: after.y });
      else await keeping.onRemovePoint({ frameIndex, point });
      return null;
    }
    case "mark": {
      const lasting = lastingIds.get(change.id) ?? change.id;
      if (!change.after) {
        await keeping.onRemoveMark(lasting);
        return null;
      }
      const { frameIndex, shape } = change.after;
      const id = await keeping.onAddMark({ frameIndex, shape });
      lastingIds.set(change.id, id);
      if (change.before) await keeping.onRemoveMark(lasting);
      return { from: change.id, to: id };
    }
  }
}

/** What was not kept, why, and how things stand now. */
function notKept(change: Change, problem: unknown): string {
  const why = problem instanceof Error && problem.message.endsWith(".") ? ` ${problem.message}` : "";
  const what = change.kind === "event" ? eventNames[change.event] : change.kind === "point" ? `The ${pointNames[change.point]}` : "The mark";
  return `${what} was not kept.${why} All stands as it was before; please try again.`;
}
