import type { ClipContext } from "@/lib/measure/clip-context";
import type { EventId } from "@/lib/measure/clip-input";
import type { Named } from "@/lib/measure/sample";
import { samplesWithin, type PointSeries, type SampleWindow } from "@/lib/measure/sample-window";
import { POINT_NAMES } from "@/lib/measure/point-names";
import { mixesOf, type PlaceId, type PointId, type PointMix } from "@/lib/measure/points";
import { planTrackFilter } from "@/lib/measure/signals/filter-track";
import { leastReachSeconds, mostReachSeconds, smoothingsOf, type Smoother } from "@/lib/measure/smoothing";
import { secondsOf, type ClipTracks } from "@/lib/measure/tracks";
import type { TrustReasonId } from "@/lib/measure/trust-reasons";
import type { WindowRead } from "@/lib/measure/window-read";

/** Points must be placed on this share of a window's frames. Source: conventions `time.coverage`. */
export const LEAST_COVERAGE = 0.8;
/** The bounds of a window may move this many of their SDs in the draws. */
const REACH_SDS = 4;
/** A filter's memory in seconds: three periods of its cut-off, after which less than a millionth is left. */
const memorySeconds = (cutoffHz: number) => 3 / cutoffHz;

/** A window, or why there is none; `isCut`: the clip ends before the window does. */
export interface PreparedWindow {
  readonly window: SampleWindow | null;
  readonly failure: { readonly id: TrustReasonId; readonly say: string } | null;
  readonly hasSuggested: boolean;
  readonly isCut: boolean;
}

/** Gathers the points of a window from a clip, with the frames around it into which its bounds may move. */
export function prepareWindow(read: WindowRead, events: readonly Named<EventId>[], { tracks, noise, swing, frameCorrelation: correlation }: ClipContext): PreparedWindow {
  const none = (id: TrustReasonId, say: string): PreparedWindow => ({ window: null, failure: { id, say }, hasSuggested: false, isCut: false });
  if (!tracks) return none("time-unknown", "The real time of the frames is not known");
  const period = tracks.periodSeconds;
  const at = Object.fromEntries(events.map(({ id, value }) => [id, value])) as Record<EventId, number>;
  const [from, to] = [read.from(at, period), read.to(at, period)];
  if (!(from <= to)) return none("rule", "the marks leave no time to look at");
  const reach = REACH_SDS * Math.max(0, ...events.map(({ sd }) => sd));
  const lastFrame = tracks.seconds.length - 1;
  if (from > secondsOf(tracks, lastFrame) || to < secondsOf(tracks, 0)) return none("cut-off", "the clip does not show this part of the swing");
  const contact = swing.events.contact?.seconds ?? Infinity;
  const slack = period / 10;
  const around = read.filterHz ? memorySeconds(read.filterHz) : read.frames === undefined ? mostReachSeconds(period) : 0;
  const isUntilContact = to <= contact + slack;
  const earliest = from >= contact - slack ? Math.max(contact - slack, from - reach) : from - reach - around;
  const latest = isUntilContact ? Math.min(contact + slack, to + reach + around) : to + reach + around;
  const frames = tracks.seconds.map((_, frame) => frame).filter((frame) => secondsOf(tracks, frame) >= earliest && secondsOf(tracks, frame) <= latest);
  const seconds = Float64Array.from(frames, (frame) => secondsOf(tracks, frame));
  const nominal = samplesWithin(seconds, from, to);
  const isCut = to > secondsOf(tracks, lastFrame) + period / 2;
  const fixed = read.frames === undefined ? null : nearest(read.frames, seconds, isUntilContact && Math.abs(to - contact) <= slack ? Math.min(to, contact) : (from + to) / 2, isUntilContact ? contact : Infinity);
  const { first, last } = fixed ?? nominal;
  // The filter's memory needs its whole run; smoothing needs its reach and a sample beside the bounds.
  const near = reach + leastReachSeconds(period, read.smoothSeconds) + 1.5 * period;
  const within = samplesWithin(seconds, from - near, to + near);
  const active = read.filterHz ? { from: 0, to: seconds.length } : { from: within.first, to: within.last + 1 };
  const inside = frames.slice(first, last + 1);
  if (inside.length === 0 || (read.frames !== undefined && inside.length < read.frames)) return none("points-missing", "too few frames: film at a higher rate");

  const chosen = chooseMixes(read, inside, tracks);
  if ("missing" in chosen) return none(chosen.share > 0 ? "window-thin" : "points-missing", sayMissing(chosen.missing, inside, tracks));
  const points = [...new Set(chosen.mixes.flatMap(([, mix]) => Object.keys(mix) as PointId[]))];
  const series = points.map((point): PointSeries => seriesOf(point, frames, tracks, (isSuggested) => noise(point, isSuggested)));
  const alike = correlation();
  const smoothings = series.map(({ h, v, sd }) => smoothingsOf(read.axes === "h" ? [h] : read.axes === "v" ? [v] : [h, v], seconds, sd, alike, period, read.smoothSeconds));
  const through = (smoother: Smoother, values: Float64Array) => {
    const smooth = new Float64Array(values.length);
    smoother(values, smooth);
    return smooth;
  };
  const guesses = series.map(({ h, v }, p) => {
    const wide = smoothings[p]?.wide;
    return wide ? { h: through(wide, h), v: through(wide, v) } : { h, v };
  });
  const filters = filtersOf(read, series, seconds, Number.isFinite(contact) ? contact : null, smoothings.map(({ least }) => least));
  if (filters === "none") return none("window-thin", "too few frames in a row to filter");
  return {
    window: {
      seconds, frames: Int32Array.from(frames), framePeriodSeconds: period, points: series, guesses, active, read, smoothings: read.filterHz || read.frames !== undefined ? null : smoothings.map(({ leastParts }) => leastParts), fixed, filters, frameCorrelation: alike,
      tracks: chosen.mixes.map(([name, mix]) => ({ name, parts: (Object.entries(mix) as [PointId, number][]).map(([point, weight]) => ({ point: points.indexOf(point), weight })) })),
    },
    failure: null,
    hasSuggested: points.some((point) => inside.some((frame) => tracks.byPoint[point]?.suggestedFrames.has(frame))),
    isCut,
  };
}

