import { useRef, type Dispatch, type PointerEvent } from "react";
import { insidePicture, panBy, toPicture, toScreen, type Placement, type Size, type Spot } from "../rules";
import type { ClipAbilities, MarkView, PointId, PointView } from "../view";
import { drawnShape, isTooSmall, markHandles, nextDrawing } from "./gesture";
import { findPoint, type Change } from "./kept";
import { beginPane, movePane, type PaneGesture } from "./pane-gesture";
import type { PlateTaps } from "./use-plate-taps";
import { lookIn, viewerReducer, type ViewerAction, type ViewerState } from "./viewer-state";

export interface StageGestures {
  readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerUp: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerCancel: (event: PointerEvent<HTMLElement>) => void;
}

export interface StageGestureOptions {
  readonly state: ViewerState;
  readonly dispatch: Dispatch<ViewerAction>;
  readonly placement: Placement;
  readonly box: Size;
  readonly points: readonly PointView[];
  readonly marks: readonly MarkView[];
  readonly askedPoint: PointId | null;
  readonly abilities: ClipAbilities;
  /** Home plate while its corners are being marked. */
  readonly taps?: PlateTaps;
  readonly commit: (change: Change) => void;
  readonly newMark: (shape: MarkView["shape"]) => Change;
}

/** How near a press must be to a point or a handle, in screen pixels. */
const reachPx = { mouse: 14, other: 24 };
const leastDrawnPx = 8;
/** A finger that goes no further than this has tapped. */
const tapPx = { mouse: 1, other: 6 };

