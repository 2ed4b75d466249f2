import { clampLook, stepFrame, wholeLook, type Look, type Size, type Spot } from "../../rules";
import type { EventId } from "../../view";
import type { Travel } from "../frame-source-type";
import { besideTap, type AnchorChoice, type Tapping } from "./anchor-taps";
import { commonSeconds, eventTimes, frameAt, reachOf, type LinedClip } from "./lined-clip";

/** How one clip stands on the page; its record is untouched by all of it. */
export interface ClipPlace {
  readonly frameIndex: number;
  readonly isFlipped: boolean;
  readonly look: Look;
}

/** All that the side-by-side view holds, clips by their ids. */
export interface BesideState {
  readonly places: Readonly<Record<string, ClipPlace>>;
  /** The clip that steps by its own frames. */
  readonly inHand: string;
  readonly travel: Travel;
  readonly isLocked: boolean;
  readonly isPlaying: boolean;
  readonly rate: number;
  readonly isStretched: boolean;
  readonly isLaidOver: boolean;
  /** How much of the upper clips is seen when laid over, 0 to 1. */
  readonly opacity: number;
  readonly anchor: AnchorChoice;
  /** Tapped places by clip, in pixels of the upright, unflipped picture. */
  readonly taps: Readonly<Record<string, Spot>>;
  readonly tapping: Tapping | null;
  readonly hasPoints: boolean;
}

export type BesideAction =
  | { readonly kind: "clips"; readonly flipped: readonly string[] }
  | { readonly kind: "take-in-hand"; readonly clipId: string }
  | { readonly kind: "step"; readonly by: number }
  | { readonly kind: "go-end"; readonly end: "first" | "last" }
  | { readonly kind: "show-at"; readonly seconds: number }
  | { readonly kind: "show-frame"; readonly clipId: string; readonly frameIndex: number }
  | { readonly kind: "go-event"; readonly event: EventId }
  | { readonly kind: "lock"; readonly isLocked: boolean }
  | { readonly kind: "play"; readonly isPlaying: boolean }
  | { readonly kind: "rate"; readonly rate: number }
  | { readonly kind: "flip"; readonly clipId: string }
  | { readonly kind: "look"; readonly clipId: string; readonly look: Look }
  | { readonly kind: "stretch"; readonly isStretched: boolean }
  | { readonly kind: "lay-over"; readonly isLaidOver: boolean }
  | { readonly kind: "opacity"; readonly opacity: number }
  | { readonly kind: "anchor"; readonly anchor: AnchorChoice }
  | { readonly kind: "tap-move"; readonly to: Spot }
  | { readonly kind: "tap-place" }
  | { readonly kind: "points"; readonly hasPoints: boolean }
  | { readonly kind: "cancel" };

/** How the view begins. */
export interface BesideStart {
  readonly clips: readonly LinedClip[];
  /** Clips whose picture begins flipped. */
  readonly flipped?: readonly string[];
  /** Where the common clock begins, in real seconds from contact. */
  readonly seconds?: number;
}

/** All clips at one instant, at contact when none is named, side by side, locked. */
export function startBeside({ clips, flipped = [], seconds = 0 }: BesideStart): BesideState {
  return {
    places: Object.fromEntries(clips.map((it) => [it.id, placeAt(it, seconds, flipped)])), inHand: clips[0]?.id ?? "", travel: 1, isLocked: true, isPlaying: false, rate: 1 / 4,
    isStretched: false, isLaidOver: false, opacity: 0.5, anchor: "hips", taps: {}, tapping: null, hasPoints: false,
  };
}

const pictureOf = ({ clip }: LinedClip): Size => ({ width: clip.widthPx, height: clip.heightPx });
const placeAt = (lined: LinedClip, seconds: number, flipped: readonly string[]): ClipPlace => ({ frameIndex: frameAt(lined, seconds), isFlipped: flipped.includes(lined.id), look: wholeLook(pictureOf(lined)) });

