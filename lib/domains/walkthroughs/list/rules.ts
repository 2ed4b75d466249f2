import type { FrameTimes } from "@/lib/core/frame-times";
import { nearestFrame, tickAtClockSeconds } from "@/lib/domains/clips/rules";
import type { MarkShape } from "@/lib/domains/clips/view";
import type { Called, Happening, ListClip, Over, TakeList } from "./schema";

/** A drawing as far as it has come. */
export interface DrawnMark {
  readonly id: string;
  readonly clip: number;
  readonly frame: number;
  readonly shape: MarkShape;
}

/** What stands on the screen at one instant of a take. Clips by their place in the list. */
export interface Stand {
  readonly frames: readonly number[];
  readonly looks: readonly { readonly zoom: number; readonly x: number; readonly y: number }[];
  readonly flips: readonly boolean[];
  readonly inHand: number;
  readonly isLocked: boolean;
  readonly isPlaying: boolean;
  readonly hasPoints: boolean;
  readonly over: Over | null;
  readonly marks: readonly DrawnMark[];
  readonly called: Called | null;
}

/** When each frame of the take's clips is shown, by their place; null for a clip whose film is gone: it keeps its frame. */
export type ClipTimes = readonly (FrameTimes | null)[];

interface Fold {
  readonly stand: Stand;
  readonly playing: Extract<Happening, { kind: "play" }> | null;
  readonly drawings: readonly Extract<Happening, { kind: "mark" }>[];
}

/** The frame of a clip that is nearest in real time to an instant of the common clock. */
export function frameAtSeconds(clip: Pick<ListClip, "zeroTick" | "realSecondsPerFileSecond">, frameTimes: FrameTimes, seconds: number): number {
  const { zeroTick, realSecondsPerFileSecond } = clip;
  return nearestFrame(frameTimes, tickAtClockSeconds({ frameTimes, realSecondsPerFileSecond }, seconds, zeroTick));
}

/** What stands on the screen so many milliseconds into the take: from the list and the frame times alone, the same at every asking. */
export function stateAt(list: TakeList, times: ClipTimes, ms: number): Stand {
  let fold = begun(list);
  for (const it of list.happenings) {
    if (it.at > ms) break;
    fold = after(list, times, fold, it);
  }
  return standOf(list, times, fold, ms);
}

/** The same answers as `stateAt`, quick for one instant after another. */
export function followList(list: TakeList, times: ClipTimes): (ms: number) => Stand {
  let [fold, done, last] = [begun(list), 0, 0];
  return (ms) => {
    if (ms < last) [fold, done] = [begun(list), 0];
    last = ms;
    for (let it = list.happenings[done]; it && it.at <= ms; it = list.happenings[done]) {
      fold = after(list, times, fold, it);
      done += 1;
    }
    return standOf(list, times, fold, ms);
  };
}

function begun({ clips, start }: TakeList): Fold {
  const marks = clips.flatMap((it, clip) => it.marks.map(({ frame, shape }, i) => ({ id: `before-${clip}-${i}`, clip, frame, shape })));
  return { stand: { ...start, isPlaying: false, marks, called: null }, playing: null, drawings: [] };
}

function after(list: TakeList, times: ClipTimes, fold: Fold, it: Happening): Fold {
  const { stand } = fold;
  const change = (to: Partial<Stand>): Fold => ({ ...fold, stand: { ...stand, ...to } });
  switch (it.kind) {
    case "show":
      return { ...fold, playing: null, stand: { ...stand, frames: it.frames } };
    case "play":
      return { ...fold, playing: it, stand: { ...stand, frames: playedFrames(list, times, stand.frames, fold.playing, it.at) } };
    case "look":
      return change({ looks: stand.looks.with(it.clip, it.look) });
    case "flip":
      return change({ flips: stand.flips.with(it.clip, it.isFlipped) });
    case "hand":
      return change({ inHand: it.clip });
    case "lock":
      return change({ isLocked: it.isLocked });
    case "points":
      return change({ hasPoints: it.hasPoints });
    case "over":
      return change({ over: it.over });
    case "mark":
      return { ...fold, drawings: [...fold.drawings, it] };
    case "unmark":
      return { ...fold, drawings: fold.drawings.filter(({ id }) => id !== it.id) };
    case "call":
      return change({ called: it.called });
  }
}

