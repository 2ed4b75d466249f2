import { placeSdPx } from "@/lib/measure/between/followed-frames";
import type { ClipInput, SwingInput, View } from "@/lib/measure/clip-input";
import { lengthenedBy, noiseSeen, percentileFreedOfNoise } from "@/lib/measure/length-noise";
import { median, medianSdFactor } from "@/lib/measure/order-statistics";
import type { PointId, PointMix } from "@/lib/measure/points";
import { framesWithAll, stanceFrames } from "@/lib/measure/stance-frames";
import { framesBefore, secondsOf, type ClipTracks } from "@/lib/measure/tracks";

/** Lengths of the body and the bat, in pixels of one view, that readings are divided by. */
export type LengthId = "T" | "F" | "Fs" | "H" | "Ws" | "Wh" | "Ua" | "Fa" | "Lb" | "earSpan";

/** A length in pixels with its SD. */
export interface BodyLength {
  readonly value: number;
  readonly sd: number;
  readonly isRough: boolean;
  /** No frame before toe touch: the clip starts after the stance. */
  readonly isLate: boolean;
  readonly hasSuggested: boolean;
  readonly frames: readonly number[];
}

interface LengthRule {
  readonly over: "stance frames" | "clip";
  /** The length is the sum of these stretches, each between two places. */
  readonly stretches: readonly (readonly [PointMix, PointMix])[];
  readonly factor: number;
  /** Only across the picture, not in its plane. */
  readonly isWidth?: boolean;
  /** So short that noise lengthens it by more than a hundredth of its SD. Widths lie on one axis: noise does not lengthen them. */
  readonly isShort?: boolean;
  /** A length that only stands in for another: always rough. */
  readonly isStandIn?: boolean;
  /** At contact it points at the camera: without a frame well before or after contact its length is not seen. */
  readonly isShortAtContact?: boolean;
  readonly views: readonly View[];
}

const ALL: readonly View[] = ["side", "front", "rear"];
const TRUNK: readonly (readonly [PointMix, PointMix])[] = [[{ sh_f: 0.5, sh_b: 0.5 }, { hip_f: 0.5, hip_b: 0.5 }]];
const ENDS: readonly View[] = ["front", "rear"];

/** Source: the library's conventions, `derived` and `lengths`. */
export const LENGTH_RULES: Readonly<Record<LengthId, LengthRule>> = {
  T: { over: "stance frames", stretches: TRUNK, factor: 1, views: ALL },
  Fs: { over: "stance frames", stretches: TRUNK, factor: 0.52, views: ["side"] },
  F: { over: "stance frames", stretches: [[{ heel_b: 1 }, { toe_b: 1 }]], factor: 1, isShort: true, views: ENDS },
  H: { over: "clip", stretches: [[{ hip_f: 1 }, { kn_f: 1 }], [{ kn_f: 1 }, { an_f: 1 }]], factor: 2.04, isStandIn: true, views: ["side"] },
  Ws: { over: "clip", stretches: [[{ sh_b: 1 }, { sh_f: 1 }]], factor: 1, isWidth: true, views: ENDS },
  Wh: { over: "clip", stretches: [[{ hip_b: 1 }, { hip_f: 1 }]], factor: 1, isWidth: true, views: ENDS },
  Ua: { over: "clip", stretches: [[{ el_b: 1 }, { sh_b: 1 }]], factor: 1, isShort: true, views: ALL },
  Fa: { over: "clip", stretches: [[{ wr_b: 1 }, { el_b: 1 }]], factor: 1, isShort: true, views: ALL },
  Lb: { over: "clip", stretches: [[{ tip: 1 }, { knob: 1 }]], factor: 1, isShortAtContact: true, views: ALL },
  earSpan: { over: "clip", stretches: [[{ ear_f: 1 }, { ear_b: 1 }]], factor: 1, isShort: true, views: ["front"] },
};

/** Seconds from contact at which a bat or a turn is well away from how it looks at contact. */
const AWAY_FROM_CONTACT_SECONDS = 0.05;

/** A length is worth nothing when it is not this many of its SDs long. */
const LEAST_SDS = 3;

