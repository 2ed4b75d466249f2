import { clampLook, stepFrame, wholeLook, type Look, type Size, type Spot } from "../rules";
import type { EventId, MarkShape, PointId } from "../view";
import type { Travel } from "./frame-source-type";
import { drawnTo, moveHandle, type Gesture, type MarkTool } from "./gesture";
import { applyChange, findEvent, findPoint, invertChange, renameInChange, renameMark, type Change, type Kept } from "./kept";

/** All that the swing view holds while somebody works at it. */
export interface ViewerState {
  readonly kept: Kept;
  readonly frameCount: number;
  readonly picture: Size;
  readonly frameIndex: number;
  readonly travel: Travel;
  readonly isPlaying: boolean;
  readonly rate: number;
  readonly look: Look;
  /** Where the cross of the magnifier stands, in picture pixels; null until it has been moved on this frame. */
  readonly cross: Spot | null;
  /** The point the coach chose to place, null to be asked in order. */
  readonly chosenPoint: PointId | null;
  readonly tool: MarkTool | null;
  readonly gesture: Gesture;
  readonly editedMark: string | null;
  readonly eventInHand: EventId | null;
  readonly undo: readonly Change[];
  /** What was taken back last stands last. */
  readonly redo: readonly Change[];
  /** Changes on their way to the server. */
  readonly pending: number;
  readonly failure: string | null;
  /** The change that somebody was faster than, so that it need not be made again by hand. */
  readonly overtaken: Change | null;
}

/** A change is made, taken back, or made again after it was taken back. */
export type Way = "new" | "back" | "again";

export type ViewerAction =
  | { readonly kind: "step"; readonly by: number }
  | { readonly kind: "show"; readonly frameIndex: number }
  | { readonly kind: "play"; readonly isPlaying: boolean }
  | { readonly kind: "rate"; readonly rate: number }
  | { readonly kind: "look"; readonly look: Look }
  | { readonly kind: "cross"; readonly at: Spot | null }
  | { readonly kind: "choose-point"; readonly point: PointId | null }
  | { readonly kind: "tool"; readonly tool: MarkTool | null }
  | { readonly kind: "edit-mark"; readonly id: string | null }
  | { readonly kind: "begin"; readonly gesture: Gesture }
  | { readonly kind: "move"; readonly to: Spot }
  | { readonly kind: "shape"; readonly shape: MarkShape }
  | { readonly kind: "end" }
  | { readonly kind: "cancel" }
  | { readonly kind: "apply"; readonly change: Change; readonly way: Way }
  | { readonly kind: "kept"; readonly renamed: { readonly from: string; readonly to: string } | null }
  | { readonly kind: "failed"; readonly change: Change; readonly sentence: string; readonly isOvertaken: boolean }
  | { readonly kind: "read-failure" }
  | { readonly kind: "take"; readonly kept: Kept };

export function startState(kept: Kept, frameCount: number, picture: Size, frameIndex: number): ViewerState {
  return {
    kept, frameCount, picture, frameIndex: stepFrame(frameIndex, 0, frameCount), travel: 1, isPlaying: false, rate: 1 / 4,
    look: wholeLook(picture), cross: null, chosenPoint: null, tool: null, gesture: { kind: "none" }, editedMark: null,
    eventInHand: null, undo: [], redo: [], pending: 0, failure: null, overtaken: null,
  };
}

export function viewerReducer(state: ViewerState, action: ViewerAction): ViewerState {
  switch (action.kind) {
    case "step":
      return show({ ...state, isPlaying: false }, stepFrame(state.frameIndex, action.by, state.frameCount));
    case "show":
      return show(state, stepFrame(action.frameIndex, 0, state.frameCount));
    case "play":
      return { ...cancel(state), isPlaying: action.isPlaying };
    case "rate":
      return { ...state, rate: action.rate };
    case "look":
      return { ...state, look: action.look };
    case "cross":
      return { ...state, cross: action.at };
    case "choose-point":
      return { ...cancel(state), chosenPoint: action.point, cross: null, tool: null, editedMark: null };
    case "tool":
      return { ...cancel(state), tool: action.tool, editedMark: null, isPlaying: false };
    case "edit-mark":
      return { ...cancel(state), tool: null, editedMark: action.id, isPlaying: false };
    case "begin":
      return { ...cancel(state), gesture: action.gesture, isPlaying: false };
    case "move":
      return move(state, action.to);
    case "shape":
      return state.gesture.kind === "mark" ? { ...state, gesture: { ...state.gesture, at: action.shape } } : state;
    case "end":
      return { ...state, gesture: { kind: "none" }, tool: state.gesture.kind === "draw" || state.gesture.kind === "write" ? null : state.tool };
    case "cancel":
      return state.gesture.kind === "none" ? { ...state, tool: null, editedMark: null, chosenPoint: null, cross: null, isPlaying: false } : cancel(state);
    case "apply":
      return applied(state, action.change, action.way);
    case "kept":
      return renamed({ ...state, pending: state.pending - 1 }, action.renamed);
    case "failed":
      return rolledBack(state, action);
    case "read-failure":
      return { ...state, failure: null, overtaken: null };
    case "take":
      return state.pending === 0 ? { ...state, kept: action.kept } : state;
  }
}

