import { useEffect, useMemo, useRef, useState } from "react";
import { torsoForNoisePx } from "@/lib/measure/point-noise";
import { tracksOf } from "@/lib/measure/tracks";
import type { FollowedPlace } from "@/lib/measure/following/follow-bat";
import { contactTickOf, plainClipInput, realSecondsBetween, type Spot, type ViewerCommand } from "../../rules";
import type { ClipView, PointId } from "../../view";
import type { FrameSource } from "../frame-source-type";
import { findPoint, type Change, type Kept } from "../kept";
import { isOpen } from "../points/point-known";
import { batByHand, batHolesAt, type BatHole } from "./bat-hole";
import { followInSlices } from "./follow-in-slices";
import { takeFollowed } from "./followed-taken";

/** A place that was followed on the frame shown, in pixels of the upright picture. */
export interface FollowedSpot extends Spot {
  readonly point: PointId;
  readonly sdPx: number;
}

/** The bat followed over the stretch around the frame shown. */
export interface Following {
  /** `none`: there is nothing to follow here. `ready`: it can be followed. `found`: places wait to be taken, perhaps none. */
  readonly state: "none" | "ready" | "working" | "found";
  /** The stretch's ends; null for none. */
  readonly stretch: { readonly from: number; readonly to: number } | null;
  readonly spots: readonly FollowedSpot[];
  /** Places that wait to be taken, in all of those that are open in the stretch, and the largest SD among them in pixels. */
  readonly held: number;
  readonly open: number;
  readonly worstSdPx: number;
  readonly onFollow: () => void;
  readonly onTake: () => void;
  readonly onStop: () => void;
  /** Does what a key asks; false when it asks for something else. */
  readonly obey: (command: ViewerCommand) => boolean;
}

interface Found {
  readonly holes: readonly BatHole[];
  /** The points on which it rests: another placing and it must be followed anew. */
  readonly key: string;
  readonly places: readonly FollowedPlace[] | "working";
}

/** @param commit keeps what is taken, in one step */
export function useFollowing(clip: ClipView, kept: Kept, frameIndex: number, source: FrameSource | null, commit: (change: Change) => void): Following {
  const { frameTimes, widthPx, abilities } = clip;
  const { points, unseenPoints, events } = kept;
  const canFollow = abilities.canMeasure && source?.alsoWant !== undefined;
  const holes = useMemo(() => (canFollow ? batHolesAt(points, unseenPoints, frameIndex, frameTimes.ticks, contactTickOf(events)) : []), [canFollow, points, unseenPoints, frameIndex, frameTimes, events]);
  const [found, setFound] = useState<Found | null>(null);
  const stopRef = useRef<AbortController | null>(null);
  const stop = () => {
    stopRef.current?.abort();
    stopRef.current = null;
    source?.alsoWant?.(null);
  };
  useEffect(() => () => stopRef.current?.abort(), []);

  const bat = useMemo(() => batByHand(points), [points]);
  const keyOf = (own: readonly BatHole[]) => own.map(({ from, to }) => `${from} ${to} ${JSON.stringify([bat.get(from), bat.get(to)])}`).join(" ");
  const isHere = found !== null && found.holes.some(({ from, to }) => from <= frameIndex && frameIndex <= to) && found.key === keyOf(found.holes);
  const shown = isHere ? found : null;
  const places = shown && shown.places !== "working" ? shown.places.filter(({ frame, point }) => isOpen(findPoint(kept, frame, point))) : [];
  const about = shown?.holes ?? holes;

  const onFollow = () => {
    if (!source || holes.length === 0) return;
    stop();
    const leaving = new AbortController();
    stopRef.current = leaving;
    const key = keyOf(holes);
    setFound({ holes, key, places: "working" });
    const [first, last] = [Math.min(...holes.map(({ from }) => from)), Math.max(...holes.map(({ to }) => to))];
    source.alsoWant?.({ from: first, to: last });
    const tracks = tracksOf(plainClipInput(clip, points, frameTimes.ticks[0] ?? 0), clip.side);
    const seconds = frameTimes.ticks.map((tick) => realSecondsBetween(clip, frameTimes.ticks[0] ?? 0, tick));
    const followable = { source, widthPx, seconds, bat, torsoPx: tracks ? torsoForNoisePx(tracks) : 0 };
    void (async () => {
      const all: FollowedPlace[] = [];
      for (const hole of holes) {
        const own = await followInSlices(hole, followable, leaving.signal);
        if (own === null || leaving.signal.aborted) return;
        all.push(...own);
      }
      source.alsoWant?.(null);
      setFound({ holes, key, places: all });
    })();
  };
  const onStop = () => {
    stop();
    setFound(null);
  };
  const onTake = () => {
    const taken = takeFollowed(kept, places);
    if (taken) commit(taken);
    setFound(null);
  };
  const state = shown?.places === "working" ? "working" : shown ? "found" : holes.length > 0 ? "ready" : "none";
  return {
    state, onFollow, onTake, onStop,
    stretch: about.length > 0 ? { from: Math.min(...about.map(({ from }) => from)), to: Math.max(...about.map(({ to }) => to)) } : null,
    spots: places.filter(({ frame }) => frame === frameIndex).map(({ point, x, y, sdPx }) => ({ point, x, y, sdPx })),
    held: places.length, open: about.reduce((sum, { from, to, points: own }) => sum + own.length * (to - from - 1), 0), worstSdPx: Math.max(0, ...places.map(({ sdPx }) => sdPx)),
    obey: (command) => {
      if (command.kind !== "follow-bat") return false;
      if (places.length > 0) onTake();
      else if (state === "ready") onFollow();
      return true;
    },
  };
}