/** SD in pixels of a coordinate of a point on a frame. */
export type PointNoise = (point: PointId, isSuggested: boolean) => number;

/**
 * One length of a clip in pixels, freed of what noise adds to it (length-noise.ts), or null when there is none: fewer than three frames for a percentile, none for a
 * median, points on top of each other, a bat seen around contact only.
 */
export function bodyLength(id: LengthId, tracks: ClipTracks, events: SwingInput["events"], noise: PointNoise): BodyLength | null {
  const rule = LENGTH_RULES[id];
  const points = pointsOf(rule);
  if (rule.over === "stance frames") {
    const { frames, quality } = stanceFrames(tracks, points, events);
    if (frames.length === 0) return null;
    const isRough = quality !== "still";
    const value = rule.factor * median(lengthsOn(frames, rule, tracks, noise).lengths);
    const sd = rule.factor * sdOnFrames(frames, rule, tracks, noise) * medianSdFactor(frames.length) * (isRough ? 2 : 1);
    return worthwhile({ value, sd, isRough, isLate: quality === "late", hasSuggested: hasSuggested(frames, points, tracks), frames });
  }
  const from = events.stance?.seconds ?? -Infinity;
  const placed = framesWithAll(tracks, points);
  const frames = placed.slice(framesBefore({ frames: placed }, tracks, from - tracks.periodSeconds / 10));
  if (frames.length < 3) return null;
  const contact = events.contact?.seconds ?? 0;
  const isTurnUnseen = rule.isWidth === true && !frames.some((frame) => secondsOf(tracks, frame) >= contact + AWAY_FROM_CONTACT_SECONDS);
  const isAway = (frame: number) => Math.abs(secondsOf(tracks, frame) - contact) >= AWAY_FROM_CONTACT_SECONDS - tracks.periodSeconds / 10;
  if (rule.isShortAtContact === true && !frames.some(isAway)) return null;
  const isThin = frames.length < 10 || rule.isStandIn === true;
  const { lengths, seen } = lengthsOn(frames, rule, tracks, noise);
  const onOne = sdOnFrames(frames, rule, tracks, noise);
  const sd = rule.factor * onOne * (isThin || isTurnUnseen ? 2 : 1);
  const value = rule.factor * percentileFreedOfNoise(lengths, onOne * Math.sqrt(seen));
  return worthwhile({ value, sd, isRough: isThin || isTurnUnseen, isLate: false, hasSuggested: hasSuggested(frames, points, tracks), frames });
}

/** SD in metres of a standing height that somebody entered: shoes, a child that grows (judgement). */
const ENTERED_HEIGHT_SD_METRES = 0.02;

/**
 * Standing height in pixels of a side view from the entered height and pixels per metre; null when one is not known.
 * Source: conventions `derived`, H.
 */
export function standingHeightPx(clip: Pick<ClipInput, "view" | "pixelsPerMetre">, swing: Pick<SwingInput, "standingHeightM">): BodyLength | null {
  const { pixelsPerMetre: scale, view } = clip;
  const { standingHeightM: height } = swing;
  if (view !== "side" || !scale || !height || !(height > 0 && height < 3 && scale.value > 0 && scale.sd >= 0)) return null;
  const value = height * scale.value;
  const sd = Math.hypot(ENTERED_HEIGHT_SD_METRES * scale.value, height * scale.sd);
  return worthwhile({ value, sd, isRough: false, isLate: false, hasSuggested: false, frames: [] });
}

function worthwhile(length: BodyLength): BodyLength | null {
  return length.value > LEAST_SDS * length.sd && length.value < Infinity ? length : null;
}

/** The points that make a length. */
export function pointsOf(rule: Pick<LengthRule, "stretches">): readonly PointId[] {
  return [...new Set(rule.stretches.flat().flatMap((mix) => Object.keys(mix) as PointId[]))];
}

