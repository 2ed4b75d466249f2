import type { FollowedPoint } from "@/lib/measure/following/bat-course";
import type { PointId, PointView } from "../../view";

/** What is known of one point on one frame. */
export type PointKnown = PointView | "unseen" | null;

/** Whether nobody has said anything of it yet; a suggestion is nothing that a person said. */
export function isOpen(known: PointKnown): boolean {
  return known === null || (known !== "unseen" && known.source === "suggested");
}

/** What becomes of one point when several of a frame are changed together. */
export interface PointStep {
  readonly point: PointId;
  readonly before: PointKnown;
  readonly after: PointKnown;
}

/** Several points of a frame changed together: undone in one step. */
export interface PointBatch {
  readonly kind: "points";
  /** Front and back are exchanged, places are taken over from another frame, or suggestions are taken as they are. */
  readonly by: "swap" | "copy" | "take";
  readonly frameIndex: number;
  readonly steps: readonly PointStep[];
}

/** What becomes of one end of the bat on one frame. */
export interface FollowedStep {
  readonly frameIndex: number;
  readonly point: FollowedPoint;
  readonly before: PointKnown;
  readonly after: PointKnown;
}

/** Places of several frames that were followed through the pictures, taken together: undone in one step. */
export interface FollowedTaken {
  readonly kind: "followed";
  readonly steps: readonly FollowedStep[];
}