/** Mouse, pen and finger on the picture. One finger draws, drags or moves the cross; two push and pinch the picture. */
export function useStageGestures(options: StageGestureOptions): StageGestures {
  const { state, dispatch, placement, box, points, marks, askedPoint, abilities, commit } = options;
  const pointersRef = useRef(new Map<number, Spot>());
  const pinchRef = useRef<PaneGesture | null>(null);
  const { picture } = state;
  const screenSpot = (event: PointerEvent<HTMLElement>): Spot => {
    const corner = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - corner.left, y: event.clientY - corner.top };
  };
  const inPicture = (spot: Spot) => insidePicture(toPicture(placement, spot), picture);
  const near = (spot: Spot, at: Spot, reach: number) => {
    const there = toScreen(placement, at);
    const far = Math.hypot(there.x - spot.x, there.y - spot.y);
    return far <= reach ? far : Infinity;
  };
  const nearest = <T,>(items: readonly T[], farOf: (item: T) => number): T | null => {
    let best: T | null = null;
    let least = Infinity;
    for (const item of items) {
      const far = farOf(item);
      if (far < least) [best, least] = [item, far];
    }
    return best;
  };

  const begin = (spot: Spot, reach: number) => {
    const at = inPicture(spot);
    if (options.taps) return options.taps.take(at, state.frameIndex);
    // The second arm of an angle.
    if (state.gesture.kind === "draw") return dispatch({ kind: "move", to: at });
    const edited = marks.find((it) => it.id === state.editedMark);
    const held = edited && nearest(markHandles(edited.shape), (it) => near(spot, it.at, reach));
    if (edited && held) return dispatch({ kind: "begin", gesture: { kind: "mark", id: edited.id, handle: held.handle, grip: at, before: edited.shape, at: edited.shape } });
    if (state.tool === "words") return dispatch({ kind: "begin", gesture: { kind: "write", at } });
    if (state.tool) return dispatch({ kind: "begin", gesture: { kind: "draw", tool: state.tool, from: at, to: at } });
    const point = abilities.canMeasure ? nearest(points, (it) => near(spot, it, reach)) : null;
    if (point) return dispatch({ kind: "begin", gesture: { kind: "point", point: point.point, grip: { x: at.x - point.x, y: at.y - point.y }, at: { x: point.x, y: point.y } } });
    if (abilities.canMeasure && askedPoint) {
      dispatch({ kind: "begin", gesture: { kind: "cross", before: state.cross } });
      return dispatch({ kind: "move", to: at });
    }
    dispatch({ kind: "begin", gesture: { kind: "look", before: state.look } });
  };

  const pinched = (): void => {
    const look = pinchRef.current && movePane(pinchRef.current, [...pointersRef.current.values()], { picture, box, isFlipped: false });
    if (look) dispatch({ kind: "look", look });
  };

  const end = (spot: Spot, isFinger: boolean): void => {
    const done = viewerReducer(state, { kind: "move", to: inPicture(spot) }).gesture;
    if (done.kind === "write") return;
    if (done.kind === "point") {
      const before = findPoint(state.kept, state.frameIndex, done.point);
      const at = insidePicture(done.at, picture);
      const far = before && before !== "unseen" ? Math.hypot(at.x - before.x, at.y - before.y) * placement.scale : Infinity;
      if (far < (isFinger ? tapPx.other : tapPx.mouse)) {
        // A finger covers several points at once: while one is asked for, a tap says where that one is.
        if (!isFinger || !askedPoint) return dispatch({ kind: "choose-point", point: done.point });
        dispatch({ kind: "cancel" });
        return dispatch({ kind: "cross", at: inPicture(spot) });
      }
      commit({ kind: "point", frameIndex: state.frameIndex, point: done.point, before, after: { frameIndex: state.frameIndex, point: done.point, ...at, source: "coach" } });
    } else if (done.kind === "draw") {
      const shape = drawnShape(done);
      if (isTooSmall(shape, leastDrawnPx / placement.scale)) return dispatch({ kind: "cancel" });
      const next = nextDrawing(done);
      if (next) return dispatch({ kind: "begin", gesture: { kind: "draw", ...next } });
      commit(options.newMark(shape));
    } else if (done.kind === "mark") {
      const mark = marks.find((it) => it.id === done.id);
      if (mark && mark.shape !== done.at) commit({ kind: "mark", id: mark.id, before: mark, after: { ...mark, shape: done.at } });
    } else if (done.kind === "cross") dispatch({ kind: "move", to: inPicture(spot) });
    dispatch({ kind: "end" });
  };

  return {
    onPointerDown(event) {
      if (event.button !== 0 && event.button !== 1) return;
      const spot = screenSpot(event);
      event.currentTarget.setPointerCapture(event.pointerId);
      event.currentTarget.focus({ preventScroll: true });
      pointersRef.current.set(event.pointerId, spot);
      if (pointersRef.current.size > 1) {
        dispatch({ kind: "begin", gesture: { kind: "look", before: state.look } });
        pinchRef.current = beginPane({ kind: "none" }, lookIn(state, box), [...pointersRef.current.values()]);
      } else if (event.button === 1) dispatch({ kind: "begin", gesture: { kind: "look", before: state.look } });
      else begin(spot, event.pointerType === "mouse" ? reachPx.mouse : reachPx.other);
    },
    onPointerMove(event) {
      const last = pointersRef.current.get(event.pointerId);
      if (!last) return;
      const spot = screenSpot(event);
      pointersRef.current.set(event.pointerId, spot);
      if (pinchRef.current) pinched();
      else if (state.gesture.kind === "look") dispatch({ kind: "look", look: panBy(state.look, spot.x - last.x, spot.y - last.y, picture, box) });
      else dispatch({ kind: "move", to: inPicture(spot) });
    },
    onPointerUp(event) {
      if (!pointersRef.current.delete(event.pointerId)) return;
      if (!pinchRef.current) return end(screenSpot(event), event.pointerType !== "mouse");
      if (pointersRef.current.size > 0) return;
      pinchRef.current = null;
      dispatch({ kind: "end" });
    },
    onPointerCancel(event) {
      pointersRef.current.delete(event.pointerId);
      if (pointersRef.current.size === 0) pinchRef.current = null;
      dispatch({ kind: "cancel" });
    },
  };
}
