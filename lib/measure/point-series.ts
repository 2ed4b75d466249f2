import type { ClipPiece } from "@/lib/measure/clip-pieces";
import { keptByTrack } from "@/lib/measure/kept-by-track";
import type { PointId } from "@/lib/measure/points";
import type { Curve, PointSeries } from "@/lib/measure/sample-window";
import { bestGuesses } from "@/lib/measure/smoothing/best-guess";
import type { Passage } from "@/lib/measure/smoothing/passage";
import type { WindowNoise } from "@/lib/measure/smoothing/window-noise";
import type { ClipTracks, Track } from "@/lib/measure/tracks";

/** A point through a piece of the clip as it is placed. */
export interface PlacedCurve {
  readonly point: PointId;
  readonly track: Track | undefined;
  readonly curve: Curve;
  /** SD of one coordinate on each sample. */
  readonly sd: Float64Array;
  /** Everything that the SDs come from. */
  readonly sdKey: string;
}

/** @param sdOf SD of one coordinate of a point that is placed, or suggested */
export function placedCurve(point: PointId, { firstFrame, seconds }: ClipPiece, tracks: ClipTracks, sdOf: (isSuggested: boolean) => number): PlacedCurve {
  const track = tracks.byPoint[point];
  const cut = (row: Float64Array | undefined) => row?.subarray(firstFrame, firstFrame + seconds.length) ?? new Float64Array(seconds.length).fill(NaN);
  const [placed, suggested] = [sdOf(false), sdOf(true)];
  const sd = new Float64Array(seconds.length).fill(placed);
  for (const frame of track?.suggestedFrames ?? []) if (frame - firstFrame in sd) sd[frame - firstFrame] = suggested;
  return { point, track, curve: { h: cut(track?.h), v: cut(track?.v) }, sd, sdKey: `${placed} ${suggested}` };
}

const keptGuess = keptByTrack<readonly Float64Array[]>();

/** What one point gives a window: its curve passed, and when it is asked for the best guess at its true curve. */
export function pointSeries(
  { point, track, curve, sd, sdKey }: PlacedCurve, passage: Passage,
  { axes, piece, frameCorrelation, isFiltered }: { readonly axes: readonly ("h" | "v")[]; readonly piece: ClipPiece; readonly frameCorrelation: number; readonly isFiltered: boolean },
): PointSeries {
  // The axis that nobody looks at stays as it is placed.
  const withAxes = (of: (axis: "h" | "v", i: number) => Float64Array | undefined): Curve => ({ ...curve, ...Object.fromEntries(axes.map((axis, i) => [axis, of(axis, i)])) });
  const passed = (from: Curve): Curve => withAxes((axis) => through(passage, from[axis]));
  const { from, to } = passage.looksAt;
  let noise: WindowNoise | null = null;
  return {
    point, sd, passage, placed: passed(curve),
    noise: () => (noise ??= passage.noise(sd, frameCorrelation)),
    guess: () => {
      if (!track || passage.isBare) return { bare: curve, passed: passed(curve) };
      const guesses = keptGuess(track, `${piece.id} ${axes.join("")} ${from} ${to} ${sdKey} ${frameCorrelation}`, () =>
        bestGuesses(piece.fits(track), axes.map((axis) => curve[axis]), sd, frameCorrelation, from, to));
      const bare = withAxes((_, i) => guesses[i]);
      const smooth = passed(bare);
      return { bare: isFiltered ? smooth : bare, passed: smooth };
    },
  };
}

function through({ pass }: Passage, values: Float64Array): Float64Array {
  const passed = new Float64Array(values.length).fill(NaN);
  pass(values, passed);
  return passed;
}
