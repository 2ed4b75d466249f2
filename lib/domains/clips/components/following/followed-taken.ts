import type { FollowedPlace } from "@/lib/measure/following/follow-bat";
import { findPoint, type Kept } from "../kept";
import { isOpen, type FollowedStep, type FollowedTaken } from "../points/point-known";

/** Takes what was followed wherever nobody has said anything meanwhile; null when nothing of it is left to take. */
export function takeFollowed(kept: Kept, places: readonly FollowedPlace[]): FollowedTaken | null {
  const steps = places.flatMap(({ frame: frameIndex, point, x, y, ownSdPx }): readonly FollowedStep[] => {
    const before = findPoint(kept, frameIndex, point);
    return isOpen(before) ? [{ frameIndex, point, before, after: { frameIndex, point, x, y, source: "coach", followedSdPx: ownSdPx } }] : [];
  });
  return steps.length > 0 ? { kind: "followed", steps } : null;
}
