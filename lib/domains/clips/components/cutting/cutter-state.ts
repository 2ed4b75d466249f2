import type { Id } from "@/lib/core/ids";
import { withEnd, type Cut } from "../../cutting/rules";
import type { PITCH_HEIGHTS, PITCH_SIDES, TASKS } from "../../schema";
import type { BattingSide } from "../../view";

/** What was asked of one swing beside its stretch. */
export interface CutAnswers {
  readonly playerId: Id;
  readonly side?: BattingSide;
  readonly task?: (typeof TASKS)[number];
  readonly pitchHeight?: (typeof PITCH_HEIGHTS)[number];
  readonly pitchSide?: (typeof PITCH_SIDES)[number];
}

export interface SetCut extends Cut, CutAnswers {
  readonly key: number;
  readonly by: "offer" | "hand";
}

export interface CutterState {
  readonly frameCount: number;
  readonly frame: number;
  readonly cuts: readonly SetCut[];
  readonly inHand: number | null;
  readonly nextKey: number;
  /** Cuts as they stood before each change, the last one last. */
  readonly undo: readonly (readonly SetCut[])[];
  readonly trouble: "too-short" | null;
}

export type CutterAction =
  | { readonly kind: "show"; readonly frame: number }
  | { readonly kind: "step"; readonly by: number }
  | { readonly kind: "take"; readonly key: number }
  | { readonly kind: "next-cut"; readonly by: -1 | 1 }
  | { readonly kind: "offer"; readonly cuts: readonly Cut[]; readonly answers: CutAnswers }
  | { readonly kind: "add"; readonly cut: Cut; readonly answers: CutAnswers }
  | { readonly kind: "drop" }
  | { readonly kind: "end"; readonly end: "first" | "last" }
  | { readonly kind: "answer"; readonly key: number; readonly answers: Partial<CutAnswers> }
  | { readonly kind: "undo" };

export function startCutter(frameCount: number): CutterState {
  return { frameCount, frame: 0, cuts: [], inHand: null, nextKey: 1, undo: [], trouble: null };
}

export function cutterReducer(state: CutterState, action: CutterAction): CutterState {
  const inside = (frame: number) => Math.max(0, Math.min(state.frameCount - 1, frame));
  const held = state.cuts.find(({ key }) => key === state.inHand) ?? null;
  switch (action.kind) {
    case "show":
      return { ...state, frame: inside(action.frame) };
    case "step":
      return { ...state, frame: inside(state.frame + action.by) };
    case "take":
      return taken(state, action.key);
    case "next-cut": {
      const at = state.cuts.findIndex(({ key }) => key === state.inHand);
      const next = state.cuts[at < 0 ? (action.by > 0 ? 0 : state.cuts.length - 1) : Math.max(0, Math.min(state.cuts.length - 1, at + action.by))];
      return next ? taken(state, next.key) : state;
    }
    case "offer": {
      // What a coach has set by hand meanwhile stays.
      const added = action.cuts.map((cut, i): SetCut => ({ ...cut, ...action.answers, key: state.nextKey + i, by: "offer" }));
      const cuts = inOrder([...state.cuts.filter(({ by }) => by === "hand"), ...added]);
      const offered = { ...state, cuts, nextKey: state.nextKey + added.length, undo: [] };
      return cuts[0] ? taken(offered, cuts[0].key) : offered;
    }
    case "add": {
      const cut: SetCut = { ...action.cut, ...action.answers, key: state.nextKey, by: "hand" };
      return { ...changed(state, inOrder([...state.cuts, cut])), inHand: cut.key, nextKey: state.nextKey + 1 };
    }
    case "drop": {
      if (!held) return state;
      const cuts = state.cuts.filter((it) => it !== held);
      const at = state.cuts.indexOf(held);
      return { ...changed(state, cuts), inHand: (cuts[at] ?? cuts.at(-1))?.key ?? null };
    }
    case "end": {
      if (!held) return state;
      const moved = withEnd(held, action.end, state.frame, state.frameCount);
      return moved ? changed(state, inOrder(state.cuts.map((it) => (it === held ? { ...held, ...moved } : it)))) : { ...state, trouble: "too-short" };
    }
    case "answer":
      return changed(state, state.cuts.map((it) => (it.key === action.key ? { ...it, ...action.answers } : it)));
    case "undo": {
      const cuts = state.undo.at(-1);
      return cuts ? { ...state, cuts, undo: state.undo.slice(0, -1), inHand: cuts.some(({ key }) => key === state.inHand) ? state.inHand : (cuts[0]?.key ?? null), trouble: null } : state;
    }
  }
}

function taken(state: CutterState, key: number): CutterState {
  const cut = state.cuts.find((it) => it.key === key);
  return cut ? { ...state, inHand: key, frame: cut.contactFrame ?? (cut.firstFrame + cut.lastFrame) >> 1, trouble: null } : state;
}

const changed = (state: CutterState, cuts: readonly SetCut[]): CutterState => ({ ...state, cuts, undo: [...state.undo, state.cuts], trouble: null });
const inOrder = (cuts: readonly SetCut[]) => [...cuts].sort((a, b) => a.firstFrame - b.firstFrame || a.key - b.key);
