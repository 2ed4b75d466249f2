import { filledTracks } from "@/lib/measure/between/filled-tracks";
import { bodyLength, LENGTH_RULES, pointsOf, standingHeightPx, type BodyLength, type LengthId, type PointNoise } from "@/lib/measure/body-lengths";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { frameCorrelation, framesApart } from "@/lib/measure/frame-correlation";
import { pointNoise, saysTorsoForNoise, torsoForNoisePx } from "@/lib/measure/point-noise";
import { clipPieces, type ClipPieces } from "@/lib/measure/clip-pieces";
import type { ReadingRules } from "@/lib/measure/reading-rules";
import type { PointId } from "@/lib/measure/points";
import { retrack, tracksOf, type ClipTracks } from "@/lib/measure/tracks";

/** What all readings of one clip share, worked out once. */
export interface ClipContext {
  readonly clip: ClipInput;
  readonly swing: SwingInput;
  readonly rules: ReadingRules;
  /** `null` when view or real time is not known. */
  readonly tracks: ClipTracks | null;
  /** The same with small holes between placed frames filled, for what is read over a stretch of time. */
  readonly filled: ClipTracks | null;
  /** How long the torso is in the picture, for the size of the noise: roughly, and as measured at stance where it is. */
  readonly torsoForNoise: { readonly roughPx: number; readonly px: number | null };
  readonly noise: PointNoise;
  /** A length of this clip in pixels, null when there is none. */
  readonly length: (id: LengthId) => BodyLength | null;
  /** How alike the errors of neighbouring frames are, 0 to 1; worked out when first asked for. */
  readonly frameCorrelation: () => number;
  /** How many frames apart its points are mostly placed. */
  readonly framesApart: () => number;
  /** The clip before and after contact, for who reads a stretch of time; null where there are no tracks. */
  readonly pieces: ClipPieces | null;
}

/** Prepares a clip for readings. */
export function clipContext(clip: ClipInput, swing: SwingInput, rules: ReadingRules): ClipContext {
  const tracks = tracksOf(clip, swing.side);
  return contextOf(clip, swing, rules, tracks, tracks && clipPieces(tracks, contactSecondsOf(swing)), null);
}

/** The context after one point of one frame was placed elsewhere: what does not look at that point stays as it was worked out. */
export function contextAfterMove(before: ClipContext, clip: ClipInput, point: PointId, frame: number): ClipContext {
  const { swing, rules, tracks, pieces } = before;
  if (!tracks || !pieces) return clipContext(clip, swing, rules);
  const next = retrack(tracks, point, clip, swing.side, frame);
  const isPlaced = (own: ClipTracks) => !Number.isNaN(own.byPoint[point]?.h[frame] ?? NaN);
  const arePiecesKept = isPlaced(tracks) && isPlaced(next);
  return contextOf(clip, swing, rules, next, arePiecesKept ? pieces : clipPieces(next, contactSecondsOf(swing)), { before, point });
}

/** Infinity when it is not known: then all lies before it. */
function contactSecondsOf(swing: SwingInput): number {
  const contact = swing.events.contact?.seconds ?? NaN;
  return Number.isFinite(contact) ? contact : Infinity;
}

interface Kept {
  readonly before: ClipContext;
  readonly point: PointId;
}

function contextOf(clip: ClipInput, swing: SwingInput, rules: ReadingRules, tracks: ClipTracks | null, pieces: ClipPieces | null, kept: Kept | null): ClipContext {
  const standing = standingHeightPx(clip, swing);
  const roughPx = !tracks ? 0 : kept?.before.tracks && !saysTorsoForNoise(kept.point, kept.before.tracks) ? kept.before.torsoForNoise.roughPx : torsoForNoisePx(tracks);
  const isSameRough = kept !== null && roughPx === kept.before.torsoForNoise.roughPx;
  const doesNotMake = (id: LengthId) => kept !== null && !pointsOf(LENGTH_RULES[id]).includes(kept.point);
  const wholePixels = pointNoise(rules.noise, roughPx, clip.view);
  const torsoPx = !tracks ? null : isSameRough && doesNotMake("T") ? kept.before.torsoForNoise.px : (bodyLength("T", tracks, swing.events, wholePixels)?.value ?? null);
  const noise = torsoPx === null ? wholePixels : pointNoise(rules.noise, torsoPx, clip.view);
  const filled = tracks && filledTracks(tracks, contactSecondsOf(swing), torsoPx ?? roughPx);
  const isSameNoise = isSameRough && torsoPx === kept.before.torsoForNoise.px;
  const lengths = new Map<LengthId, BodyLength | null>();
  const length = (id: LengthId) => {
    const known = lengths.get(id);
    if (known !== undefined) return known;
    const found = id === "H" && standing ? standing : !tracks ? null : isSameNoise && doesNotMake(id) ? kept.before.length(id) : bodyLength(id, tracks, swing.events, noise);
    lengths.set(id, found);
    return found;
  };
  let correlation: number | null = null;
  let apart: number | null = null;
  return { clip, swing, rules, tracks, torsoForNoise: { roughPx, px: torsoPx }, filled, noise, length, pieces, frameCorrelation: () => (correlation ??= tracks ? frameCorrelation(tracks, noise) : 0), framesApart: () => (apart ??= tracks ? framesApart(tracks) : 1) };
}
