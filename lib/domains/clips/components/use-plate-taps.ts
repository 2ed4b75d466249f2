"use client";
import { useCallback, useMemo, useState } from "react";
import type { Spot } from "../rules";

/** Home plate being marked: the picture's view hands its taps over while `isAsking`. */
export interface PlateTaps {
  readonly isAsking: boolean;
  /** Corners marked so far, pixels of the upright picture. */
  readonly corners: readonly Spot[];
  /** The frame on which the first corner was marked. */
  readonly frameIndex: number | null;
  readonly begin: () => void;
  readonly stop: () => void;
  /** A tap (or Enter at the cross) on the picture. Beyond the fifth corner it does nothing. */
  readonly take: (at: Spot, frameIndex: number) => void;
  readonly takeBack: () => void;
}

export const PLATE_CORNERS = 5;

interface Taps {
  readonly isAsking: boolean;
  readonly corners: readonly Spot[];
  readonly frameIndex: number | null;
}

const NONE: Taps = { isAsking: false, corners: [], frameIndex: null };

/** Keeps the corners of home plate while a coach marks them. */
export function usePlateTaps(): PlateTaps {
  const [taps, setTaps] = useState<Taps>(NONE);
  const begin = useCallback(() => setTaps({ ...NONE, isAsking: true }), []);
  const stop = useCallback(() => setTaps(NONE), []);
  const take = useCallback(
    ({ x, y }: Spot, frameIndex: number) =>
      setTaps((before) => (!before.isAsking || before.corners.length >= PLATE_CORNERS ? before : { ...before, corners: [...before.corners, { x, y }], frameIndex: before.frameIndex ?? frameIndex })),
    [],
  );
  const takeBack = useCallback(() => setTaps((before) => ({ ...before, corners: before.corners.slice(0, -1), frameIndex: before.corners.length > 1 ? before.frameIndex : null })), []);
  return useMemo(() => ({ ...taps, begin, stop, take, takeBack }), [taps, begin, stop, take, takeBack]);
}
