import { useMemo } from "react";
import { limbOf } from "../../points/rules";
import { POINT_PAIRS, type PointPair } from "../../points/schema";
import type { ViewerCommand } from "../../rules";
import type { PointId } from "../../view";
import type { Change, Kept } from "../kept";
import { copyBatch, pairsOn, placedNeighbour, swapBatch } from "./point-batch";

/** What can be done to several points of the frame shown at once. */
export interface PointBatches {
  /** Pairs of which something is known here: they can be exchanged. */
  readonly pairs: readonly PointPair[];
  readonly onSwap: (pairs: readonly PointPair[]) => void;
  /** How many points can be taken over from the nearest placed frame before and after, and which frame that is. */
  readonly before: Neighbour | null;
  readonly after: Neighbour | null;
  readonly onCopy: (direction: -1 | 1) => void;
  /** Does what a key asks; false when it asks for something else. */
  readonly obey: (command: ViewerCommand) => boolean;
}

export interface Neighbour {
  readonly frameIndex: number;
  readonly count: number;
}

/** @param inHand the point that is asked for or was placed last: its limb is exchanged by one key */
export function usePointBatches(kept: Kept, frameIndex: number, canMeasure: boolean, inHand: PointId | null, commit: (change: Change) => void): PointBatches {
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
  return {
    pairs, before: neighbour(-1), after: neighbour(1), onSwap, onCopy,
    obey: (command) => {
      if (command.kind === "swap-points") onSwap(command.isLimb ? ((inHand && limbOf(inHand)?.pairs) ?? []) : POINT_PAIRS);
      else if (command.kind === "copy-points") onCopy(command.from);
      else return false;
      return true;
    },
  };
}

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