function standOf(list: TakeList, times: ClipTimes, { stand, playing, drawings }: Fold, ms: number): Stand {
  const frames = playedFrames(list, times, stand.frames, playing, ms);
  const marks = drawings.map(({ id, clip, frame, shape, overMs, paceMs, at }) => ({ id, clip, frame, shape: growingShape(shape, ms - at, overMs, paceMs) }));
  return { ...stand, frames, isPlaying: playing !== null && secondsOf(playing, ms) < playing.toSeconds, marks: marks.length > 0 ? [...stand.marks, ...marks] : stand.marks };
}

function secondsOf({ at, rate, fromSeconds, toSeconds }: Extract<Happening, { kind: "play" }>, ms: number): number {
  return Math.min(toSeconds, fromSeconds + ((ms - at) / 1000) * rate);
}

function playedFrames(list: TakeList, times: ClipTimes, frames: readonly number[], playing: Fold["playing"], ms: number): readonly number[] {
  if (!playing) return frames;
  const seconds = secondsOf(playing, ms);
  return frames.map((frame, i) => {
    const [clip, frameTimes] = [list.clips[i], times[i]];
    return clip && frameTimes && playing.clips.includes(i) ? frameAtSeconds(clip, frameTimes, seconds) : frame;
  });
}

/** A shape as far as the hand has come after so many milliseconds: it grows from where it began. */
export function growingShape(shape: MarkShape, ms: number, overMs: number, paceMs?: readonly number[]): MarkShape {
  if (ms >= overMs || shape.kind === "words") return shape;
  const part = Math.max(0.001, ms / overMs);
  switch (shape.kind) {
    case "line":
      return { ...shape, x2: mix(shape.x1, shape.x2, part), y2: mix(shape.y1, shape.y2, part) };
    case "ring":
      return { ...shape, rx: shape.rx * part, ry: shape.ry * part };
    case "angle": {
      const [first, second] = [Math.min(1, part * 2), Math.max(0.001, part * 2 - 1)];
      if (first < 1) return { v: 1, kind: "line", x1: shape.x1, y1: shape.y1, x2: mix(shape.x1, shape.x2, first), y2: mix(shape.y1, shape.y2, first) };
      return { ...shape, x3: mix(shape.x2, shape.x3, second), y3: mix(shape.y2, shape.y3, second) };
    }
    case "pen": {
      const count = paceMs ? paceMs.filter((it) => it <= ms).length : Math.ceil(shape.places.length * part);
      return { ...shape, places: shape.places.slice(0, Math.max(2, count)) };
    }
  }
}

const mix = (from: number, to: number, part: number) => from + (to - from) * part;

/** A stretch of a take under what was pointed at in it. */
export interface ChapterDraft {
  readonly fromMs: number;
  readonly toMs: number;
  readonly title: string;
  /** Null where nothing of the library was pointed at. */
  readonly about: Exclude<Called, { kind: "event" }> | null;
  /** The clip that was in hand, by its place. */
  readonly clip: number;
}

/** A chapter is at least so long; what was pointed at for less belongs to what follows. */
const LEAST_CHAPTER_MS = 1500;

/** Chapters of a take from what was pointed at: each checkpoint, fault or drill begins one that lasts until the next. Events begin none. */
export function chaptersOf(list: TakeList): readonly ChapterDraft[] {
  let hand = list.start.inHand;
  const begins: { at: number; about: ChapterDraft["about"]; clip: number }[] = [{ at: 0, about: null, clip: hand }];
  for (const it of list.happenings) {
    if (it.kind === "hand") hand = it.clip;
    if (it.kind === "call" && it.called && it.called.kind !== "event") begins.push({ at: it.at, about: it.called, clip: hand });
  }
  const kept: typeof begins = [];
  for (const [i, one] of begins.entries()) {
    const until = begins[i + 1]?.at ?? list.durationMs;
    const before = kept.at(-1);
    if (until - one.at < LEAST_CHAPTER_MS && i < begins.length - 1) continue;
    // The same thing twice in a row is one chapter.
    if (before && before.about?.id === one.about?.id && before.about?.kind === one.about?.kind) continue;
    kept.push(kept.length === 0 ? { ...one, at: 0 } : one);
  }
  return kept.map(({ at, about, clip }, i) => ({ fromMs: at, toMs: kept[i + 1]?.at ?? list.durationMs, title: about?.name ?? "Opening", about, clip }));
}
