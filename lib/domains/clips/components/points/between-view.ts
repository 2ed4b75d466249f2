import { nextBestFrame, type NextBestFrame } from "@/lib/measure/between/next-best-frame";
import { framesStillWanted } from "@/lib/measure/between/frames-still-wanted";
import { betweenFrames } from "@/lib/measure/between/between-frames";
import { pointNoise, torsoForNoisePx } from "@/lib/measure/point-noise";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { tracksOf, type ClipTracks } from "@/lib/measure/tracks";
import { contactTickOf, plainClipInput, type Spot } from "../../rules";
import type { ClipView, EventView, PointId, PointView, UnseenPointView } from "../../view";
import { findPoint, type Kept } from "../kept";
import type { PointRun } from "../waiting-runs";
import { isOpen } from "./point-known";

/** A point worked out between placed frames, in pixels of the upright picture. It is never kept. */
export interface BetweenPoint extends Spot {
  readonly point: PointId;
}

/** What is known of a clip between its placed frames. */
export interface BetweenView {
  /** The points worked out on a frame. */
  readonly on: (frameIndex: number) => readonly BetweenPoint[];
  /** Where a further placed frame helps most; null when nothing is wanted over a stretch, or all of it is placed. */
  readonly best: NextBestFrame | null;
  /** The runs that still have a hole that cannot be worked out. */
  readonly openRuns: readonly PointRun[];
}

/** The next best frame once somebody has gone there, with the points that it asks for. */
export interface FrameInHand {
  readonly frame: number;
  readonly points: readonly PointId[];
}

/** The points that still wait on the frame in hand while it is the one shown: of these nobody has said anything, or what was said was taken back. */
export function waitingOn(inHand: FrameInHand | null, kept: Kept, frameIndex: number): readonly PointId[] {
  return inHand?.frame === frameIndex ? inHand.points.filter((point) => isOpen(findPoint(kept, frameIndex, point))) : [];
}

const NOTHING: Omit<BetweenView, "openRuns"> = { on: () => [], best: null };

type TimedClip = Pick<ClipView, "view" | "isMirrored" | "side" | "frameTimes" | "realSecondsPerFileSecond" | "timeBasis" | "widthPx" | "heightPx">;

/** Works out the points between placed frames, and the next best frame for the runs that are wanted; nothing while contact or real time is not known. */
export function betweenView(clip: TimedClip, points: readonly PointView[], unseen: readonly UnseenPointView[], events: readonly EventView[], runs: readonly PointRun[]): BetweenView {
  const zero = contactTickOf(events);
  if (zero === null || clip.timeBasis === "unknown") return { ...NOTHING, openRuns: runs };
  const tracks = tracksOf(plainClipInput(clip, points, zero), clip.side);
  if (!tracks) return { ...NOTHING, openRuns: runs };
  const torsoPx = torsoForNoisePx(tracks);
  const noisePx = pointNoise(STARTER_RULES.noise, torsoPx)("hip_f", false);
  const unseenOn = new Set(unseen.map(({ frameIndex, point }) => `${frameIndex} ${point}`));
  const placed = (point: PointId) => tracks.byPoint[point]?.frames ?? [];
  const isUnseen = (point: PointId, frame: number) => unseenOn.has(`${frame} ${point}`);
  const clock = { seconds: tracks.seconds, periodSeconds: tracks.periodSeconds, contactSeconds: 0 };
  return {
    on: placesBetween(tracks, points, isUnseen),
    openRuns: runs.filter((run) => framesStillWanted([run], { placed, isUnseen }, clock).length > 0),
    best: nextBestFrame(runs, { placed, isUnseen }, { tracks, contactSeconds: 0, torsoPx, noisePx }),
  };
}

/** The curve is the same in the picture as in the swing's own coordinates. */
function placesBetween({ seconds, periodSeconds, byPoint }: ClipTracks, points: readonly PointView[], isUnseen: (point: PointId, frame: number) => boolean): BetweenView["on"] {
  const spots = new Map(points.map((it) => [`${it.frameIndex} ${it.point}`, it]));
  const onFrame = new Map<number, BetweenPoint[]>();
  for (const { point, frames } of Object.values(byPoint)) {
    for (const { frame, knots, weights } of betweenFrames(frames, { seconds, periodSeconds, contactSeconds: 0 })) {
      if (isUnseen(point, frame)) continue;
      const along = (axis: "x" | "y") => weights.reduce((sum, weight, i) => sum + weight * (spots.get(`${knots[i]} ${point}`)?.[axis] ?? NaN), 0);
      const own = onFrame.get(frame) ?? [];
      onFrame.set(frame, own);
      own.push({ point, x: along("x"), y: along("y") });
    }
  }
  return (frameIndex) => onFrame.get(frameIndex) ?? [];
}