/** Which point set gives each track: one set on enough frames of the window, or the next one for all of them. */
function chooseMixes(read: WindowRead, inside: readonly number[], tracks: ClipTracks): { readonly mixes: readonly [string, PointMix][] } | { readonly missing: PointMix; readonly share: number } {
  const mixes: [string, PointMix][] = [];
  for (const [name, place] of Object.entries(read.tracks) as [string, PlaceId][]) {
    const candidates = mixesOf(place).map((mix) => ({ mix, share: shareOf(mix, inside, tracks) }));
    const found = candidates.find(({ share }) => share >= LEAST_COVERAGE);
    const best = candidates.reduce((a, b) => (b.share > a.share ? b : a));
    if (!found) return { missing: best.mix, share: best.share };
    mixes.push([name, found.mix]);
  }
  // Each track may be placed well enough and all of them together not.
  const together = Object.fromEntries(mixes.flatMap(([, mix]) => Object.entries(mix))) as PointMix;
  const share = shareOf(together, inside, tracks);
  return share >= LEAST_COVERAGE ? { mixes } : { missing: together, share };
}

function shareOf(mix: PointMix, inside: readonly number[], tracks: ClipTracks): number {
  const points = Object.keys(mix) as PointId[];
  return inside.filter((frame) => points.every((point) => !Number.isNaN(tracks.byPoint[point]?.h[frame] ?? NaN))).length / inside.length;
}

function sayMissing(mix: PointMix, inside: readonly number[], tracks: ClipTracks): string {
  const thin = (Object.keys(mix) as PointId[]).map((point) => ({ point, placed: inside.filter((frame) => !Number.isNaN(tracks.byPoint[point]?.h[frame] ?? NaN)).length }));
  const worst = thin.reduce((a, b) => (b.placed < a.placed ? b : a));
  const name = POINT_NAMES[worst.point];
  return worst.placed === 0 ? `not placed: ${name}` : `${name} is placed on ${worst.placed} of ${inside.length} frames; four fifths are needed`;
}

function seriesOf(point: PointId, frames: readonly number[], tracks: ClipTracks, sdOf: (isSuggested: boolean) => number): PointSeries {
  const track = tracks.byPoint[point];
  const [placed, suggested] = [sdOf(false), sdOf(true)];
  return {
    point,
    h: Float64Array.from(frames, (frame) => track?.h[frame] ?? NaN),
    v: Float64Array.from(frames, (frame) => track?.v[frame] ?? NaN),
    sd: Float64Array.from(frames, (frame) => (track?.suggestedFrames.has(frame) ? suggested : placed)),
  };
}

/**
 * What the points pass through: the two-pass filter where the read names a cut-off, over the frames on which all points
 * are placed; nothing where it reads a counted number of frames; else the smoothing.
 */
function filtersOf(read: WindowRead, series: readonly PointSeries[], seconds: Float64Array, contact: number | null, least: readonly Smoother[]): readonly Smoother[] | null | "none" {
  if (read.filterHz) {
    const known = Float64Array.from(seconds, (_, i) => (series.every(({ h }) => !Number.isNaN(h[i])) ? 1 : NaN));
    const plan = planTrackFilter(known, seconds, contact, read.filterHz);
    return plan.reason === null ? series.map(() => plan.filter) : "none";
  }
  return read.frames === undefined ? least : null;
}

/** So many samples nearest to a time, none later than `latest`, as a run. */
function nearest(count: number, seconds: Float64Array, target: number, latest: number): { first: number; last: number } {
  let end = seconds.length - 1;
  while (end >= 0 && (seconds[end] ?? NaN) > latest + 1e-9) end--;
  let first = 0;
  const worst = (from: number) => Math.max(Math.abs((seconds[from] ?? NaN) - target), Math.abs((seconds[from + count - 1] ?? NaN) - target));
  for (let from = 0; from + count - 1 <= end; from++) if (worst(from) < worst(first) - 1e-9) first = from;
  return { first, last: Math.min(first + count - 1, end) };
}
