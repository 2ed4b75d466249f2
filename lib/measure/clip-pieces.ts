import { isFilled } from "@/lib/measure/between/filled-track";
import { parabolaFits, type ParabolaFit } from "@/lib/measure/smoothing/parabola-fit";
import { leastReachSeconds, WIDENINGS } from "@/lib/measure/smoothing/reach";
import type { ClipTracks, Track } from "@/lib/measure/tracks";

/** The whole clip, or what lies up to contact or from it on: nothing is smoothed or filtered across contact by who reads one side. */
export type PieceId = "whole" | "before" | "after";

/** A run of a clip's frames. */
export interface ClipPiece {
  readonly id: PieceId;
  readonly firstFrame: number;
  /** Real seconds from contact of each of its frames. */
  readonly seconds: Float64Array;
  /** The smoothing fits of a point through the piece, of growing reach, by the piece's own frames. */
  readonly fits: (track: Track) => readonly ParabolaFit[];
  /** The same with one reach of its own, seconds. */
  readonly fitWithin: (track: Track, reachSeconds: number) => ParabolaFit;
}

/** The pieces of a clip with what was worked out about them: it depends on which frames are placed, not on where. */
export interface ClipPieces {
  readonly of: (piece: PieceId) => ClipPiece;
}

/** @param contactSeconds Infinity when it is not known: then all lies before it */
export function clipPieces({ seconds, periodSeconds }: ClipTracks, contactSeconds: number): ClipPieces {
  const all = Float64Array.from(seconds);
  const slack = periodSeconds / 10;
  const made = new Map<PieceId, ClipPiece>();
  const least = leastReachSeconds(periodSeconds);
  const piece = (id: PieceId): ClipPiece => {
    let [from, to] = [0, all.length];
    if (id === "before") while (to > 0 && (all[to - 1] ?? NaN) > contactSeconds + slack) to--;
    if (id === "after") while (from < all.length && (all[from] ?? NaN) < contactSeconds - slack) from++;
    const own = all.subarray(from, to);
    const isPlacedThroughout = new Uint8Array(own.length).fill(1);
    const known = new Map<string, readonly ParabolaFit[]>();
    const fitted = (track: Track, reaches: readonly number[]) => {
      const isComplete = track.frames.length === all.length;
      const key = `${isComplete ? "all" : isFilled(track) ? `filled ${track.point}` : track.point} ${reaches.join(" ")}`;
      const found = known.get(key);
      if (found) return found;
      const isKnown = isComplete ? isPlacedThroughout : isPlacedThroughout.map((_, i) => (Number.isNaN(track.h[from + i] ?? NaN) ? 0 : 1));
      const fits = parabolaFits(isKnown, own, reaches);
      known.set(key, fits);
      return fits;
    };
    const widths = WIDENINGS.map((widening) => widening * least);
    return { id, firstFrame: from, seconds: own, fits: (track) => fitted(track, widths), fitWithin: (track, reachSeconds) => fitted(track, [reachSeconds])[0] as ParabolaFit };
  };
  return {
    of: (id) => {
      const own = made.get(id) ?? piece(id);
      made.set(id, own);
      return own;
    },
  };
}
