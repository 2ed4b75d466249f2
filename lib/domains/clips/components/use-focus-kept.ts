import { useEffect, useRef, type RefObject } from "react";

/**
 * Keys are heard only where the focus is, so the picture takes it when the clip is ready, and again when the button or
 * field that had it went away with what it was for. A focus elsewhere on the page is never taken.
 */
export function useFocusKept(stage: RefObject<HTMLElement | null>, isReady: boolean, whatIsShown: string): void {
  const wasInsideRef = useRef(true);
  useEffect(() => {
    const root = stage.current?.closest(".bench");
    if (!root) return;
    const note = (event: Event) => {
      wasInsideRef.current = event.target instanceof Node && root.contains(event.target);
    };
    document.addEventListener("focusin", note);
    return () => document.removeEventListener("focusin", note);
  }, [stage]);
  useEffect(() => {
    const isNowhere = document.activeElement === null || document.activeElement === document.body;
    if (isReady && isNowhere && wasInsideRef.current) stage.current?.focus({ preventScroll: true });
  }, [stage, isReady, whatIsShown]);
}
