import { frameAtTick, type FrameTimes } from "@/lib/core/frame-times";
import type { FoundSwing } from "@/lib/measure/find-swings/find-swings";

/** The stepping copy has a key frame at every eighth frame: a cut begins at one, so that its pictures need not be encoded again. */
export const KEY_FRAMES_APART = 8;
/** A stretch shorter than this holds no swing. */
export const LEAST_FRAMES = 8;
export const MOST_CUTS = 60;
/** A film that plays shorter than this holds one swing. Common practice, no source. */
export const LEAST_TO_CUT_SECONDS = 5;

/** A swing as it is offered or was set by a coach, in frames of the clip that is cut; both ends included. */
export interface Cut {
  readonly firstFrame: number;
  readonly lastFrame: number;
  /** The frame nearest to the crack; null when none was heard. */
  readonly contactFrame: number | null;
}

/** A cut whose beginning lies on a key frame at or before it, inside the clip. */
export function snapped(cut: Cut, frameCount: number): Cut {
  const firstFrame = Math.max(0, Math.floor(cut.firstFrame / KEY_FRAMES_APART) * KEY_FRAMES_APART);
  return { ...cut, firstFrame, lastFrame: Math.min(frameCount - 1, cut.lastFrame) };
}

/** What was found in a film, as cuts of its frames. @param times of the whole film */
export function cutsOf(found: readonly FoundSwing[], times: FrameTimes): readonly Cut[] {
  const frameAt = (seconds: number) => frameAtTick(times, (times.ticks[0] ?? 0) + (seconds * times.timeBaseDen) / times.timeBaseNum);
  return found.flatMap((it) => {
    const cut = snapped({ firstFrame: frameAt(it.fromSeconds), lastFrame: frameAt(it.toSeconds), contactFrame: it.by === "motion" ? null : frameAt(it.contactSeconds) }, times.ticks.length);
    return cut.lastFrame - cut.firstFrame + 1 >= LEAST_FRAMES ? [cut] : [];
  });
}

/** Real seconds before and after a frame that a coach adds as contact. */
const AROUND_S = { before: 1.8, after: 1.2 };

/** A cut around a frame that a coach points at. */
export function cutAround(frame: number, times: FrameTimes, realSecondsPerFileSecond: number): Cut {
  const tick = times.ticks[frame] ?? 0;
  const at = (realSeconds: number) => frameAtTick(times, tick + (realSeconds / realSecondsPerFileSecond) * (times.timeBaseDen / times.timeBaseNum));
  return snapped({ firstFrame: at(-AROUND_S.before), lastFrame: at(AROUND_S.after), contactFrame: null }, times.ticks.length);
}

/** A cut with one end moved to a frame; null when nothing would be left of it. */
export function withEnd(cut: Cut, end: "first" | "last", frame: number, frameCount: number): Cut | null {
  const moved = snapped(end === "first" ? { ...cut, firstFrame: frame } : { ...cut, lastFrame: frame }, frameCount);
  if (moved.lastFrame - moved.firstFrame + 1 < LEAST_FRAMES) return null;
  const { contactFrame } = moved;
  return { ...moved, contactFrame: contactFrame !== null && contactFrame >= moved.firstFrame && contactFrame <= moved.lastFrame ? contactFrame : null };
}

export type CutterCommand =
  | { readonly kind: "step"; readonly by: number }
  | { readonly kind: "next-cut"; readonly by: -1 | 1 }
  | { readonly kind: "add" }
  | { readonly kind: "drop" }
  | { readonly kind: "end"; readonly end: "first" | "last" }
  | { readonly kind: "give"; readonly tile: number };

interface Press {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

/** What a key asks of the cutter; null when it is not ours. Arrows step, up and down go from cut to cut, A adds, Delete drops, brackets set the ends, digits say whose. */
export function cutterCommandOf(press: Press, tileCount: number): CutterCommand | null {
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  switch (press.key) {
    case "ArrowLeft":
      return { kind: "step", by: press.shiftKey ? -10 : -1 };
    case "ArrowRight":
      return { kind: "step", by: press.shiftKey ? 10 : 1 };
    case "ArrowUp":
      return { kind: "next-cut", by: -1 };
    case "ArrowDown":
      return { kind: "next-cut", by: 1 };
    case "a":
    case "A":
      return { kind: "add" };
    case "Delete":
    case "Backspace":
      return { kind: "drop" };
    case "[":
      return { kind: "end", end: "first" };
    case "]":
      return { kind: "end", end: "last" };
    default: {
      const tile = "1234567890".indexOf(press.key);
      return press.key.length === 1 && tile >= 0 && tile < tileCount ? { kind: "give", tile } : null;
    }
  }
}
