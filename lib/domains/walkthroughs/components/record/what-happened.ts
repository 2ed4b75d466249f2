import type { BesideState, ClipPlace } from "@/lib/domains/clips/components/beside/beside-state";
import type { ClipBeside, MarkShape } from "@/lib/domains/clips/view";
import type { LinedClip } from "@/lib/domains/clips/components/beside/lined-clip";
import { anchorsOf, torsoScale } from "@/lib/domains/clips/components/beside/laid-over";
import { MOST_HAPPENINGS, type Happening, type Over, type TakeList } from "../../list/schema";

const tenth = (value: number) => Math.round(value * 10) / 10;
const lookOf = ({ look }: ClipPlace) => ({ zoom: Math.round(look.zoom * 1000) / 1000, x: tenth(look.centre.x), y: tenth(look.centre.y) });

/** How clips lie over one another, as it is kept; null while they stand side by side. */
export function overOf(clips: readonly ClipBeside[], state: BesideState): Over | null {
  if (!state.isLaidOver || clips.length < 2 || state.tapping) return null;
  const views = clips.map(({ clip }) => clip);
  const { spots } = anchorsOf(views, state.anchor, state.taps);
  const { torsoPx } = torsoScale(views);
  return {
    opacity: Math.round(state.opacity * 100) / 100,
    spots: views.map(({ id, widthPx, heightPx }) => ({ x: tenth(spots[id]?.x ?? widthPx / 2), y: tenth(spots[id]?.y ?? heightPx / 2) })),
    torsosPx: views.map(({ id }) => (torsoPx[id] ? tenth(torsoPx[id]) : null)),
  };
}

/** How everything stands, as the beginning of a take. */
export function startOf(clips: readonly ClipBeside[], state: BesideState): TakeList["start"] {
  const places = clips.flatMap(({ clip }) => state.places[clip.id] ?? []);
  return {
    frames: places.map((it) => it.frameIndex), looks: places.map(lookOf), flips: places.map((it) => it.isFlipped),
    inHand: Math.max(0, clips.findIndex(({ clip }) => clip.id === state.inHand)), isLocked: state.isLocked, hasPoints: state.hasPoints, over: overOf(clips, state),
  };
}

/** What of it can be seen changed from one state of the page to the next. While clips run, their frames follow from when they began. */
export function whatHappened(clips: readonly ClipBeside[], before: BesideState, after: BesideState, at: number): readonly Happening[] {
  const [was, is] = [startOf(clips, before), startOf(clips, after)];
  const changed = (a: unknown, b: unknown) => JSON.stringify(a) !== JSON.stringify(b);
  const isRunning = after.isPlaying && before.isPlaying;
  const frames: readonly Happening[] = !isRunning && !after.isPlaying && (changed(was.frames, is.frames) || before.isPlaying) ? [{ at, kind: "show", frames: is.frames }] : [];
  return [
    ...(was.inHand !== is.inHand ? [{ at, kind: "hand", clip: is.inHand } as const] : []),
    ...(was.isLocked !== is.isLocked ? [{ at, kind: "lock", isLocked: is.isLocked } as const] : []),
    ...frames,
    ...is.looks.flatMap((look, clip) => (changed(was.looks[clip], look) ? [{ at, kind: "look", clip, look } as const] : [])),
    ...is.flips.flatMap((isFlipped, clip) => (was.flips[clip] !== isFlipped ? [{ at, kind: "flip", clip, isFlipped } as const] : [])),
    ...(was.hasPoints !== is.hasPoints ? [{ at, kind: "points", hasPoints: is.hasPoints } as const] : []),
    ...(changed(was.over, is.over) ? [{ at, kind: "over", over: is.over } as const] : []),
  ];
}

/** Looks that follow quicker than this are kept as one. */
const LOOKS_APART_MS = 40;

/** The list with one more thing that was shown; the same list when it is full. */
export function withHappening(happenings: readonly Happening[], it: Happening): readonly Happening[] {
  const last = happenings.at(-1);
  if (it.kind === "look" && last?.kind === "look" && last.clip === it.clip && it.at - last.at < LOOKS_APART_MS) return [...happenings.slice(0, -1), { ...last, look: it.look }];
  if (happenings.length >= MOST_HAPPENINGS) return happenings;
  // A drawing is entered with the time at which it was begun.
  const index = happenings.findLastIndex((other) => other.at <= it.at) + 1;
  return [...happenings.slice(0, index), it, ...happenings.slice(index)];
}

/** A finished or half-finished take in its stored form. */
export function listOf(clips: readonly ClipBeside[], lined: readonly LinedClip[], start: TakeList["start"], happenings: readonly Happening[], durationMs: number): TakeList {
  return {
    v: 1,
    durationMs: Math.round(durationMs),
    clips: clips.map(({ clip, caption }) => ({
      clipId: clip.id, frameCount: clip.frameTimes.ticks.length, widthPx: clip.widthPx, heightPx: clip.heightPx,
      zeroTick: lined.find(({ id }) => id === clip.id)?.zeroTick ?? null, realSecondsPerFileSecond: clip.realSecondsPerFileSecond, caption: caption.slice(0, 80),
      marks: clip.marks.slice(0, 60).map(({ frameIndex, shape }) => ({ frame: frameIndex, shape: roundedShape(shape) })),
    })),
    start,
    happenings: happenings.map((it) => ({ ...it, at: Math.min(Math.round(durationMs), Math.round(it.at)) })),
  };
}

/** A shape to a tenth of a pixel, as plain values. */
export function roundedShape(shape: MarkShape): TakeList["clips"][number]["marks"][number]["shape"] {
  const round = (value: unknown): unknown => (typeof value === "number" ? tenth(value) : Array.isArray(value) ? value.map(round) : value);
  return Object.fromEntries(Object.entries(shape).map(([key, value]) => [key, key === "v" ? value : round(value)])) as TakeList["clips"][number]["marks"][number]["shape"];
}
