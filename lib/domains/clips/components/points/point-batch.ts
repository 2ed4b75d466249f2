import { otherSideOf, pairOf } from "../../points/rules";
import { POINT_PAIRS, type PointPair } from "../../points/schema";
import { pointIds, type PointView } from "../../view";
import { findPoint, type Kept } from "../kept";
import type { PointBatch, PointStep } from "./point-known";

/** The pairs of which something is known on a frame. */
export function pairsOn(kept: Kept, frameIndex: number): readonly PointPair[] {
  return POINT_PAIRS.filter((pair) => findPoint(kept, frameIndex, `${pair}_f`) !== null || findPoint(kept, frameIndex, `${pair}_b`) !== null);
}

/** Front and back of some pairs exchanged on a frame; null when nothing is known of any of them there. */
export function swapBatch(kept: Kept, frameIndex: number, pairs: readonly PointPair[]): PointBatch | null {
  const known = pairsOn(kept, frameIndex).filter((pair) => pairs.includes(pair));
  const steps = known.flatMap((pair) => [`${pair}_f`, `${pair}_b`] as const).map((point): PointStep => {
    const after = findPoint(kept, frameIndex, otherSideOf(point));
    return { point, before: findPoint(kept, frameIndex, point), after: after === null || after === "unseen" ? after : { ...after, point } };
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
  const steps = pointIds.flatMap((point): readonly PointStep[] => {
    const [there, before] = [findPoint(kept, from, point), findPoint(kept, frameIndex, point)];
    const isFree = before === null || (before !== "unseen" && before.source === "suggested");
    return isFree && there !== null && there !== "unseen" && there.source === "coach" ? [{ point, before, after: { ...there, frameIndex } }] : [];
  });
  return steps.length > 0 ? { kind: "points", by: "copy", frameIndex, steps } : null;
}
