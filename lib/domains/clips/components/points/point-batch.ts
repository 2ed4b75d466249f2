import { otherSideOf, pairOf } from "../../points/rules";
import { POINT_PAIRS, type PointPair } from "../../points/schema";
import { isWeakSuggestion } from "@/lib/measure/suggest-points/weak-suggestions";
import { pointIds, type CameraView, type PointId, type PointView } from "../../view";
import { findPoint, type Kept } from "../kept";
import { isOpen, type PointBatch, type PointKnown, type PointStep } from "./point-known";

/** What is known of every point on one frame: the clip is gone through once, not once a point. */
function knownOn({ points, unseenPoints, ...others }: Kept, frameIndex: number): (point: PointId) => PointKnown {
  const isHere = (it: { readonly frameIndex: number }) => it.frameIndex === frameIndex;
  const here: Kept = { ...others, points: points.filter(isHere), unseenPoints: unseenPoints.filter(isHere) };
  return (point) => findPoint(here, frameIndex, point);
}

/** The pairs of which something is known on a frame. */
export function pairsOn(kept: Kept, frameIndex: number): readonly PointPair[] {
  const known = knownOn(kept, frameIndex);
  return POINT_PAIRS.filter((pair) => known(`${pair}_f`) !== null || known(`${pair}_b`) !== null);
}

/** Front and back of some pairs exchanged on a frame; null when nothing is known of any of them there. */
export function swapBatch(kept: Kept, frameIndex: number, pairs: readonly PointPair[]): PointBatch | null {
  const known = knownOn(kept, frameIndex);
  const exchanged = pairsOn(kept, frameIndex).filter((pair) => pairs.includes(pair));
  const steps = exchanged.flatMap((pair) => [`${pair}_f`, `${pair}_b`] as const).map((point): PointStep => {
    const after = known(otherSideOf(point));
    return { point, before: known(point), after: after === null || after === "unseen" ? after : { ...after, point } };
  });
  return steps.length > 0 ? { kind: "points", by: "swap", frameIndex, steps } : null;
}

/** The pairs that a batch exchanges. */
export function swappedPairs({ steps }: PointBatch): readonly PointPair[] {
  return [...new Set(steps.flatMap(({ point }) => pairOf(point) ?? []))];
}

/** The nearest frame before or after one on which a coach placed points; null when there is none. */
export function placedNeighbour(points: readonly PointView[], frameIndex: number, direction: -1 | 1): number | null {
  let nearest: number | null = null;
  for (const it of points) {
    const ahead = direction * (it.frameIndex - frameIndex);
    if (it.source === "coach" && ahead > 0 && (nearest === null || ahead < direction * (nearest - frameIndex))) nearest = it.frameIndex;
  }
  return nearest;
}

/**
 * The points that a coach placed on another frame, taken over to the places where nobody has said anything on this one; null when
 * there is nothing to take over.
 */
export function copyBatch(kept: Kept, frameIndex: number, from: number): PointBatch | null {
  const [knownThere, knownHere] = [knownOn(kept, from), knownOn(kept, frameIndex)];
  const steps = pointIds.flatMap((point): readonly PointStep[] => {
    const [there, before] = [knownThere(point), knownHere(point)];
    return isOpen(before) && there !== null && there !== "unseen" && there.source === "coach" ? [{ point, before, after: { frameIndex, point, x: there.x, y: there.y, source: "coach" } }] : [];
  });
  return steps.length > 0 ? { kind: "points", by: "copy", frameIndex, steps } : null;
}

/** The suggestions on a frame that nobody has answered, those that are drafts and those that are weak in this view. */
export function suggestionsOn(kept: Kept, frameIndex: number, view: CameraView): { readonly drafts: readonly PointView[]; readonly weak: readonly PointView[] } {
  const here = kept.points.filter((it) => it.frameIndex === frameIndex && it.source === "suggested");
  return { drafts: here.filter(({ point }) => !isWeakSuggestion(point, view)), weak: here.filter(({ point }) => isWeakSuggestion(point, view)) };
}

/** Suggestions of a frame taken where they lie: from then on a person stands for them. Null when there is none. */
export function takeBatch(suggestions: readonly PointView[], frameIndex: number): PointBatch | null {
  const steps = suggestions.map((before): PointStep => ({ point: before.point, before, after: { ...before, source: "coach" } }));
  return steps.length > 0 ? { kind: "points", by: "take", frameIndex, steps } : null;
}