/** Lengths on frames, freed of what noise adds to a short vector, and the share of the assumed noise that is seen in them. */
function lengthsOn(frames: readonly number[], rule: LengthRule, tracks: ClipTracks, noise: PointNoise): { lengths: Float64Array; seen: number } {
  const lengths = rawLengthsOn(frames, rule, tracks);
  const variances = variancesOn(frames, rule, tracks, noise);
  const seen = noiseSeen(lengths, variances, Float64Array.from(frames, (frame) => secondsOf(tracks, frame)), 6 * tracks.periodSeconds);
  if (rule.isShort) for (let i = 0; i < lengths.length; i++) lengths[i] = (lengths[i] ?? NaN) - lengthenedBy(lengths[i] ?? NaN, Math.sqrt(seen * (variances[i] ?? 0)));
  return { lengths, seen };
}

function rawLengthsOn(frames: readonly number[], { stretches, isWidth }: LengthRule, tracks: ClipTracks): Float64Array {
  const lengths = new Float64Array(frames.length);
  for (const [from, to] of stretches) {
    const [h, v] = (["h", "v"] as const).map((axis) => {
      const ahead = mixedOn(frames, from, axis, tracks);
      const behind = mixedOn(frames, to, axis, tracks);
      return ahead.map((value, i) => value - (behind[i] ?? NaN));
    }) as [Float64Array, Float64Array];
    for (let i = 0; i < lengths.length; i++) {
      const [across, up] = [h[i] ?? NaN, v[i] ?? NaN];
      lengths[i] = (lengths[i] ?? 0) + (isWidth ? Math.abs(across) : Math.sqrt(across * across + up * up));
    }
  }
  return lengths;
}

/** A mix of points on frames along one axis, pixels; NaN where one of them is not placed. */
function mixedOn(frames: readonly number[], mix: PointMix, axis: "h" | "v", tracks: ClipTracks): Float64Array {
  const sums = new Float64Array(frames.length);
  for (const [point, weight] of Object.entries(mix) as [PointId, number][]) {
    const row = tracks.byPoint[point]?.[axis];
    if (!row) return sums.fill(NaN);
    for (let i = 0; i < frames.length; i++) sums[i] = (sums[i] ?? 0) + weight * (row[frames[i] ?? 0] ?? NaN);
  }
  return sums;
}

/** A mix of points on a frame along one axis, pixels; NaN when one of them is not placed there. */
export function mixed(mix: PointMix, axis: "h" | "v", frame: number, tracks: ClipTracks): number {
  let sum = 0;
  for (const [point, weight] of Object.entries(mix) as [PointId, number][]) sum += weight * (tracks.byPoint[point]?.[axis][frame] ?? NaN);
  return sum;
}

/** Variance of the length on each frame, along its own direction. */
function variancesOn(frames: readonly number[], rule: LengthRule, tracks: ClipTracks, noise: PointNoise): Float64Array {
  const variances = new Float64Array(frames.length);
  const ends = rule.stretches.flatMap(([from, to]) => [...Object.entries(from), ...Object.entries(to)]) as [PointId, number][];
  for (const [point, weight] of ends) {
    const [placed, suggested] = [(weight * noise(point, false)) ** 2, (weight * noise(point, true)) ** 2];
    const track = tracks.byPoint[point];
    const [guessed, followed] = [track?.suggestedFrames, track?.followed];
    for (let i = 0; i < frames.length; i++) {
      const frame = frames[i] ?? 0;
      const own = track && followed?.has(frame) ? (weight * placeSdPx(track, frame, tracks.seconds, (isGuess) => noise(point, isGuess))) ** 2 : guessed?.has(frame) ? suggested : placed;
      variances[i] = (variances[i] ?? 0) + own;
    }
  }
  return variances;
}

/** Root mean square over the frames of the SD of the length on one frame. */
function sdOnFrames(frames: readonly number[], rule: LengthRule, tracks: ClipTracks, noise: PointNoise): number {
  return Math.sqrt(variancesOn(frames, rule, tracks, noise).reduce((sum, variance) => sum + variance, 0) / frames.length);
}

function hasSuggested(frames: readonly number[], points: readonly PointId[], tracks: ClipTracks): boolean {
  const guessed = points.flatMap((point) => tracks.byPoint[point]?.suggestedFrames ?? []).filter(({ size }) => size > 0);
  return guessed.length > 0 && frames.some((frame) => guessed.some((own) => own.has(frame)));
}
