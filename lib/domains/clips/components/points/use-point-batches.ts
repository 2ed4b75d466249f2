import { useMemo } from "react";
import { limbOf } from "../../points/rules";
import { POINT_PAIRS, type PointPair } from "../../points/schema";
import type { ViewerCommand } from "../../rules";
import type { CameraView, PointId, PointView } from "../../view";
import type { Change, Kept } from "../kept";
import { copyBatch, pairsOn, placedNeighbour, suggestionsOn, swapBatch, takeBatch } from "./point-batch";

/** What can be done to several points of the frame shown at once. */
export interface PointBatches {
  /** Pairs of which something is known here: they can be exchanged. */
  readonly pairs: readonly PointPair[];
  readonly onSwap: (pairs: readonly PointPair[]) => void;
  /** How many points can be taken over from the nearest placed frame before and after, and which frame that is. */
  readonly before: Neighbour | null;
  readonly after: Neighbour | null;
  readonly onCopy: (direction: -1 | 1) => void;
  /** Suggestions here that nobody has answered. */
  readonly suggested: ReturnType<typeof suggestionsOn>;
  /** Takes them as they lie; `isAll` = the weak ones too. */
  readonly onTake: (isAll: boolean) => void;
  readonly onTakeOne: (point: PointView) => void;
  /** Does what a key asks; false when it asks for something else. */
  readonly obey: (command: ViewerCommand) => boolean;
}

export interface Neighbour {
  readonly frameIndex: number;
  readonly count: number;
}

/** @param inHand the point that is asked for or was placed last: its limb is exchanged by one key */
export function usePointBatches(kept: Kept, frameIndex: number, view: CameraView, canMeasure: boolean, inHand: PointId | null, commit: (change: Change) => void): PointBatches {
  const { pairs, copies } = useMemo(() => (canMeasure ? batchesOn(kept, frameIndex) : NONE), [kept, frameIndex, canMeasure]);
  const neighbour = (direction: -1 | 1): Neighbour | null => {
    const found = copies[direction];
    return found && { frameIndex: found.from, count: found.batch.steps.length };
  };
  const onSwap = (own: readonly PointPair[]) => {
    const batch = canMeasure ? swapBatch(kept, frameIndex, own) : null;
    if (batch) commit(batch);
  };
  const onCopy = (direction: -1 | 1) => {
    const batch = copies[direction]?.batch;
    if (batch) commit(batch);
  };
  const suggested = useMemo(() => (canMeasure ? suggestionsOn(kept, frameIndex, view) : NONE_SUGGESTED), [kept, frameIndex, view, canMeasure]);
  const take = (points: readonly PointView[]) => {
    const batch = canMeasure ? takeBatch(points, frameIndex) : null;
    if (batch) commit(batch);
  };
  // With the drafts taken, or none there, only a word of its own takes the weak ones.
  const onTake = (isAll: boolean) => take(isAll ? [...suggested.drafts, ...suggested.weak] : suggested.drafts);
  return {
    pairs, before: neighbour(-1), after: neighbour(1), onSwap, onCopy, suggested, onTake, onTakeOne: (point) => take([point]),
    obey: (command) => {
      if (command.kind === "swap-points") onSwap(command.isLimb ? ((inHand && limbOf(inHand)?.pairs) ?? []) : POINT_PAIRS);
      else if (command.kind === "copy-points") onCopy(command.from);
      else if (command.kind === "take-points") onTake(command.isAll);
      else return false;
      return true;
    },
  };
}

const NONE_SUGGESTED: PointBatches["suggested"] = { drafts: [], weak: [] };
const NONE: ReturnType<typeof batchesOn> = { pairs: [], copies: { [-1]: null, 1: null } };

/** What a frame lets be done: the pairs that can be exchanged, and what the nearest placed frames have to give. */
function batchesOn(kept: Kept, frameIndex: number) {
  const copyFrom = (direction: -1 | 1) => {
    const from = placedNeighbour(kept.points, frameIndex, direction);
    const batch = from === null ? null : copyBatch(kept, frameIndex, from);
    return batch && from !== null ? { from, batch } : null;
  };
  return { pairs: pairsOn(kept, frameIndex), copies: { [-1]: copyFrom(-1), 1: copyFrom(1) } };
}