function show(state: ViewerState, frameIndex: number): ViewerState {
  if (frameIndex === state.frameIndex) return state;
  const calm = cancel(state);
  const here = state.kept.events.find((it) => it.frameIndex === frameIndex);
  return {
    ...calm, frameIndex, travel: frameIndex > state.frameIndex ? 1 : -1, cross: null, editedMark: null,
    eventInHand: here?.event ?? state.eventInHand,
  };
}

/** Leaves a gesture as if it had not been begun. */
function cancel(state: ViewerState): ViewerState {
  const { gesture } = state;
  if (gesture.kind === "none") return state;
  const restored = gesture.kind === "cross" ? { cross: gesture.before } : gesture.kind === "look" ? { look: gesture.before } : {};
  return { ...state, ...restored, gesture: { kind: "none" } };
}

function move(state: ViewerState, to: Spot): ViewerState {
  const { gesture } = state;
  switch (gesture.kind) {
    case "cross":
      return { ...state, cross: to };
    case "point":
      return { ...state, gesture: { ...gesture, at: { x: to.x - gesture.grip.x, y: to.y - gesture.grip.y } } };
    case "draw":
      return { ...state, gesture: { kind: "draw", ...drawnTo(gesture, to) } };
    case "write":
      return { ...state, gesture: { ...gesture, at: to } };
    case "mark": {
      const by = { x: to.x - gesture.grip.x, y: to.y - gesture.grip.y };
      return { ...state, gesture: { ...gesture, at: moveHandle(gesture.before, gesture.handle, by, state.picture) } };
    }
    default:
      return state;
  }
}

const mostUndo = 50;

function applied(state: ViewerState, change: Change, way: Way): ViewerState {
  return {
    ...state, ...remembered(state, change, way), kept: applyChange(state.kept, change), pending: state.pending + 1, failure: null, overtaken: null,
    eventInHand: change.kind === "event" ? change.event : state.eventInHand,
  };
}

/** A new change leaves nothing to be done again. */
function remembered({ undo, redo }: ViewerState, change: Change, way: Way): Pick<ViewerState, "undo" | "redo"> {
  if (way === "back") return { undo: undo.slice(0, -1), redo: [...redo, invertChange(change)] };
  return { undo: [...undo, change].slice(-mostUndo), redo: way === "again" ? redo.slice(0, -1) : [] };
}

function renamed(state: ViewerState, name: { readonly from: string; readonly to: string } | null): ViewerState {
  if (!name) return state;
  return {
    ...state, kept: renameMark(state.kept, name.from, name.to), undo: state.undo.map((it) => renameInChange(it, name.from, name.to)),
    redo: state.redo.map((it) => renameInChange(it, name.from, name.to)),
    editedMark: state.editedMark === name.from ? name.to : state.editedMark,
  };
}

/** A change that was not kept is taken back and cannot be undone again; a later change of the same thing stands. */
function rolledBack(state: ViewerState, { change, sentence, isOvertaken }: Extract<ViewerAction, { kind: "failed" }>): ViewerState {
  return {
    ...state, kept: stands(state.kept, change) ? applyChange(state.kept, invertChange(change)) : state.kept, undo: state.undo.filter((it) => it !== change),
    redo: state.redo.filter((it) => !isSameThing(it, change)), pending: state.pending - 1, failure: sentence, overtaken: isOvertaken ? change : null,
  };
}

function isSameThing(one: Change, other: Change): boolean {
  if (one.kind === "event") return other.kind === "event" && one.event === other.event;
  if (one.kind === "mark") return other.kind === "mark" && one.id === other.id;
  if (one.kind === "point" && other.kind === "point") return one.point === other.point && one.frameIndex === other.frameIndex;
  const frames = framesOf(other);
  return framesOf(one).some((frame) => frames.includes(frame));
}

/** The frames whose points a change is about. */
function framesOf(change: Change): readonly number[] {
  if (change.kind === "followed") return change.steps.map(({ frameIndex }) => frameIndex);
  return change.kind === "point" || change.kind === "points" ? [change.frameIndex] : [];
}

/** Whether a change is still the last word on its thing. */
function stands(kept: Kept, change: Change): boolean {
  switch (change.kind) {
    case "event":
      return findEvent(kept, change.event) === change.after;
    case "point": {
      const now = findPoint(kept, change.frameIndex, change.point);
      return now === change.after;
    }
    case "points":
      return change.steps.every(({ point, after }) => findPoint(kept, change.frameIndex, point) === after);
    case "followed":
      return change.steps.every(({ frameIndex, point, after }) => findPoint(kept, frameIndex, point) === after);
    case "mark":
      return (kept.marks.find((it) => it.id === change.id) ?? null) === change.after;
  }
}

/** The look as it can be in a box of this size. */
export function lookIn(state: ViewerState, box: Size): Look {
  return clampLook(state.look, state.picture, box);
}