/** The changes of the view over the clips that are open now. */
export function besideReducer(clips: readonly LinedClip[]): (state: BesideState, action: BesideAction) => BesideState {
  return (state, action) => reduce(clips, state, action);
}

function reduce(clips: readonly LinedClip[], state: BesideState, action: BesideAction): BesideState {
  const find = (id: string) => clips.find((it) => it.id === id);
  const inHand = find(state.inHand);
  switch (action.kind) {
    case "clips":
      return withClips(clips, state, action.flipped);
    case "take-in-hand":
      return find(action.clipId) ? { ...state, inHand: action.clipId } : state;
    case "step":
      return inHand ? showFrame(clips, { ...state, isPlaying: false }, inHand, frameOf(state, inHand) + action.by) : state;
    case "go-end":
      return inHand ? showFrame(clips, { ...state, isPlaying: false }, inHand, action.end === "first" ? 0 : inHand.frameCount - 1) : state;
    case "show-at":
      return showAt(clips, state, action.seconds);
    case "show-frame": {
      const lined = find(action.clipId);
      return lined ? showFrame(clips, { ...state, inHand: lined.id }, lined, action.frameIndex) : state;
    }
    case "go-event":
      return goEvent(clips, state, action.event);
    case "lock":
      return locked(clips, { ...state, isLocked: action.isLocked });
    case "play":
      return { ...state, isPlaying: action.isPlaying, tapping: null };
    case "rate":
      return { ...state, rate: action.rate };
    case "flip":
      return placed(state, action.clipId, (it) => ({ ...it, isFlipped: !it.isFlipped }));
    case "look": {
      const lined = find(action.clipId);
      return lined ? placed(state, lined.id, (it) => ({ ...it, look: action.look })) : state;
    }
    case "stretch":
      return { ...state, isStretched: action.isStretched };
    case "lay-over":
      return { ...state, isLaidOver: action.isLaidOver, tapping: null };
    case "opacity":
      return { ...state, opacity: Math.max(0, Math.min(1, action.opacity)) };
    case "anchor":
    case "tap-move":
    case "tap-place":
      return { ...state, ...besideTap(clips, state, action) };
    case "points":
      return { ...state, hasPoints: action.hasPoints };
    case "cancel":
      return state.tapping ? { ...state, anchor: state.tapping.before, tapping: null } : { ...state, isPlaying: false };
  }
}

const frameOf = (state: BesideState, { id }: LinedClip): number => state.places[id]?.frameIndex ?? 0;

/** Where the common clock stands: at the clip in hand, or, when that one has no place on it, at the first that has. */
export function clockOf(clips: readonly LinedClip[], state: BesideState): number | null {
  const inHand = clips.find((it) => it.id === state.inHand && !it.notLined) ?? clips.find((it) => !it.notLined);
  return inHand ? commonSeconds(inHand, frameOf(state, inHand)) : null;
}

/** The clips that move together; the others are stepped by themselves. */
export function movingTogether(clips: readonly LinedClip[], state: Pick<BesideState, "isLocked">): readonly LinedClip[] {
  return state.isLocked ? clips.filter((it) => !it.notLined) : [];
}

/** What is played: the clips that move together, or the one in hand that moves by itself. */
export function playedClips(clips: readonly LinedClip[], state: BesideState): readonly LinedClip[] {
  const inHand = clips.find((it) => it.id === state.inHand);
  const together = movingTogether(clips, state);
  return inHand && !together.includes(inHand) ? [inHand] : together;
}

/** From where to where the clock of what is played runs; null when there is nothing to play. */
export function playReach(clips: readonly LinedClip[], state: BesideState): readonly [number, number] | null {
  const played = playedClips(clips, state);
  if (played.length === 0) return null;
  const reaches = played.map(reachOf);
  return [Math.min(...reaches.map(([first]) => first)), Math.max(...reaches.map(([, last]) => last))];
}

