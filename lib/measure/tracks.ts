import type { ClipInput, Side } from "@/lib/measure/clip-input";
import { framePeriod } from "@/lib/measure/event-times";
import { POINT_IDS, type PointId } from "@/lib/measure/points";
import { swingPositionOf } from "@/lib/measure/swing-coordinates";

/** Where one point is through a clip, in swing coordinates (pixels). Arrays by frame index, NaN where it is not placed. */
export interface Track {
  readonly point: PointId;
  /** Frames on which it is placed, in order. */
  readonly frames: readonly number[];
  readonly h: Float64Array;
  readonly v: Float64Array;
  readonly suggestedFrames: ReadonlySet<number>;
  /** Frames on which it was set outside the picture; there it is not placed. */
  readonly framesOutside: readonly number[];
}

/** A clip turned once into swing coordinates and real time. */
export interface ClipTracks {
  /** Real seconds from contact of each frame. */
  readonly seconds: readonly number[];
  /** The clip's median interval between frames in real seconds. */
  readonly periodSeconds: number;
  readonly byPoint: Readonly<Partial<Record<PointId, Track>>>;
}

/**
 * Turns a clip into tracks. `null` when its view or its real time is not known, its times do not increase, or it has
 * fewer than two frames, so that there is no interval between them.
 */
export function tracksOf(clip: ClipInput, side: Side): ClipTracks | null {
  const { view, secondsFromContact: seconds } = clip;
  if (view === null || seconds === null || seconds.length < 2 || !seconds.every(Number.isFinite)) return null;
  const periodSeconds = framePeriod(seconds);
  if (!(periodSeconds > 0 && periodSeconds < Infinity)) return null;
  const byPoint: Partial<Record<PointId, Track>> = {};
  for (const point of POINT_IDS) {
    const track = trackOf(point, clip, { view, side, mirrored: clip.mirrored }, seconds.length);
    if (track) byPoint[point] = track;
  }
  return { seconds, periodSeconds, byPoint };
}

/** The same tracks after one point of the clip was changed: only its own track is made anew. */
export function retrack(tracks: ClipTracks, point: PointId, clip: ClipInput, side: Side): ClipTracks {
  const { [point]: _, ...others } = tracks.byPoint;
  const track = clip.view === null ? null : trackOf(point, clip, { view: clip.view, side, mirrored: clip.mirrored }, tracks.seconds.length);
  return { ...tracks, byPoint: track ? { ...others, [point]: track } : others };
}

function trackOf(
  point: PointId,
  clip: ClipInput,
  picture: Parameters<typeof swingPositionOf>[1],
  frameCount: number,
): Track | null {
  const h = new Float64Array(frameCount).fill(NaN);
  const v = new Float64Array(frameCount).fill(NaN);
  const frames: number[] = [];
  const framesOutside: number[] = [];
  const suggestedFrames = new Set<number>();
  for (let frame = 0; frame < frameCount; frame++) {
    const place = clip.points[frame]?.[point];
    if (!place || !Number.isFinite(place.x) || !Number.isFinite(place.y)) continue;
    if (place.x < 0 || place.y < 0 || place.x > (clip.widthPx ?? Infinity) || place.y > (clip.heightPx ?? Infinity)) {
      if (clip.widthPx !== undefined || clip.heightPx !== undefined) {
        framesOutside.push(frame);
        continue;
      }
    }
    const position = swingPositionOf(place, picture);
    h[frame] = position.h;
    v[frame] = position.v;
    frames.push(frame);
    if (place.source === "suggested") suggestedFrames.add(frame);
  }
  return frames.length + framesOutside.length > 0 ? { point, frames, h, v, suggestedFrames, framesOutside } : null;
}

/** Real time of a frame, seconds from contact; NaN for no such frame. */
export function secondsOf(tracks: ClipTracks, frame: number): number {
  return tracks.seconds[frame] ?? NaN;
}
