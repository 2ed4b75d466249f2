import type { SwingInput } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { framesBefore, secondsOf, type ClipTracks } from "@/lib/measure/tracks";

/** The frames that show the hitter standing still, and how good they are for it. */
export interface StanceFrames {
  readonly frames: readonly number[];
  /** `rough`: taken before toe touch instead; `late`: anything before contact. Both double the SD. */
  readonly quality: "still" | "rough" | "late";
}

const STILL_SECONDS = 0.25;

/** Frames on which all of the points are placed, in order. */
export function framesWithAll(tracks: ClipTracks, points: readonly PointId[]): readonly number[] {
  const [first, ...others] = points.map((point) => tracks.byPoint[point]);
  if (!first || others.some((track) => !track)) return [];
  const holed = others.flatMap((track) => (track && track.frames.length < tracks.seconds.length ? [track.h] : []));
  return holed.length === 0 ? first.frames : first.frames.filter((frame) => holed.every((row) => !Number.isNaN(row[frame])));
}

/**
 * Frames with the points placed in the 0.25 s up to and including the stance; if there are none, those before toe touch;
 * if there are none, all before contact. Empty when no such frame has the points.
 * Source: conventions `derived`, stance frames.
 */
export function stanceFrames(tracks: ClipTracks, points: readonly PointId[], events: SwingInput["events"]): StanceFrames {
  const frames = framesWithAll(tracks, points);
  const slack = tracks.periodSeconds / 10;
  const stance = events.stance?.seconds;
  if (stance !== undefined) {
    const still = [];
    for (let i = framesBefore({ frames }, tracks, stance - STILL_SECONDS - slack); i < frames.length; i++) {
      const frame = frames[i] ?? 0;
      const before = stance - secondsOf(tracks, frame);
      if (before < -slack) break;
      if (before <= STILL_SECONDS + slack) still.push(frame);
    }
    if (still.length > 0) return { frames: still, quality: "still" };
  }
  const toe = events.toe?.seconds;
  const early = toe === undefined ? [] : frames.filter((frame) => secondsOf(tracks, frame) < toe);
  if (early.length > 0) return { frames: early, quality: "rough" };
  const contact = events.contact?.seconds ?? 0;
  return { frames: frames.filter((frame) => secondsOf(tracks, frame) < contact), quality: "late" };
}
