import { betweenSamples, type BetweenSamples } from "@/lib/measure/between/between-passage";
import { placeSdPx } from "@/lib/measure/between/followed-frames";
import { isFilled } from "@/lib/measure/between/filled-track";
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
  /** The same, but on a sample that is worked out from others only what it has beside their noise. */
  readonly ownSd: Float64Array;
  /** The samples that are worked out from others; null where there are none. */
  readonly between: BetweenSamples | null;
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
  for (const frame of track?.followed?.keys() ?? []) if (track && frame - firstFrame in sd) sd[frame - firstFrame] = placeSdPx(track, frame, tracks.seconds, (isSuggested) => (isSuggested ? suggested : placed));
  const known = { point, track, curve: { h: cut(track?.h), v: cut(track?.v) }, sd, sdKey: `${placed} ${suggested}` };
  if (!isFilled(track)) return { ...known, ownSd: sd, between: null };
  const between = betweenSamples(track.between, firstFrame, seconds.length);
  const ownSd = sd.slice();
  for (const { sample, knots, weights } of between.all) {
    ownSd[sample] = track.stray[firstFrame + sample] ?? 0;
    sd[sample] = Math.hypot(ownSd[sample] ?? 0, ...knots.map((knot, k) => (weights[k] ?? 0) * (ownSd[knot] ?? 0)));
  }
  return { ...known, ownSd, between };
}

const keptGuess = keptByTrack<readonly Float64Array[]>();

/** What one point gives a window: its curve passed, and when it is asked for the best guess at its true curve. */
export function pointSeries(
  { point, track, curve, sd, ownSd, between, sdKey }: PlacedCurve, passage: Passage,
  { axes, piece, frameCorrelation, isFiltered }: { readonly axes: readonly ("h" | "v")[]; readonly piece: ClipPiece; readonly frameCorrelation: number; readonly isFiltered: boolean },
): PointSeries {
  // The axis that nobody looks at stays as it is placed.
  const withAxes = (of: (axis: "h" | "v", i: number) => Float64Array | undefined): Curve => ({ ...curve, ...Object.fromEntries(axes.map((axis, i) => [axis, of(axis, i)])) });
  const passed = (from: Curve): Curve => withAxes((axis) => through(passage, between ? between.blanked(from[axis]) : from[axis]));
  const { from, to } = passage.looksAt;
  let noise: WindowNoise | null = null;
  return {
    point, sd: ownSd, passage, placed: passed(curve),
    noise: () => (noise ??= passage.noise(ownSd, frameCorrelation)),
    guess: () => {
      if (!track || passage.isBare) return { bare: curve, passed: passed(curve) };
      const guesses = keptGuess(track, `${piece.id} ${axes.join("")} ${from} ${to} ${sdKey} ${frameCorrelation}`, () =>
        bestGuesses(piece.fits(track), axes.map((axis) => curve[axis]), sd, alikeWithBetween(frameCorrelation, curve, between, from, to), from, to));
      const bare = withAxes((_, i) => guesses[i]);
      const smooth = passed(bare);
      return { bare: isFiltered ? smooth : bare, passed: smooth };
    },
  };
}

/**
 * How alike errors of neighbouring samples are when some of them are worked out from others: as alike as makes a stretch say no
 * more than its placed samples do.
 */
function alikeWithBetween(alike: number, { h }: Curve, between: BetweenSamples | null, from: number, to: number): number {
  const count = between?.all.filter(({ sample }) => sample >= from && sample < to).length ?? 0;
  if (count === 0) return alike;
  let known = 0;
  for (let i = from; i < to; i++) if (!Number.isNaN(h[i])) known++;
  const apart = known / Math.max(1, known - count);
  const ofPlaced = alike ** apart;
  const inflation = (apart * (1 + ofPlaced)) / (1 - ofPlaced);
  return (inflation - 1) / (inflation + 1);
}

function through({ pass }: Passage, values: Float64Array): Float64Array {
  const passed = new Float64Array(values.length).fill(NaN);
  pass(values, passed);
  return passed;
}
