import { useRef, type PointerEvent } from "react";
import { toPicture, type Look, type Placement, type Spot } from "../../rules";
import { beginPane, movePane, type Pane, type PaneGesture } from "../pane-gesture";

export interface PaneGestureOptions {
  readonly pane: Pane;
  readonly placement: Placement;
  readonly look: Look;
  readonly onLook: (look: Look) => void;
  /** A place is asked for on this picture: then one finger aims, and lets go to take it. */
  readonly aiming: { readonly move: (to: Spot) => void; readonly place: () => void } | null;
}

/** Mouse and fingers on one picture: push, pinch, or aim. */
export function usePaneGestures({ pane, placement, look, onLook, aiming }: PaneGestureOptions) {
  const fingersRef = useRef(new Map<number, Spot>());
  const gestureRef = useRef<PaneGesture>({ kind: "none" });
  const spotOf = (event: PointerEvent<HTMLElement>): Spot => {
    const corner = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - corner.left, y: event.clientY - corner.top };
  };
  const isAiming = () => aiming !== null && gestureRef.current.kind !== "pinch";
  const fingers = () => [...fingersRef.current.values()];
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0 && event.button !== 1) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      fingersRef.current.set(event.pointerId, spotOf(event));
      gestureRef.current = beginPane(gestureRef.current, look, fingers());
      if (isAiming()) aiming?.move(toPicture(placement, spotOf(event)));
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      if (!fingersRef.current.has(event.pointerId)) return;
      fingersRef.current.set(event.pointerId, spotOf(event));
      if (isAiming()) return aiming?.move(toPicture(placement, spotOf(event)));
      const moved = movePane(gestureRef.current, fingers(), pane);
      if (moved) onLook(moved);
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      if (!fingersRef.current.delete(event.pointerId)) return;
      if (isAiming()) aiming?.place();
      gestureRef.current = fingersRef.current.size === 0 ? { kind: "none" } : beginPane({ kind: "none" }, look, fingers());
    },
    onPointerCancel(event: PointerEvent<HTMLElement>) {
      if (!fingersRef.current.delete(event.pointerId)) return;
      const { current } = gestureRef;
      if (current.kind !== "none" && !isAiming()) onLook(current.before);
      gestureRef.current = { kind: "none" };
      fingersRef.current.clear();
    },
  };
}
