import type { KeyboardEvent } from "react";
import { eventKeys } from "../../rules";
import { arrows } from "../arrow-keys";
import type { BesideAction, BesideState } from "./beside-state";

/**
 * What a key asks of the side-by-side view; null when it is not ours. Arrows step the clip in hand, with shift ten
 * frames; a letter goes to its event; 1 to 4 take a clip in hand, K locks, X flips, O lays over. While a place is
 * asked for the arrows move the cross and Enter takes it.
 */
export function besideKey(press: Pick<KeyboardEvent, "key" | "shiftKey" | "ctrlKey" | "metaKey" | "altKey">, state: BesideState, clipIds: readonly string[]): BesideAction | null {
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  const by = arrows[press.key];
  if (state.tapping) {
    const far = press.shiftKey ? 10 : 1;
    if (by) return { kind: "tap-move", to: { x: state.tapping.cross.x + by.x * far, y: state.tapping.cross.y + by.y * far } };
    if (press.key === "Enter") return { kind: "tap-place" };
  }
  if (by && by.x !== 0) return { kind: "step", by: by.x * (press.shiftKey ? 10 : 1) };
  const letter = press.key.toUpperCase();
  const inHand = clipIds[Number(press.key) - 1];
  if (inHand) return { kind: "take-in-hand", clipId: inHand };
  const event = eventKeys.find((it) => it.key === letter)?.event;
  if (event) return { kind: "go-event", event };
  switch (letter) {
    case "HOME":
      return { kind: "go-end", end: "first" };
    case "END":
      return { kind: "go-end", end: "last" };
    case " ":
      return { kind: "play", isPlaying: !state.isPlaying };
    case "K":
      return { kind: "lock", isLocked: !state.isLocked };
    case "X":
      return { kind: "flip", clipId: state.inHand };
    case "O":
      return clipIds.length > 1 ? { kind: "lay-over", isLaidOver: !state.isLaidOver } : null;
    case "ESCAPE":
      // With nothing to leave, the key is for who brought somebody here.
      return state.tapping || state.isPlaying ? { kind: "cancel" } : null;
    default:
      return null;
  }
}

/** Passes a key on, unless somebody writes in a field or presses a button with it. */
export function heardBeside(event: KeyboardEvent<HTMLElement>, state: BesideState, clipIds: readonly string[]): BesideAction | null {
  const target = event.target instanceof HTMLElement ? event.target : null;
  if (event.defaultPrevented || target?.closest("input, textarea, select, [contenteditable]")) return null;
  if (target?.closest("button, a, summary") && (event.key === " " || event.key === "Enter")) return null;
  return besideKey(event, state, clipIds);
}
