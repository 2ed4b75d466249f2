import { bodyLength, standingHeightPx, type BodyLength, type LengthId, type PointNoise } from "@/lib/measure/body-lengths";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { frameCorrelation } from "@/lib/measure/frame-correlation";
import { pointNoise, torsoForNoisePx } from "@/lib/measure/point-noise";
import { clipPieces, type ClipPieces } from "@/lib/measure/clip-pieces";
import type { ReadingRules } from "@/lib/measure/reading-rules";
import { tracksOf, type ClipTracks } from "@/lib/measure/tracks";

/** What all readings of one clip share, worked out once. */
export interface ClipContext {
  readonly clip: ClipInput;
  readonly swing: SwingInput;
  readonly rules: ReadingRules;
  /** `null` when view or real time is not known. */
  readonly tracks: ClipTracks | null;
  readonly noise: PointNoise;
  /** A length of this clip in pixels, null when there is none. */
  readonly length: (id: LengthId) => BodyLength | null;
  /** How alike the errors of neighbouring frames are, 0 to 1; worked out when first asked for. */
  readonly frameCorrelation: () => number;
  /** The clip before and after contact, for who reads a stretch of time; null where there are no tracks. */
  readonly pieces: ClipPieces | null;
}

/**
 * Prepares a clip for readings.
 * @param tracks those of this clip, where they are known already
 * @param pieces the same, where the same frames are placed
 */
export function clipContext(clip: ClipInput, swing: SwingInput, rules: ReadingRules, tracks: ClipTracks | null = tracksOf(clip, swing.side), pieces?: ClipPieces | null): ClipContext {
  const standing = standingHeightPx(clip, swing);
  const lengths = new Map<LengthId, BodyLength | null>();
  const wholePixels = pointNoise(rules.noise, tracks ? torsoForNoisePx(tracks) : 0);
  const torso = tracks ? bodyLength("T", tracks, swing.events, wholePixels) : null;
  const noise = torso ? pointNoise(rules.noise, torso.value) : wholePixels;
  const length = (id: LengthId) => {
    const known = lengths.get(id);
    if (known !== undefined) return known;
    const found = id === "H" && standing ? standing : tracks ? bodyLength(id, tracks, swing.events, noise) : null;
    lengths.set(id, found);
    return found;
  };
  let correlation: number | null = null;
  const contact = swing.events.contact?.seconds ?? NaN;
  return { clip, swing, rules, tracks, noise, length, pieces: pieces ?? (tracks && clipPieces(tracks, Number.isFinite(contact) ? contact : Infinity)), frameCorrelation: () => (correlation ??= tracks ? frameCorrelation(tracks, noise) : 0) };
}