/** Where in its reach playing begins: where the clip in hand stands, or from the first frame on once it has ended. */
export function playStart(clips: readonly LinedClip[], state: BesideState, reach: readonly [number, number]): number {
  const leader = clips.find((it) => it.id === state.inHand);
  const standing = leader ? commonSeconds(leader, state.places[leader.id]?.frameIndex ?? 0) : clockOf(clips, state);
  return standing === null || standing >= reach[1] - 1e-6 ? reach[0] : standing;
}

function placed(state: BesideState, id: string, to: (place: ClipPlace) => ClipPlace): BesideState {
  const place = state.places[id];
  return place ? { ...state, places: { ...state.places, [id]: to(place) } } : state;
}

function atFrame(state: BesideState, lined: LinedClip, frameIndex: number): BesideState {
  return frameOf(state, lined) === frameIndex ? state : placed(state, lined.id, (it) => ({ ...it, frameIndex }));
}

/** Shows a frame of one clip; those locked to it follow to the frame nearest in real time. */
function showFrame(clips: readonly LinedClip[], state: BesideState, lined: LinedClip, wanted: number): BesideState {
  const frameIndex = stepFrame(wanted, 0, lined.frameCount);
  const before = frameOf(state, lined);
  const next: BesideState = { ...atFrame(state, lined, frameIndex), travel: frameIndex === before ? state.travel : frameIndex > before ? 1 : -1 };
  const together = movingTogether(clips, state);
  if (!together.includes(lined)) return next;
  const seconds = commonSeconds(lined, frameIndex);
  return together.reduce((all, it) => (it === lined ? all : atFrame(all, it, frameAt(it, seconds))), next);
}

/** Shows an instant of the common clock: of all locked clips, or of the clip in hand. */
function showAt(clips: readonly LinedClip[], state: BesideState, seconds: number): BesideState {
  const inHand = clips.find((it) => it.id === state.inHand);
  const together = movingTogether(clips, state);
  const moved = inHand && !together.includes(inHand) ? [inHand] : together;
  const travel = Math.sign(seconds - (clockOf(clips, state) ?? seconds)) as Travel;
  return moved.reduce((all, it) => atFrame(all, it, frameAt(it, seconds)), { ...state, travel: travel === 0 ? state.travel : travel });
}

/** The event as the clip in hand has it, else as another clip does. */
function goEvent(clips: readonly LinedClip[], state: BesideState, event: EventId): BesideState {
  const inHand = clips.filter((it) => it.id === state.inHand);
  const others = movingTogether(clips, state).filter((it) => it.id !== state.inHand);
  for (const lined of [...inHand, ...others]) {
    const frameIndex = lined.clip.events.find((it) => it.event === event)?.frameIndex ?? null;
    if (frameIndex !== null && eventTimes(lined).some((it) => it.event === event)) return showFrame(clips, { ...state, isPlaying: false }, lined, frameIndex);
  }
  return state;
}

/** What is locked goes to the instant of the clip in hand. */
function locked(clips: readonly LinedClip[], state: BesideState): BesideState {
  const seconds = clockOf(clips, state);
  return seconds === null ? state : movingTogether(clips, state).reduce((all, it) => (it.id === state.inHand ? all : atFrame(all, it, frameAt(it, seconds))), state);
}

/** Clips that came join at the clock's instant; clips that went are forgotten; the rest stays as it was. */
function withClips(clips: readonly LinedClip[], state: BesideState, flipped: readonly string[]): BesideState {
  const inHand = clips.some((it) => it.id === state.inHand) ? state.inHand : (clips[0]?.id ?? "");
  const seconds = clockOf(clips.filter((it) => it.id in state.places), state) ?? 0;
  const kept = Object.fromEntries(
    clips.map((it) => {
      const before = state.places[it.id];
      return [it.id, before ? { ...before, frameIndex: stepFrame(before.frameIndex, 0, it.frameCount) } : placeAt(it, seconds, flipped)];
    }),
  );
  return locked(clips, { ...state, places: kept, inHand, tapping: null });
}

/** The look of a clip as it can be in a box of this size. */
export function lookIn(place: ClipPlace, picture: Size, box: Size): Look {
  return clampLook(place.look, picture, box);
}
