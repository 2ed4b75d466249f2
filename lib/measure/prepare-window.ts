import type { ClipContext } from "@/lib/measure/clip-context";
import type { EventId } from "@/lib/measure/clip-input";
import type { ClipPiece } from "@/lib/measure/clip-pieces";
import { betweenPassage } from "@/lib/measure/between/between-passage";
import { POINT_NAMES } from "@/lib/measure/point-names";
import { mixesOf, type PlaceId, type PointId, type PointMix } from "@/lib/measure/points";
import type { Named } from "@/lib/measure/sample";
import { placedCurve, pointSeries, type PlacedCurve } from "@/lib/measure/point-series";
import { BESIDE, samplesWithin, type SampleWindow } from "@/lib/measure/sample-window";
import { planTrackFilter } from "@/lib/measure/signals/filter-track";
import { filterPassage, noPassage, smoothingPassage, type Passage, type Stretch } from "@/lib/measure/smoothing/passage";
import { leastReachSeconds, mostReachSeconds } from "@/lib/measure/smoothing/reach";
import { secondsOf, type ClipTracks, type Track } from "@/lib/measure/tracks";
import type { TrustReasonId } from "@/lib/measure/trust-reasons";
import type { WindowRead } from "@/lib/measure/window-read";

/** Points must be placed on this share of a window's frames. Source: conventions `time.coverage`. */
export const LEAST_COVERAGE = 0.8;
/** The bounds of a window may move this many of their SDs in the draws. */
const REACH_SDS = 4;
/** A filter's memory in seconds: three periods of its cut-off, after which less than a millionth is left. */
const memorySeconds = (cutoffHz: number) => 3 / cutoffHz;

/** Seconds before and after a window in which a point can still change what is read in it: bounds in doubt, filter, smoothing. */
export function lookAroundSeconds(read: WindowRead, eventSdSeconds: number, framePeriodSeconds: number): number {
  if (read.frames !== undefined) return REACH_SDS * eventSdSeconds;
  return REACH_SDS * eventSdSeconds + (read.filterHz ? memorySeconds(read.filterHz) : 0) + mostReachSeconds(framePeriodSeconds) + leastReachSeconds(framePeriodSeconds, read.smoothSeconds);
}

/** A window, or why there is none; `isCut`: the clip ends before the window does. */
export interface PreparedWindow {
  readonly window: SampleWindow | null;
  readonly failure: { readonly id: TrustReasonId; readonly say: string } | null;
  readonly hasSuggested: boolean;
  readonly isCut: boolean;
}

