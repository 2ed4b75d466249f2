import { filledTrack } from "@/lib/measure/between/filled-track";
import { isFollowed } from "@/lib/measure/between/followed-frames";
import type { PointId } from "@/lib/measure/points";
import type { ClipTracks, Track } from "@/lib/measure/tracks";

/**
 * A clip's tracks with their small holes filled; the same tracks where none has any, so that a clip with every point placed costs nothing.
 * @param contactSeconds Infinity when it is not known @param torsoPx torso length in the picture, for the doubt of what is filled
 */
export function filledTracks(tracks: ClipTracks, contactSeconds: number, torsoPx: number): ClipTracks {
  const clock = { seconds: tracks.seconds, periodSeconds: tracks.periodSeconds, contactSeconds };
  let filled: Partial<Record<PointId, Track>> | null = null;
  for (const track of Object.values(tracks.byPoint)) {
    if (!hasHoles(track) && !isFollowed(track)) continue;
    filled ??= { ...tracks.byPoint };
    filled[track.point] = filledTrack(track, clock, torsoPx);
  }
  return filled ? { ...tracks, byPoint: filled } : tracks;
}

/** Whether a track is placed on frames that do not follow each other. */
export function hasHoles({ frames }: Pick<Track, "frames">): boolean {
  return frames.length > 1 && (frames.at(-1) ?? 0) - (frames[0] ?? 0) !== frames.length - 1;
}
