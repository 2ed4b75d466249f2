import { framePeriod } from "@/lib/measure/event-times";
import { LEAST_SAMPLES, twoPassFilter, type PieceFilter } from "@/lib/measure/signals/butterworth";
import { piecesOf } from "@/lib/measure/signals/pieces";
import { evenTimes, isUneven, resample } from "@/lib/measure/signals/resample";

/** Why a track, or a part of it, has no filtered value. */
export type UnfilteredReason =
  | "no-rate" // times that do not increase, fewer than two frames
  | "slow-frames" // half the frame rate is at or below the cut-off
  | "short-piece" // every run has fewer than 12 samples
  | "no-points";

/** One run that was filtered: its frames, and its values there, in the unit of the track. */
export interface FilteredPiece {
  readonly frames: readonly number[];
  readonly values: Float64Array;
  readonly side: "before" | "after";
}

/** A filtered track. */
export interface FilteredTrack {
  /** By frame; NaN on frames whose value was not known or whose run is too short. Contact's own frame is the run's before it. */
  readonly values: Float64Array;
  readonly pieces: readonly FilteredPiece[];
  /** Null when at least one run was filtered. */
  readonly reason: UnfilteredReason | null;
}

/** A plan to filter tracks that are placed on the same frames; it may be used often (draws) and reuses its memory. */
export interface TrackFilter {
  readonly reason: UnfilteredReason | null;
  /** Runs that are filtered: those before contact in order of time, then those after it. */
  readonly pieces: readonly Pick<FilteredPiece, "frames" | "side">[];
  /** Filters a track into `into`, both by frame; NaN where the plan has no run. */
  readonly filter: (values: Float64Array, into: Float64Array) => void;
}

interface PlannedPiece {
  readonly frames: readonly number[];
  /** The frames follow each other without a hole. */
  readonly isRow: boolean;
  readonly side: "before" | "after";
  readonly times: Float64Array;
  /** Null where the samples stand in equal steps. */
  readonly even: Float64Array | null;
  readonly run: PieceFilter;
  readonly work: Float64Array;
}

/**
 * Plans the filtering of a track: Winter's two-pass Butterworth over each run, never across a gap of more than three
 * intervals or across contact, runs of uneven times by way of a cubic spline in steps of the median interval. Unknown
 * input gives a plan without runs and its reason.
 * Source: conventions `time.unevenTimes`, `time.filter`.
 * @param known by frame: not finite where the point is not placed; nothing else of it is looked at
 * @param seconds real time of each frame
 * @param contactSeconds null when contact is not known
 * @param cutoffHz two-pass cut-off @throws RangeError for a cut-off that is not above 0
 * @param periodSeconds the median interval, where it is known already
 */
export function planTrackFilter(known: Float64Array, seconds: ArrayLike<number>, contactSeconds: number | null, cutoffHz: number, periodSeconds: number = framePeriod(Array.from(seconds))): TrackFilter {
  const planned = planPieces(known, seconds, contactSeconds, cutoffHz, periodSeconds);
  if (typeof planned === "string") return { reason: planned, pieces: [], filter: (_values, into) => into.fill(NaN) };
  return {
    reason: null,
    pieces: planned.map(({ frames, side }) => ({ frames, side })),
    filter: (values, into) => writeFiltered(planned, values, into),
  };
}

/**
 * One track filtered once. `values` by frame, NaN where the point is not placed; the answer is on the same frames.
 * @throws RangeError for a cut-off that is not above 0
 */
export function filterTrack(values: Float64Array, seconds: ArrayLike<number>, contactSeconds: number | null, cutoffHz: number): FilteredTrack {
  const planned = planPieces(values, seconds, contactSeconds, cutoffHz, framePeriod(Array.from(seconds)));
  const into = new Float64Array(values.length).fill(NaN);
  if (typeof planned === "string") return { values: into, pieces: [], reason: planned };
  writeFiltered(planned, values, into);
  return { values: into, pieces: planned.map(({ frames, side, work }) => ({ frames, side, values: work })), reason: null };
}

function planPieces(known: Float64Array, seconds: ArrayLike<number>, contactSeconds: number | null, cutoffHz: number, periodSeconds: number): readonly PlannedPiece[] | UnfilteredReason {
  if (!(cutoffHz > 0 && cutoffHz < Infinity)) throw new RangeError(`the cut-off must be above 0 Hz, not ${cutoffHz}`);
  if (!(periodSeconds > 0)) return "no-rate";
  if (!(cutoffHz < 0.5 / periodSeconds)) return "slow-frames";
  const pieces = piecesOf(known, seconds, periodSeconds, contactSeconds);
  if (pieces.length === 0) return "no-points";
  const planned = pieces.flatMap(({ frames, side }): PlannedPiece[] => {
    if (frames.length < LEAST_SAMPLES) return [];
    const times = Float64Array.from(frames, (frame) => seconds[frame] ?? NaN);
    const even = isUneven(times, periodSeconds) ? evenTimes(times, periodSeconds) : null;
    const count = even?.length ?? times.length;
    const rateHz = (count - 1) / ((times[times.length - 1] ?? NaN) - (times[0] ?? NaN));
    if (count < LEAST_SAMPLES || !(cutoffHz < rateHz / 2)) return [];
    const isRow = (frames.at(-1) ?? NaN) - (frames[0] ?? NaN) === frames.length - 1;
    return [{ frames, isRow, side, times, even, run: twoPassFilter(cutoffHz, rateHz), work: new Float64Array(times.length) }];
  });
  return planned.length > 0 ? planned : "short-piece";
}

/** Filters every run; those before contact are written last, so that contact's own frame keeps the value of the run before it. */
function writeFiltered(planned: readonly PlannedPiece[], values: Float64Array, into: Float64Array): void {
  for (const piece of planned) filterPiece(piece, values);
  into.fill(NaN);
  for (const side of ["after", "before"] as const) for (const piece of planned) if (piece.side === side) writePiece(piece, into);
}

function writePiece({ frames, isRow, work }: PlannedPiece, into: Float64Array): void {
  if (isRow) into.set(work, frames[0]);
  else for (let i = 0; i < frames.length; i++) into[frames[i] ?? 0] = work[i] ?? NaN;
}

/** Filters one run into its own memory. */
function filterPiece({ frames, isRow, times, even, run, work }: PlannedPiece, values: Float64Array): void {
  const [first] = frames;
  if (isRow && first !== undefined) work.set(values.subarray(first, first + work.length));
  else for (let i = 0; i < frames.length; i++) work[i] = values[frames[i] ?? 0] ?? NaN;
  if (!even) {
    run(work, work);
    return;
  }
  const steady = resample(times, work, even);
  run(steady, steady);
  work.set(resample(even, steady, times));
}
