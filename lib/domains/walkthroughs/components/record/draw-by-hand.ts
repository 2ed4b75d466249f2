import { drawnShape, drawnTo, isTooSmall, nextDrawing, type Drawing, type MarkTool } from "@/lib/domains/clips/components/gesture";
import { insidePicture, type Size, type Spot } from "@/lib/domains/clips/rules";
import type { MarkShape } from "@/lib/domains/clips/view";
import { roundedShape } from "./what-happened";

/** A drawing in the making, with when each place of it was reached. */
export interface ByHand {
  readonly tool: MarkTool;
  readonly clipId: string;
  /** Where the hand is, or the cross that the keys move; pixels of the picture. */
  readonly cross: Spot;
  readonly drawing: Drawing | null;
  readonly begunMs: number;
  /** Of a pen: when each place of its path was reached, in milliseconds of the take. */
  readonly reachedMs: readonly number[];
  /** Where words shall stand that are being written. */
  readonly wordsAt: Spot | null;
}

/** What was drawn, ready to be kept. */
export interface DrawnByHand {
  readonly clipId: string;
  readonly shape: MarkShape;
  readonly begunMs: number;
  readonly overMs: number;
  readonly paceMs: readonly number[] | null;
}

const LEAST_PX = 6;

export const takeTool = (tool: MarkTool, clipId: string, picture: Size): ByHand => ({ tool, clipId, cross: { x: picture.width / 2, y: picture.height / 2 }, drawing: null, begunMs: 0, reachedMs: [], wordsAt: null });

/** The hand begins where it comes down, or draws on. */
export function handAt(now: ByHand, clipId: string, to: Spot, picture: Size, ms: number): ByHand {
  const cross = insidePicture(to, picture);
  if (now.tool === "words") return { ...now, clipId, cross, wordsAt: null };
  if (!now.drawing || now.clipId !== clipId) return { ...now, clipId, cross, drawing: { tool: now.tool, from: cross, to: cross }, begunMs: ms, reachedMs: [ms] };
  const drawing = drawnTo(now.drawing, cross);
  const grew = (drawing.path?.length ?? 1) > (now.drawing.path?.length ?? 1);
  return { ...now, cross, drawing, reachedMs: grew ? [...now.reachedMs, ms] : now.reachedMs };
}

/** The hand lets go: the next part of a drawing that has more, else the drawing is done. */
export function handUp(now: ByHand, ms: number): { readonly next: ByHand; readonly done: DrawnByHand | null } {
  const { drawing, clipId, begunMs, reachedMs } = now;
  if (now.tool === "words") return { next: { ...now, wordsAt: now.cross }, done: null };
  if (!drawing) return { next: now, done: null };
  const more = nextDrawing(drawing);
  if (more) return { next: { ...now, drawing: more }, done: null };
  const next = { ...now, drawing: null, reachedMs: [] };
  const shape = drawnShape(drawing);
  if (isTooSmall(shape, LEAST_PX)) return { next, done: null };
  const overMs = Math.max(0, Math.round(ms - begunMs));
  return { next, done: { clipId, shape: roundedShape(shape), begunMs: Math.round(begunMs), overMs, paceMs: shape.kind === "pen" ? paceOf(shape.places, drawing.path ?? [], reachedMs, begunMs, overMs) : null } };
}

/** The words were written: they stand there from now on. */
export function writeWords(now: ByHand, text: string, ms: number): { readonly next: ByHand; readonly done: DrawnByHand | null } {
  const { clipId, wordsAt } = now;
  if (!wordsAt) return { next: now, done: null };
  return { next: { ...now, wordsAt: null }, done: { clipId, shape: roundedShape({ v: 1, kind: "words", ...wordsAt, text }), begunMs: Math.round(ms), overMs: 0, paceMs: null } };
}

/** When the hand was at each place that was kept of its path. */
function paceOf(places: readonly (readonly [number, number])[], path: readonly Spot[], reachedMs: readonly number[], begunMs: number, overMs: number): readonly number[] {
  let from = 0;
  return places.map(([x, y]) => {
    let [best, nearest] = [from, Infinity];
    for (let i = from; i < path.length; i++) {
      const far = Math.hypot((path[i]?.x ?? 0) - x, (path[i]?.y ?? 0) - y);
      if (far < nearest) [best, nearest] = [i, far];
      if (far < 0.01) break;
    }
    from = best;
    return Math.max(0, Math.min(overMs, Math.round((reachedMs[best] ?? begunMs) - begunMs)));
  });
}