/** Gathers the points of a window from a clip, with the frames around it into which its bounds may move. */
export function prepareWindow(read: WindowRead, events: readonly Named<EventId>[], { filled: tracks, noise, swing, frameCorrelation: correlation, framesApart, pieces }: ClipContext): PreparedWindow {
  const none = (id: TrustReasonId, say: string): PreparedWindow => ({ window: null, failure: { id, say }, hasSuggested: false, isCut: false });
  if (!tracks || !pieces) return none("time-unknown", "The real time of the frames is not known");
  const period = tracks.periodSeconds;
  const at = Object.fromEntries(events.map(({ id, value }) => [id, value])) as Record<EventId, number>;
  const [from, to] = [read.from(at, period), read.to(at, period)];
  if (!(from <= to)) return none("rule", "the marks leave no time to look at");
  const lastFrame = tracks.seconds.length - 1;
  if (from > secondsOf(tracks, lastFrame) || to < secondsOf(tracks, 0)) return none("cut-off", "the clip does not show this part of the swing");
  const contact = swing.events.contact?.seconds ?? Infinity;
  const slack = period / 10;
  const isUntilContact = to <= contact + slack;
  const piece = pieces.of(from >= contact - slack ? "after" : isUntilContact ? "before" : "whole");
  const { seconds, firstFrame } = piece;
  const isCut = to > secondsOf(tracks, lastFrame) + period / 2;
  const fixed = read.frames === undefined ? null : nearest(read.frames, seconds, isUntilContact && Math.abs(to - contact) <= slack ? Math.min(to, contact) : (from + to) / 2, isUntilContact ? contact : Infinity);
  const { first, last } = fixed ?? samplesWithin(seconds, from, to);
  const inside = { from: first, to: last + 1 };
  if (last < first || (read.frames !== undefined && last - first + 1 < read.frames)) return none("points-missing", "too few frames: film at a higher rate");

  const chosen = chooseMixes(read, inside, firstFrame, tracks);
  if ("missing" in chosen) return none(chosen.share > 0 ? "window-thin" : "points-missing", sayMissing(chosen.missing, inside, firstFrame, tracks));
  const points = [...new Set(chosen.mixes.flatMap(([, mix]) => Object.keys(mix) as PointId[]))];
  const reach = REACH_SDS * Math.max(0, ...events.map(({ sd }) => sd));
  const reachable = fixed ? inside : widened(samplesWithin(seconds, from - reach, to + reach), BESIDE, seconds.length);
  const run = read.filterHz ? stretchWithin(seconds, from - reach - memorySeconds(read.filterHz), to + reach + memorySeconds(read.filterHz)) : reachable;
  const curves = points.map((point) => placedCurve(point, piece, tracks, (isSuggested) => noise(point, isSuggested)));
  const alike = alikeWithin(curves, reachable, correlation(), framesApart());
  const inner = passagesOf(read, curves, { piece, period, reachable, run, contact: Number.isFinite(contact) ? contact : null });
  if (inner === "none") return none("window-thin", "too few frames in a row to filter");
  const about = { axes: read.axes ? [read.axes] : (["h", "v"] as const), piece, frameCorrelation: alike, isFiltered: read.filterHz !== undefined };
  const passages = inner.map((passage, p) => {
    const between = curves[p]?.between;
    return between ? betweenPassage(passage, between, seconds.length) : passage;
  });
  const series = curves.map((curve, p) => pointSeries(curve, passages[p] ?? noPassage(reachable), about));
  const looksAt = passages.map((passage) => passage.looksAt);
  return {
    window: {
      seconds, firstFrame, framePeriodSeconds: period, points: series, read, fixed, reachable, frameCorrelation: alike,
      active: { from: Math.min(...looksAt.map(({ from: own }) => own)), to: Math.max(...looksAt.map(({ to: own }) => own)) },
      tracks: chosen.mixes.map(([name, mix]) => ({ name, parts: (Object.entries(mix) as [PointId, number][]).map(([point, weight]) => ({ point: points.indexOf(point), weight })) })),
    },
    failure: null,
    hasSuggested: points.some((point) => hasSuggestedWithin(tracks.byPoint[point], firstFrame + first, firstFrame + last)),
    isCut,
  };
}

/**
 * How alike neighbouring errors are within a window. An error is kept from placing to placing: where most of a window's frames are
 * placed one after the other and the clip's others are not, its neighbours are further apart in the order of placing than in time.
 */
function alikeWithin(curves: readonly PlacedCurve[], { from, to }: Stretch, alikeFromFrameToFrame: number, framesApart: number): number {
  const pairs = to - from - 1;
  const isApart = curves.some(({ between }) => {
    const workedOut = new Set(between?.all.map(({ sample }) => sample).filter((sample) => sample >= from && sample < to));
    if (workedOut.size === 0) return false;
    let beside = 0;
    for (let i = from + 1; i < to; i++) if (!workedOut.has(i) && !workedOut.has(i - 1)) beside++;
    return 2 * beside < pairs;
  });
  return isApart ? alikeFromFrameToFrame : alikeFromFrameToFrame ** framesApart;
}

