import { bodyLength, mixed, type PointNoise } from "@/lib/measure/body-lengths";
import type { ClipInput, EventId, Side, SwingEvent } from "@/lib/measure/clip-input";
import { median } from "@/lib/measure/order-statistics";
import { pointNoise, torsoForNoisePx } from "@/lib/measure/point-noise";
import type { PointId, PointMix } from "@/lib/measure/points";
import { STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";
import { framesWithAll, stanceFrames } from "@/lib/measure/stance-frames";
import { centralDifference } from "@/lib/measure/signals/central-difference";
import { filterTrack } from "@/lib/measure/signals/filter-track";
import { filteredPointSd, filteredSpeedSd } from "@/lib/measure/signals/noise-after-filter";
import type { SuggestionFacts, SuggestionNote } from "@/lib/measure/suggest-events/suggestion";
import { tracksOf, type ClipTracks } from "@/lib/measure/tracks";

/** An event that a rule may count from: marked, or suggested earlier in the order. */
export type KnownEvent = SwingEvent & { readonly note?: SuggestionNote | null };
export type KnownEvents = Readonly<Partial<Record<EventId, KnownEvent>>>;

/** What the rules look at. */
export interface MovingBody {
  readonly clip: ClipInput;
  readonly tracks: ClipTracks;
  readonly noise: PointNoise;
  readonly events: KnownEvents;
  readonly facts: SuggestionFacts;
}

/** A place through the clip, filtered on one side of contact, with its speed. Pixels and seconds, by frame; NaN = not known. */
export interface MovingPlace {
  readonly h: Float64Array;
  readonly v: Float64Array;
  readonly speedH: Float64Array;
  readonly speedV: Float64Array;
  readonly speed: Float64Array;
  /** SDs along one axis after the filter. */
  readonly sd: number;
  readonly speedSd: number;
}

/** A clip made ready for the rules, or null when view or real time is not known. */
export function movingBody(clip: ClipInput, side: Side, events: KnownEvents, facts: SuggestionFacts, rules: ReadingRules = STARTER_RULES): MovingBody | null {
  const tracks = tracksOf(clip, side);
  return tracks && { clip, tracks, events, facts, noise: pointNoise(rules.noise, torsoForNoisePx(tracks), clip.view) };
}

/** Time of contact, null when it is neither marked nor suggested. */
export function contactOf({ events }: MovingBody): number | null {
  const seconds = events.contact?.seconds;
  return seconds !== undefined && Number.isFinite(seconds) ? seconds : null;
}

/** Events that stance frames may be taken from: a clip that starts late shows no stance. */
function stillEvents({ events }: MovingBody): KnownEvents {
  return events.stance?.note === "starts late" ? { ...events, stance: undefined } : events;
}

/** Torso length in pixels over the stance frames with their fall-backs; `before any stance`: over all frames before contact. */
export function torsoPx(body: MovingBody, isBeforeAnyStance = false): number | null {
  const { contact } = body.events;
  const events = isBeforeAnyStance ? (contact ? { contact } : {}) : stillEvents(body);
  return bodyLength("T", body.tracks, events, body.noise)?.value ?? null;
}

/** Resting height of a point in pixels: the median of v over the stance frames; null without such frames. */
export function restingHeight(body: MovingBody, point: PointId): number | null {
  const { frames } = stanceFrames(body.tracks, [point], stillEvents(body));
  return frames.length > 0 ? median(frames.map((frame) => mixed({ [point]: 1 }, "v", frame, body.tracks))) : null;
}

/**
 * A place filtered at a cut-off up to contact or from it on, with its speed by central differences; null when nothing of
 * it can be filtered there.
 */
export function movingPlace(body: MovingBody, mix: PointMix, cutoffHz: number, side: "before" | "after"): MovingPlace | null {
  const { tracks } = body;
  const points = Object.keys(mix) as PointId[];
  const placed = framesWithAll(tracks, points);
  const rateHz = 1 / tracks.periodSeconds;
  if (placed.length === 0 || !(cutoffHz < rateHz / 2)) return null;
  const [h, v, speedH, speedV] = [0, 1, 2, 3].map(() => new Float64Array(tracks.seconds.length).fill(NaN)) as [Float64Array, Float64Array, Float64Array, Float64Array];
  for (const [axis, place, speed] of [["h", h, speedH], ["v", v, speedV]] as const) {
    const raw = new Float64Array(tracks.seconds.length).fill(NaN);
    for (const frame of placed) raw[frame] = mixed(mix, axis, frame, tracks);
    for (const piece of filterTrack(raw, tracks.seconds, contactOf(body), cutoffHz).pieces) {
      if (piece.side !== side) continue;
      const slopes = centralDifference(piece.values, piece.frames.map((frame) => tracks.seconds[frame] ?? NaN));
      piece.frames.forEach((frame, i) => {
        place[frame] = piece.values[i] ?? NaN;
        speed[frame] = slopes[i] ?? NaN;
      });
    }
  }
  if (!h.some(Number.isFinite)) return null;
  const sd = rawSd(body, mix, placed);
  const speed = speedH.map((along, frame) => Math.hypot(along, speedV[frame] ?? NaN));
  return { h, v, speedH, speedV, speed, sd: filteredPointSd(sd, cutoffHz, rateHz), speedSd: filteredSpeedSd(sd, cutoffHz, rateHz) };
}

/** SD in pixels of one coordinate of a place on a frame, root mean square over its frames. */
export function rawSd({ tracks, noise }: MovingBody, mix: PointMix, frames: readonly number[]): number {
  let sum = 0;
  for (const [point, weight] of Object.entries(mix) as [PointId, number][]) {
    const suggested = tracks.byPoint[point]?.suggestedFrames;
    for (const frame of frames) sum += (weight * noise(point, suggested?.has(frame) ?? false)) ** 2;
  }
  return Math.sqrt(sum / Math.max(1, frames.length));
}
