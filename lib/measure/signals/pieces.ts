/** Samples further apart than this many intervals have a gap between them. Source: conventions `time.unevenTimes`. */
export const LARGEST_GAP = 3;

/** Guards a comparison of times against rounding, in intervals. */
const EPSILON = 1e-6;

/** Frames of a track that may be treated as one run: frame indexes on which the value is known, in order. */
export interface Piece {
  readonly frames: readonly number[];
  /** Whether it ends at or before contact or starts at or after it; `before` also when contact is not known. */
  readonly side: "before" | "after";
}

/**
 * The runs of a track: never across a gap of more than three intervals and never across contact. A frame exactly at
 * contact ends the run before it and also starts the run after it. Values that are not finite are not known.
 * @param seconds real time of each frame, strictly increasing
 * @param periodSeconds the clip's median interval
 * @param contactSeconds null when contact is not known: then nothing is divided there
 */
export function piecesOf(values: Float64Array, seconds: ArrayLike<number>, periodSeconds: number, contactSeconds: number | null): readonly Piece[] {
  const slack = EPSILON * periodSeconds;
  const pieces: Piece[] = [];
  for (const side of ["before", "after"] as const) {
    let frames: number[] = [];
    for (let frame = 0; frame < values.length; frame++) {
      const time = seconds[frame] ?? NaN;
      if (!Number.isFinite(values[frame]) || !Number.isFinite(time) || !isOn(side, time)) continue;
      const last = frames.at(-1);
      if (last !== undefined && !(time - (seconds[last] ?? NaN) <= LARGEST_GAP * periodSeconds + slack)) {
        pieces.push({ frames, side });
        frames = [];
      }
      frames.push(frame);
    }
    if (frames.length > 0) pieces.push({ frames, side });
  }
  return pieces;

  function isOn(side: Piece["side"], time: number): boolean {
    if (contactSeconds === null) return side === "before";
    return side === "before" ? time <= contactSeconds + slack : time >= contactSeconds - slack;
  }
}