/** Which point set gives each track: one set on enough frames of the window, or the next one for all of them. */
function chooseMixes(read: WindowRead, inside: Stretch, firstFrame: number, tracks: ClipTracks): { readonly mixes: readonly [string, PointMix][] } | { readonly missing: PointMix; readonly share: number } {
  const mixes: [string, PointMix][] = [];
  for (const [name, place] of Object.entries(read.tracks) as [string, PlaceId][]) {
    const candidates = mixesOf(place).map((mix) => ({ mix, share: shareOf(mix, inside, firstFrame, tracks) }));
    const found = candidates.find(({ share }) => share >= LEAST_COVERAGE);
    const best = candidates.reduce((a, b) => (b.share > a.share ? b : a));
    if (!found) return { missing: best.mix, share: best.share };
    mixes.push([name, found.mix]);
  }
  // Each track may be placed well enough and all of them together not.
  const together = Object.fromEntries(mixes.flatMap(([, mix]) => Object.entries(mix))) as PointMix;
  const share = shareOf(together, inside, firstFrame, tracks);
  return share >= LEAST_COVERAGE ? { mixes } : { missing: together, share };
}

/** On how many frames of the stretch all points are placed. */
function placedOn(points: readonly PointId[], { from, to }: Stretch, firstFrame: number, tracks: ClipTracks): number {
  const rows = points.map((point) => tracks.byPoint[point]?.h);
  let placed = 0;
  for (let frame = firstFrame + from; frame < firstFrame + to; frame++) if (rows.every((row) => row && !Number.isNaN(row[frame] ?? NaN))) placed++;
  return placed;
}

function shareOf(mix: PointMix, inside: Stretch, firstFrame: number, tracks: ClipTracks): number {
  return placedOn(Object.keys(mix) as PointId[], inside, firstFrame, tracks) / (inside.to - inside.from);
}

function sayMissing(mix: PointMix, inside: Stretch, firstFrame: number, tracks: ClipTracks): string {
  const thin = (Object.keys(mix) as PointId[]).map((point) => ({ point, placed: placedOn([point], inside, firstFrame, tracks) }));
  const worst = thin.reduce((a, b) => (b.placed < a.placed ? b : a));
  const name = POINT_NAMES[worst.point];
  return worst.placed === 0 ? `not placed: ${name}` : `${name} is known on ${worst.placed} of ${inside.to - inside.from} frames; four fifths are needed`;
}

function hasSuggestedWithin(track: Track | undefined, firstFrame: number, lastFrame: number): boolean {
  if (!track || track.suggestedFrames.size === 0) return false;
  for (let frame = firstFrame; frame <= lastFrame; frame++) if (track.suggestedFrames.has(frame)) return true;
  return false;
}

/**
 * What the points pass through: the two-pass filter where the read names a cut-off, over the frames on which all points
 * are placed; nothing where it reads a counted number of frames; else the smoothing.
 */
function passagesOf(
  read: WindowRead, curves: readonly PlacedCurve[],
  { piece, period, reachable, run, contact }: { readonly piece: ClipPiece; readonly period: number; readonly reachable: Stretch; readonly run: Stretch; readonly contact: number | null },
): readonly Passage[] | "none" {
  if (read.filterHz) {
    const known = new Float64Array(piece.seconds.length).fill(NaN);
    for (let i = run.from; i < run.to; i++) if (curves.every(({ curve }) => !Number.isNaN(curve.h[i]))) known[i] = 1;
    const plan = planTrackFilter(known, piece.seconds, contact, read.filterHz, period);
    return plan.reason === null ? curves.map(() => filterPassage(plan, run)) : "none";
  }
  return curves.map(({ track }) => {
    if (!track || read.frames !== undefined) return noPassage(reachable);
    const [least] = piece.fits(track);
    const fit = read.smoothSeconds === undefined ? least : piece.fitWithin(track, leastReachSeconds(period, read.smoothSeconds));
    return fit ? smoothingPassage(fit, period, reachable) : noPassage(reachable);
  });
}

function stretchWithin(seconds: Float64Array, from: number, to: number): Stretch {
  const { first, last } = samplesWithin(seconds, from, to);
  return { from: first, to: last + 1 };
}

function widened({ first, last }: { readonly first: number; readonly last: number }, by: number, count: number): Stretch {
  return { from: Math.max(0, first - by), to: Math.min(count, last + 1 + by) };
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
