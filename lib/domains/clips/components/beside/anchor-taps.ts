import { insidePicture, type Spot } from "../../rules";
import type { LinedClip } from "./lined-clip";

/** Which place of the body, or of the picture, lies on which when clips are laid over one another. */
export type AnchorChoice = "hips" | "back-foot" | "tapped";

/** The coach is asked for a place in one clip after another; what stood before comes back when it is cancelled. */
export interface Tapping {
  readonly clipId: string;
  readonly cross: Spot;
  readonly before: AnchorChoice;
  readonly taken: Readonly<Record<string, Spot>>;
}

interface TapState {
  readonly anchor: AnchorChoice;
  readonly taps: Readonly<Record<string, Spot>>;
  readonly tapping: Tapping | null;
}

export type TapAction =
  | { readonly kind: "anchor"; readonly anchor: AnchorChoice }
  | { readonly kind: "tap-move"; readonly to: Spot }
  | { readonly kind: "tap-place" };

/** Enter by choosing "tapped", move the cross, place it in each clip in turn; only the last place makes it count. */
export function besideTap(clips: readonly LinedClip[], state: TapState, action: TapAction): TapState {
  const { anchor, taps, tapping } = state;
  if (action.kind === "anchor") {
    if (action.anchor !== "tapped") return { anchor: action.anchor, taps, tapping: null };
    const first = clips[0];
    return first ? { anchor, taps, tapping: { clipId: first.id, cross: crossIn(first, taps), before: anchor, taken: {} } } : { anchor, taps, tapping: null };
  }
  const at = clips.findIndex((it) => it.id === tapping?.clipId);
  const lined = clips[at];
  if (!tapping || !lined) return { anchor, taps, tapping };
  if (action.kind === "tap-move") return { anchor, taps, tapping: { ...tapping, cross: insidePicture(action.to, { width: lined.clip.widthPx, height: lined.clip.heightPx }) } };
  const taken = { ...tapping.taken, [lined.id]: tapping.cross };
  const next = clips[at + 1];
  return next ? { anchor, taps, tapping: { ...tapping, clipId: next.id, cross: crossIn(next, taps), taken } } : { anchor: "tapped", taps: { ...taps, ...taken }, tapping: null };
}

function crossIn({ id, clip }: LinedClip, taps: TapState["taps"]): Spot {
  return taps[id] ?? { x: clip.widthPx / 2, y: clip.heightPx / 2 };
}
