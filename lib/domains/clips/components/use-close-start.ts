import { useEffect, useRef, type Dispatch } from "react";
import type { Size } from "../rules";
import type { ClipView } from "../view";
import type { ViewerAction } from "./viewer-state";

/** On a narrow screen a wide picture would be a strip: it begins so close that it fills the box, with the hitter in the middle. */
export function useCloseStart(box: Size | null, clip: ClipView, dispatch: Dispatch<ViewerAction>): void {
  const isDoneRef = useRef(false);
  useEffect(() => {
    if (!box || isDoneRef.current) return;
    isDoneRef.current = true;
    const zoom = clip.widthPx / clip.heightPx / (box.width / box.height);
    if (zoom < 1.05) return;
    const xs = clip.points.map((it) => it.x).sort((a, b) => a - b);
    const x = xs[xs.length >> 1] ?? clip.widthPx / 2;
    dispatch({ kind: "look", look: { zoom, centre: { x, y: clip.heightPx / 2 } } });
  }, [box, clip, dispatch]);
}
