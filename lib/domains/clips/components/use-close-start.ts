import { useEffect, useRef } from "react";
import type { Look, Size } from "../rules";
import type { ClipView } from "../view";

/**
 * In a place that is narrower than the picture a whole picture would be a strip: it begins so close that it fills its place, with the
 * hitter in the middle. One that somebody has come closer to stays as it is.
 */
export function useCloseStart(box: Size | null, clip: ClipView | null, look: Look | null, onLook: (look: Look) => void): void {
  const isDoneRef = useRef(false);
  useEffect(() => {
    if (!box || !clip || !look || isDoneRef.current) return;
    isDoneRef.current = true;
    const zoom = clip.widthPx / clip.heightPx / (box.width / box.height);
    if (look.zoom > 1 || zoom < 1.05) return;
    const xs = clip.points.map((it) => it.x).sort((a, b) => a - b);
    onLook({ zoom, centre: { x: xs[xs.length >> 1] ?? clip.widthPx / 2, y: clip.heightPx / 2 } });
  }, [box, clip, look, onLook]);
}
