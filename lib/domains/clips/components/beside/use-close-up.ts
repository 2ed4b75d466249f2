import { useEffect, useRef, type Dispatch } from "react";
import type { Look, Size } from "../../rules";
import type { ClipView } from "../../view";
import type { BesideAction } from "./beside-state";

/** A whole picture that is wider than its place begins so close that it fills it, with the hitter in the middle. */
export function useCloseUp(box: Size | null, clip: ClipView | null, look: Look | null, dispatch: Dispatch<BesideAction>): void {
  const isDoneRef = useRef(false);
  useEffect(() => {
    if (!box || !clip || !look || isDoneRef.current) return;
    isDoneRef.current = true;
    const zoom = clip.widthPx / clip.heightPx / (box.width / box.height);
    if (look.zoom > 1 || zoom < 1.05) return;
    const xs = clip.points.map((it) => it.x).sort((a, b) => a - b);
    dispatch({ kind: "look", clipId: clip.id, look: { zoom, centre: { x: xs[xs.length >> 1] ?? clip.widthPx / 2, y: clip.heightPx / 2 } } });
  }, [box, clip, look, dispatch]);
}
