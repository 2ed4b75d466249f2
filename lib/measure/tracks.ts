import type { ClipInput, PlacedPoint, Side } from "@/lib/measure/clip-input";
import { framePeriod } from "@/lib/measure/event-times";
import { POINT_IDS, type PointId } from "@/lib/measure/points";
import { swingPositionOf, type PictureFrame } from "@/lib/measure/swing-coordinates";

/** Where one point is through a clip, in swing coordinates (pixels). Arrays by frame index, NaN where it is not placed. */
export interface Track {
  readonly point: PointId;
  /** Frames on which it is placed, in order. */
  readonly frames: readonly number[];
  readonly h: Float64Array;
  readonly v: Float64Array;
  readonly suggestedFrames: ReadonlySet<number>;
  /** Frames on which it was followed from placed ones, with the SD in pixels of one coordinate that it has beside their noise; none when left out. */
  readonly followed?: ReadonlyMap<number, number>;
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
  const picture = { view, side, mirrored: clip.mirrored };
  const started: Partial<Record<PointId, StartedTrack>> = {};
  for (let frame = 0; frame < seconds.length; frame++) {
    const places = clip.points[frame];
    for (const point in places) {
      if (!IS_POINT.has(point)) continue;
      const place = places[point as PointId];
      if (place) addPlace((started[point as PointId] ??= startTrack(point as PointId, seconds.length)), frame, place, clip, picture);
    }
  }
  const byPoint: Partial<Record<PointId, Track>> = {};
  for (const point of POINT_IDS) {
    const track = started[point];
    if (track && track.frames.length + track.framesOutside.length > 0) byPoint[point] = track;
  }
  return { seconds, periodSeconds, byPoint };
}

/** How many of a track's frames lie before a time. */
export function framesBefore(track: Pick<Track, "frames">, tracks: Pick<ClipTracks, "seconds">, seconds: number): number {
  let [low, high] = [0, track.frames.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((tracks.seconds[track.frames[middle] ?? 0] ?? NaN) < seconds) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * The same tracks after one point of the clip was changed: only its own track is made anew.
 * @param frame the only one on which it was changed
 */
export function retrack(tracks: ClipTracks, point: PointId, clip: ClipInput, side: Side, frame: number): ClipTracks {
  const { [point]: own, ...others } = tracks.byPoint;
  if (clip.view === null) return { ...tracks, byPoint: others };
  const picture = { view: clip.view, side, mirrored: clip.mirrored };
  const track = own ? changedTrack(own, frame, clip.points[frame]?.[point], clip, picture) : trackOf(point, clip, picture, tracks.seconds.length);
  return { ...tracks, byPoint: track ? { ...others, [point]: track } : others };
}

/** A track with another place, or none, on one frame. */
function changedTrack(track: Track, frame: number, place: PlacedPoint | undefined, clip: ClipInput, picture: PictureFrame): Track | null {
  if (!(frame in track.h)) return track;
  const without = (frames: readonly number[]) => (frames.includes(frame) ? frames.filter((other) => other !== frame) : [...frames]);
  const changed: StartedTrack = { ...track, frames: without(track.frames), framesOutside: without(track.framesOutside), h: track.h.slice(), v: track.v.slice(), suggestedFrames: new Set(track.suggestedFrames), followed: new Map(track.followed) };
  changed.h[frame] = changed.v[frame] = NaN;
  changed.suggestedFrames.delete(frame);
  changed.followed.delete(frame);
  if (place) addPlace(changed, frame, place, clip, picture);
  const inOrder = (frames: number[]) => {
    for (let i = frames.length - 1; i > 0 && (frames[i - 1] ?? 0) > (frames[i] ?? 0); i--) [frames[i - 1], frames[i]] = [frames[i] ?? 0, frames[i - 1] ?? 0];
  };
  inOrder(changed.frames);
  inOrder(changed.framesOutside);
  return changed.frames.length + changed.framesOutside.length > 0 ? changed : null;
}

interface StartedTrack extends Track {
  readonly frames: number[];
  readonly framesOutside: number[];
  readonly suggestedFrames: Set<number>;
  readonly followed: Map<number, number>;
}

const IS_POINT: ReadonlySet<string> = new Set(POINT_IDS);

function startTrack(point: PointId, frameCount: number): StartedTrack {
  return { point, frames: [], h: new Float64Array(frameCount).fill(NaN), v: new Float64Array(frameCount).fill(NaN), suggestedFrames: new Set(), followed: new Map(), framesOutside: [] };
}

function addPlace(track: StartedTrack, frame: number, place: PlacedPoint, { widthPx, heightPx }: ClipInput, picture: PictureFrame): void {
  if (!Number.isFinite(place.x) || !Number.isFinite(place.y)) return;
  const isOutside = place.x < 0 || place.y < 0 || place.x > (widthPx ?? Infinity) || place.y > (heightPx ?? Infinity);
  if (isOutside && (widthPx !== undefined || heightPx !== undefined)) {
    track.framesOutside.push(frame);
    return;
  }
  const { h, v } = swingPositionOf(place, picture);
  track.h[frame] = h;
  track.v[frame] = v;
  track.frames.push(frame);
  if (place.source === "suggested") track.suggestedFrames.add(frame);
  if (place.followedSdPx !== undefined) track.followed.set(frame, place.followedSdPx);
}

function trackOf(point: PointId, clip: ClipInput, picture: PictureFrame, frameCount: number): Track | null {
  const track = startTrack(point, frameCount);
  for (let frame = 0; frame < frameCount; frame++) {
    const place = clip.points[frame]?.[point];
    if (place) addPlace(track, frame, place, clip, picture);
  }
  return track.frames.length + track.framesOutside.length > 0 ? track : null;
}

/** Real time of a frame, seconds from contact; NaN for no such frame. */
export function secondsOf(tracks: ClipTracks, frame: number): number {
  return tracks.seconds[frame] ?? NaN;
}
