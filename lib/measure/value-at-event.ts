import type { ClipTracks, Track } from "@/lib/measure/tracks";
import { framesBefore, secondsOf } from "@/lib/measure/tracks";
import type { TrustReasonId } from "@/lib/measure/trust-reasons";
import { LARGEST_GAP } from "@/lib/measure/signals/pieces";

/** A point's position at a time as a weighted sum of its positions on frames, with how fast it moves there. */
export interface PointAtTime {
  readonly terms: readonly { readonly frame: number; readonly weight: number }[];
  /** Pixels a second along h and v; null when too few frames around the time are placed. */
  readonly speed: { readonly h: number; readonly v: number } | null;
  /** How its speed changes there, pixels a second squared: of a bat's points, which move along a curve; else null. */
  readonly bend: { readonly h: number; readonly v: number } | null;
}

/** A frame this near to an event, in intervals, gives its value as it stands. */
const AS_IT_STANDS = 0.1;
/** At contact the last placed frame may be this many intervals before it. */
const LAST_BEFORE_CONTACT = 1.5;

/** Guards a comparison of times against rounding, in intervals. */
const EPSILON = 1e-6;

/**
 * The value of a point at an event other than contact: as it stands on a frame within a tenth of an interval, else
 * linear between the two frames beside it. Source: conventions `time.valueAtEvent`.
 * @returns the reason when there is no value
 */
export function pointAtEvent(track: Track, tracks: ClipTracks, seconds: number, sdSeconds: number): PointAtTime | TrustReasonId {
  const period = tracks.periodSeconds;
  const near = nearestFrame(track, tracks, seconds);
  if (near === null) return "points-missing";
  const around = framesAround(track, tracks, seconds, sdSeconds, Infinity);
  const speed = around && speedBetween(track, tracks, around);
  const isBat = track.point === "tip" || track.point === "knob";
  const at = (terms: PointAtTime["terms"]): PointAtTime => ({ terms, speed, bend: isBat && around ? bendBetween(track, tracks, around, terms, seconds) : null });
  if (Math.abs(secondsOf(tracks, near) - seconds) <= (AS_IT_STANDS + EPSILON) * period) return at([{ frame: near, weight: 1 }]);
  const before = lastFrameUpTo(track, tracks, seconds);
  const after = before === null ? undefined : track.frames[framesBefore(track, tracks, secondsOf(tracks, before)) + 1];
  if (before === null || after === undefined) return "points-missing";
  const from = secondsOf(tracks, before);
  const span = secondsOf(tracks, after) - from;
  if (span > (LARGEST_GAP + EPSILON) * period) return "gap";
  const share = (seconds - from) / span;
  return at([{ frame: before, weight: 1 - share }, { frame: after, weight: share }]);
}

/**
 * The value of a point at contact, never from across it: as it stands on a frame within a tenth of an interval, else
 * from the last three frames before it: bat and wrists by the parabola through them, other points by their
 * least-squares line. Source: conventions `time.valueAtContact`.
 * @returns the reason when there is no value
 */
export function pointAtContact(track: Track, tracks: ClipTracks, seconds: number, sdSeconds: number): PointAtTime | TrustReasonId {
  const period = tracks.periodSeconds;
  const tolerance = (AS_IT_STANDS + EPSILON) * period;
  const near = nearestFrame(track, tracks, seconds);
  if (near === null) return "points-missing";
  const around = framesAround(track, tracks, seconds, sdSeconds, seconds + tolerance);
  const speed = around && speedBetween(track, tracks, around);
  if (Math.abs(secondsOf(tracks, near) - seconds) <= tolerance) return { terms: [{ frame: near, weight: 1 }], speed, bend: null };
  const count = framesBefore(track, tracks, seconds);
  const last = track.frames.slice(Math.max(0, count - 3), count);
  const [a, b, c] = last;
  if (a === undefined || b === undefined || c === undefined) return "points-missing";
  const times = [a, b, c].map((frame) => secondsOf(tracks, frame) - seconds) as [number, number, number];
  if (-times[2] > (LAST_BEFORE_CONTACT + EPSILON) * period) return "points-missing";
  if (Math.max(times[1] - times[0], times[2] - times[1]) > (LARGEST_GAP + EPSILON) * period) return "gap";
  const isFast = track.point === "knob" || track.point === "tip" || track.point === "wr_f" || track.point === "wr_b";
  const weights = isFast ? parabolaWeightsAtZero(times) : lineWeightsAtZero(times);
  return { terms: [a, b, c].map((frame, i) => ({ frame, weight: weights[i] ?? 0 })), speed, bend: null };
}

