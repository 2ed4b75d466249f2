import { strayPx } from "@/lib/measure/between/between-doubt";
import { betweenFrames, type BetweenFrame, type FrameClock } from "@/lib/measure/between/between-frames";
import { followedFrames } from "@/lib/measure/between/followed-frames";
import { keptByTrack } from "@/lib/measure/kept-by-track";
import type { Track } from "@/lib/measure/tracks";

/** A track whose small holes are filled by the curve through its placed frames. Its frames are those placed and those filled. */
export interface FilledTrack extends Track {
  /** The followed frames, then the filled ones, and how each comes about. */
  readonly between: readonly BetweenFrame[];
  /** By frame: SD in pixels of one coordinate that a followed or filled place has beside the noise of its placed frames; 0 elsewhere. */
  readonly stray: Float64Array;
}

const kept = keptByTrack<FilledTrack>();

/**
 * A track with its holes filled as far as they may be; one without such holes is given back as it is, without work.
 * @param torsoPx torso length in the picture, for what the curve may stray
 */
export function filledTrack(track: Track, clock: FrameClock, torsoPx: number): FilledTrack {
  return kept(track, `${clock.contactSeconds} ${torsoPx}`, () => fill(track, clock, torsoPx));
}

/** Whether a track has frames that are followed or filled. */
export function isFilled(track: Track | undefined): track is FilledTrack {
  return track !== undefined && "between" in track && (track as FilledTrack).between.length > 0;
}

function fill(track: Track, clock: FrameClock, torsoPx: number): FilledTrack {
  const workedOut = betweenFrames(track.frames, clock);
  const followed = followedFrames(track, clock.seconds);
  // The followed ones first: a curve may go through them.
  const between = [...followed, ...workedOut];
  if (between.length === 0) return { ...track, between, stray: NO_STRAY };
  const [h, v, stray] = [track.h.slice(), track.v.slice(), new Float64Array(track.h.length)];
  for (const { frame } of followed) stray[frame] = track.followed?.get(frame) ?? 0;
  for (const { frame, knots, left, weights } of workedOut) {
    const along = (row: Float64Array) => weights.reduce((sum, weight, i) => sum + weight * (row[knots[i] ?? 0] ?? NaN), 0);
    h[frame] = along(track.h);
    v[frame] = along(track.v);
    const times = knots.map((knot) => clock.seconds[knot] ?? NaN);
    stray[frame] = strayPx(track.point, { times, left }, clock.seconds[frame] ?? NaN, torsoPx, [track.h, track.v].map((row) => (knot: number) => row[knots[knot] ?? 0] ?? NaN));
  }
  const frames = [...track.frames, ...workedOut.map(({ frame }) => frame)].sort((a, b) => a - b);
  return { ...track, frames, h, v, between, stray };
}

const NO_STRAY = new Float64Array(0);
