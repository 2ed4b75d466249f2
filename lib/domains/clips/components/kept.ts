import { frameForTick } from "../rules";
import { otherSideOf } from "../points/rules";
import type { ClipView, EventId, EventView, MarkView, PointId, PointView, UnseenPointView } from "../view";
import type { FollowedTaken, PointBatch, PointKnown, PointStep } from "./points/point-known";

/** What is recorded of a clip, as the page holds it while it is being changed. */
export interface Kept {
  readonly events: readonly EventView[];
  readonly points: readonly PointView[];
  readonly unseenPoints: readonly UnseenPointView[];
  readonly marks: readonly MarkView[];
}

/** One change with what stood there before, so that it can be taken back. */
export type Change =
  | { readonly kind: "event"; readonly event: EventId; readonly before: EventView | null; readonly after: EventView | null }
  | { readonly kind: "point"; readonly frameIndex: number; readonly point: PointId; readonly before: PointKnown; readonly after: PointKnown }
  | PointBatch
  | FollowedTaken
  | { readonly kind: "mark"; readonly id: string; readonly before: MarkView | null; readonly after: MarkView | null };

export function keptOf(clip: ClipView): Kept {
  return { events: clip.events, points: clip.points, unseenPoints: clip.unseenPoints, marks: clip.marks };
}

export function invertChange(change: Change): Change {
  if (change.kind === "points") return { ...change, steps: change.steps.map((step) => ({ ...step, before: step.after, after: step.before })) };
  if (change.kind === "followed") return { ...change, steps: change.steps.map((step) => ({ ...step, before: step.after, after: step.before })) };
  return { ...change, before: change.after, after: change.before } as Change;
}

export function applyChange(kept: Kept, change: Change): Kept {
  switch (change.kind) {
    case "event": {
      const others = kept.events.filter((it) => it.event !== change.event);
      return { ...kept, events: change.after ? [...others, change.after] : others };
    }
    case "point": {
      const isOther = (it: UnseenPointView) => it.frameIndex !== change.frameIndex || it.point !== change.point;
      const points = kept.points.filter(isOther);
      const unseenPoints = kept.unseenPoints.filter(isOther);
      const { frameIndex, point, after } = change;
      if (after === "unseen") return { ...kept, points, unseenPoints: [...unseenPoints, { frameIndex, point }] };
      return { ...kept, points: after ? [...points, after] : points, unseenPoints };
    }
    case "points":
      return change.steps.reduce((now, step) => applyChange(now, { kind: "point", frameIndex: change.frameIndex, ...step }), kept);
    case "followed":
      return change.steps.reduce((now, step) => applyChange(now, { kind: "point", ...step }), kept);
    case "mark": {
      const at = kept.marks.findIndex((it) => it.id === change.id);
      if (!change.after) return { ...kept, marks: kept.marks.filter((it) => it.id !== change.id) };
      const marks = at < 0 ? [...kept.marks, change.after] : kept.marks.with(at, change.after);
      return { ...kept, marks };
    }
  }
}

/** A mark gets its lasting name once the server has given it one. */
export function renameMark(kept: Kept, from: string, to: string): Kept {
  return { ...kept, marks: kept.marks.map((it) => (it.id === from ? { ...it, id: to } : it)) };
}

export function renameInChange(change: Change, from: string, to: string): Change {
  if (change.kind !== "mark" || change.id !== from) return change;
  const rename = (mark: MarkView | null) => mark && { ...mark, id: to };
  return { ...change, id: to, before: rename(change.before), after: rename(change.after) };
}

export function findEvent(kept: Kept, event: EventId): EventView | null {
  return kept.events.find((it) => it.event === event) ?? null;
}

export function findPoint(kept: Kept, frameIndex: number, point: PointId): PointKnown {
  const placed = kept.points.find((it) => it.frameIndex === frameIndex && it.point === point);
  if (placed) return placed;
  return kept.unseenPoints.some((it) => it.frameIndex === frameIndex && it.point === point) ? "unseen" : null;
}

/** The same change, made over what stands now. */
export function overPresent(change: Change, kept: Kept): Change {
  if (change.kind === "event") return { ...change, before: findEvent(kept, change.event) };
  if (change.kind === "point") return { ...change, before: findPoint(kept, change.frameIndex, change.point) };
  if (change.kind === "points") return { ...change, steps: change.steps.map((step) => stepOverPresent(change, step, kept)) };
  if (change.kind === "followed") return { ...change, steps: change.steps.map((step) => ({ ...step, before: findPoint(kept, step.frameIndex, step.point) })) };
  return { ...change, before: kept.marks.find((it) => it.id === change.id) ?? null };
}

function stepOverPresent({ by, frameIndex }: PointBatch, step: PointStep, kept: Kept): PointStep {
  const before = findPoint(kept, frameIndex, step.point);
  if (by !== "swap") return { ...step, before };
  const other = findPoint(kept, frameIndex, otherSideOf(step.point));
  return { ...step, before, after: other === null || other === "unseen" ? other : { ...other, point: step.point } };
}

/** The event set at a frame of the clip by the coach; null when there is no such frame. */
export function eventAtFrame(clip: Pick<ClipView, "frameTimes">, event: EventId, frameIndex: number): EventView | null {
  const tick = clip.frameTimes.ticks[frameIndex];
  if (tick === undefined) return null;
  return { event, tick, frameIndex: frameForTick(clip.frameTimes, tick), source: "coach", sdSeconds: null };
}