/** Weights with which three values give the parabola through them at time 0. */
export function parabolaWeightsAtZero([a, b, c]: readonly [number, number, number]): [number, number, number] {
  return [(b * c) / ((a - b) * (a - c)), (a * c) / ((b - a) * (b - c)), (a * b) / ((c - a) * (c - b))];
}

/** Weights with which three values give their least-squares line at time 0. */
export function lineWeightsAtZero(times: readonly [number, number, number]): [number, number, number] {
  const mean = (times[0] + times[1] + times[2]) / 3;
  const spread = times.reduce((sum, time) => sum + (time - mean) ** 2, 0);
  return times.map((time) => 1 / 3 - (mean * (time - mean)) / spread) as [number, number, number];
}

/** The last frame at or before a time on which the point is placed. */
export function lastFrameUpTo(track: Track, tracks: ClipTracks, seconds: number): number | null {
  const next = framesBefore(track, tracks, seconds);
  const frame = track.frames[next];
  return frame !== undefined && secondsOf(tracks, frame) === seconds ? frame : (track.frames[next - 1] ?? null);
}

/** The placed frame nearest to a time, the earlier of two. */
function nearestFrame(track: Track, tracks: ClipTracks, seconds: number): number | null {
  const next = framesBefore(track, tracks, seconds);
  const [before, after] = [track.frames[next - 1], track.frames[next]];
  if (before === undefined || after === undefined) return before ?? after ?? null;
  return secondsOf(tracks, after) - seconds < seconds - secondsOf(tracks, before) ? after : before;
}

/**
 * The ends of the stretch in which an event may lie: the placed frames nearest to one SD (at least one interval) before and
 * after it, none later than `latest`, none further out than three intervals more. Where one frame is the nearest to both, since few are
 * placed, those on either side of the event: a value there moves with its event as any other.
 */
function framesAround(track: Track, tracks: ClipTracks, seconds: number, sdSeconds: number, latest: number): { readonly first: number; readonly last: number } | null {
  const reach = Math.max(tracks.periodSeconds, sdSeconds);
  const limit = reach + (LARGEST_GAP + EPSILON) * tracks.periodSeconds;
  let first: number | null = null;
  let last: number | null = null;
  for (let i = framesBefore(track, tracks, seconds - limit); i < track.frames.length; i++) {
    const frame = track.frames[i] ?? 0;
    const time = secondsOf(tracks, frame);
    if (time > latest || time - seconds > limit) break;
    const away = (target: number, other: number | null) =>
      other === null || Math.abs(time - target) < Math.abs(secondsOf(tracks, other) - target);
    if (away(seconds - reach, first)) first = frame;
    if (away(Math.min(latest, seconds + reach), last)) last = frame;
  }
  if (first !== null && last !== null && first < last) return { first, last };
  const next = framesBefore(track, tracks, seconds);
  const [before, after] = [track.frames[next - 1], track.frames[next]];
  const isNear = (frame: number | undefined): frame is number => frame !== undefined && Math.abs(secondsOf(tracks, frame) - seconds) <= limit && secondsOf(tracks, frame) <= latest;
  return isNear(before) && isNear(after) ? { first: before, last: after } : null;
}

function speedBetween(track: Track, tracks: ClipTracks, { first, last }: { readonly first: number; readonly last: number }): { h: number; v: number } {
  const span = secondsOf(tracks, last) - secondsOf(tracks, first);
  return {
    h: ((track.h[last] ?? NaN) - (track.h[first] ?? NaN)) / span,
    v: ((track.v[last] ?? NaN) - (track.v[first] ?? NaN)) / span,
  };
}

/** From the parabola through the ends of the stretch and the value at the event; null when that is not between them. */
function bendBetween(track: Track, tracks: ClipTracks, { first, last }: { readonly first: number; readonly last: number }, terms: PointAtTime["terms"], seconds: number): PointAtTime["bend"] {
  const [before, after] = [seconds - secondsOf(tracks, first), secondsOf(tracks, last) - seconds];
  if (!(before > tracks.periodSeconds / 2 && after > tracks.periodSeconds / 2)) return null;
  const along = (row: Float64Array) => {
    const now = terms.reduce((sum, { frame, weight }) => sum + weight * (row[frame] ?? NaN), 0);
    return (2 * (((row[last] ?? NaN) - now) / after - (now - (row[first] ?? NaN)) / before)) / (before + after);
  };
  return { h: along(track.h), v: along(track.v) };
}
