import type { Dispatch, KeyboardEvent } from "react";
import { arrows } from "./arrow-keys";
import { commandOfKey, insidePicture, type Spot, type ViewerCommand } from "../rules";
import type { MarkView } from "../view";
import { drawnShape, isTooSmall, moveHandle, nextDrawing } from "./gesture";
import type { Change } from "./kept";
import type { ViewerAction, ViewerState } from "./viewer-state";

export interface ViewerKeyOptions {
  readonly state: ViewerState;
  readonly dispatch: Dispatch<ViewerAction>;
  readonly cross: Spot;
  readonly marks: readonly MarkView[];
  readonly commit: (change: Change) => void;
  readonly newMark: (shape: MarkView["shape"]) => Change;
  readonly obey: (command: ViewerCommand) => void;
  /** Corners are being marked on the picture: the arrows move the cross. */
  readonly isAiming?: boolean;
  /** Something else is under way that Escape ends. */
  readonly isBusy?: boolean;
  /** Places the point that is asked for at the cross; null when none is asked for. */
  readonly placeHere: (() => void) | null;
}

const leastDrawnPx = 4;

/** What a key does anywhere in the view, unless somebody is writing in a field. Nothing is heard outside the view. */
export function handleViewerKey(options: ViewerKeyOptions, event: KeyboardEvent<HTMLElement>): void {
  const target = event.target instanceof HTMLElement ? event.target : null;
  if (event.defaultPrevented || target?.closest("input, textarea, select, [contenteditable]")) return;
  const isOnButton = target?.closest("button, a, summary") != null;
  if (isOnButton && (event.key === " " || event.key === "Enter")) return;
  const isTaken = drawByKey(options, event) || placeByKey(options, event) || obeyKey(options, event);
  if (isTaken) event.preventDefault();
}

function obeyKey({ obey, state, isAiming, isBusy }: ViewerKeyOptions, event: KeyboardEvent): boolean {
  const command = commandOfKey(event);
  if (!command) return false;
  obey(command);
  // With nothing to end, Escape belongs to the page around the view.
  return command.kind !== "cancel" || isAiming === true || isBusy === true || !isAtRest(state);
}

function isAtRest({ gesture, tool, editedMark, chosenPoint, isPlaying }: ViewerState): boolean {
  return gesture.kind === "none" && tool === null && editedMark === null && chosenPoint === null && !isPlaying;
}

function placeByKey({ state, placeHere }: ViewerKeyOptions, event: KeyboardEvent): boolean {
  if (event.key !== "Enter" || state.tool || !placeHere) return false;
  placeHere();
  return true;
}

/** With a tool or a mark in hand the arrows move the cross or the mark, and Enter sets an end. */
function drawByKey(options: ViewerKeyOptions, event: KeyboardEvent): boolean {
  const { state, dispatch, marks } = options;
  const by = arrows[event.key];
  const far = event.shiftKey ? 10 : 1;
  const edited = marks.find((it) => it.id === state.editedMark);
  if (by && edited && !state.tool) {
    const shape = moveHandle(edited.shape, "whole", { x: by.x * far, y: by.y * far }, state.picture);
    options.commit({ kind: "mark", id: edited.id, before: edited, after: { ...edited, shape } });
    return true;
  }
  if (!state.tool && !options.isAiming) return false;
  if (by) {
    const from = state.gesture.kind === "draw" ? state.gesture.to : options.cross;
    const to = insidePicture({ x: from.x + by.x * far, y: from.y + by.y * far }, state.picture);
    dispatch(state.gesture.kind === "draw" ? { kind: "move", to } : { kind: "cross", at: to });
    return true;
  }
  if (event.key !== "Enter" || !state.tool) return false;
  if (state.tool === "words") dispatch({ kind: "begin", gesture: { kind: "write", at: options.cross } });
  else if (state.gesture.kind !== "draw") dispatch({ kind: "begin", gesture: { kind: "draw", tool: state.tool, from: options.cross, to: options.cross } });
  else {
    const shape = drawnShape(state.gesture);
    if (isTooSmall(shape, leastDrawnPx)) return true;
    const next = nextDrawing(state.gesture);
    if (next) {
      dispatch({ kind: "begin", gesture: { kind: "draw", ...next } });
      return true;
    }
    options.commit(options.newMark(shape));
    dispatch({ kind: "end" });
  }
  return true;
}
