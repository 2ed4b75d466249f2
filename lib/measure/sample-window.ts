import type { EventId } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { addSmoothedNoise, type Smoother, type SmoothingParts } from "@/lib/measure/smoothing";
import type { WindowRead, WindowTrack, WindowView } from "@/lib/measure/window-read";

/** One point through a window: what carries noise there. Swing coordinates in pixels, NaN where it is not placed. */
export interface PointSeries {
  readonly point: PointId;
  readonly h: Float64Array;
  readonly v: Float64Array;
  /** SD of one coordinate on each sample. */
  readonly sd: Float64Array;
}

/** A window gathered from a clip, with its noise. Samples outside it are at hand for the draws in which its bounds move. */
export interface SampleWindow {
  readonly seconds: Float64Array;
  /** The clip's frame nearest to each sample. */
  readonly frames: Int32Array;
  readonly framePeriodSeconds: number;
  readonly points: readonly PointSeries[];
  /** The same series smoothed as far as they allow: the best guess at the true curves, around which noise is drawn. */
  readonly guesses: readonly Pick<PointSeries, "h" | "v">[];
  readonly tracks: readonly { readonly name: string; readonly parts: readonly { readonly point: number; readonly weight: number }[] }[];
  readonly read: WindowRead;
  /** Samples from..to-1 that a draw can bring into the window or its smoothing: noise is drawn on these alone. */
  readonly active: { readonly from: number; readonly to: number };
  /** With `frames` in the read: the samples chosen, whatever the draws do to the bounds. */
  readonly fixed: { readonly first: number; readonly last: number } | null;
  /** How alike errors on neighbouring frames are, 0 to 1. */
  readonly frameCorrelation: number;
  /** Where `filters` smooth: the same in parts. */
  readonly smoothings: readonly SmoothingParts[] | null;
  /** The series hold the points as placed; these smooth or filter them, one for each; null = read as placed. */
  readonly filters: readonly Smoother[] | null;
}

/** Unknowns of a window: one for each coordinate in use, sample and point, in units of its SD. */
export function windowUnknownCount(window: SampleWindow | null): number {
  if (!window) return 0;
  return window.points.length * (window.active.to - window.active.from) * (window.read.axes ? 1 : 2);
}

/** Samples with from <= time <= to; last < first when there are none. */
export function samplesWithin(seconds: Float64Array, from: number, to: number): { first: number; last: number } {
  const slack = 1e-9;
  let first = 0;
  while (first < seconds.length && (seconds[first] ?? NaN) < from - slack) first++;
  let last = seconds.length - 1;
  while (last >= first && (seconds[last] ?? NaN) > to + slack) last--;
  return { first, last };
}

/** A view that `fill` brings to the values of one draw. Its arrays are used again and again. */
export interface WindowFiller {
  readonly view: WindowView;
  readonly fill: (offsets: Float64Array, offsetsFrom: number, seconds: Readonly<Record<EventId, number>>) => void;
}

/**
 * What is evaluated: the points as placed; the guessed curves with noise, through the same smoothing or filter; or the
 * guessed curves themselves.
 */
export type WindowBase = "placed" | "drawn" | "guessed";

/** Prepares a window to be evaluated many times. */
export function windowFiller(window: SampleWindow, of: WindowBase): WindowFiller {
  const { seconds, points, tracks, read, fixed, framePeriodSeconds, filters, frameCorrelation: alike } = window;
  const count = seconds.length;
  const fresh = Math.sqrt(1 - alike * alike);
  const { from: begin, to: end } = window.active;
  const axes = read.axes ? ([read.axes] as const) : (["h", "v"] as const);
  const [noise, passed] = [new Float64Array(count), new Float64Array(count)];
  // Smoothing and filtering are linear: the values pass once, and of each draw its noise alone.
  const isBare = of === "guessed" && read.filterHz === undefined;
  const still = points.map((series, p) => {
    const { h, v } = of === "placed" ? series : (window.guesses[p] ?? series);
    const filter = isBare ? undefined : filters?.[p];
    return { h: filtered(h, filter), v: filtered(v, filter), sd: series.sd };
  });
  const drawn = still.map((series) => ({ h: Float64Array.from(series.h), v: Float64Array.from(series.v) }));
  const at: Record<string, WindowTrack> = {};
  const mixes: { to: WindowTrack; parts: readonly { readonly point: number; readonly weight: number }[] }[] = [];
  for (const { name, parts } of tracks) {
    const [only] = parts;
    const alone = parts.length === 1 && only?.weight === 1 ? drawn[only.point] : undefined;
    const to = alone ?? { h: new Float64Array(count), v: new Float64Array(count) };
    at[name] = to;
    if (!alone) mixes.push({ to, parts });
  }
  const view: { -readonly [P in keyof WindowView]: WindowView[P] } = { seconds, first: 0, last: -1, from: NaN, to: NaN, framePeriodSeconds, at, decidedBy: -1 };
  const mix = (from: number, to: number): void => {
    for (const { to: track, parts } of mixes) {
      for (const axis of axes) {
        const sum = track[axis].fill(0, from, to);
        for (const { point, weight } of parts) {
          const series = drawn[point]?.[axis];
          if (series) for (let i = from; i < to; i++) sum[i] = (sum[i] ?? 0) + weight * (series[i] ?? NaN);
        }
      }
    }
  };
  mix(0, count);
  /** Brings the points to one draw, on the active samples; the others stay as they are. */
  const draw = (offsets: Float64Array, offsetsFrom: number): void => {
    let place = offsetsFrom;
    for (let p = 0; p < drawn.length; p++) {
      const [own, out, filter, smoothing] = [still[p], drawn[p], filters?.[p], window.smoothings?.[p]];
      if (!own || !out) continue;
      for (const axis of axes) {
        const [from, to] = [own[axis], out[axis]];
        if (smoothing) addSmoothedNoise(smoothing, offsets, place, own.sd, alike, from, to, begin, end);
        else {
          let error = offsets[place] ?? 0;
          for (let i = begin; i < end; i++) {
            if (i > begin) error = alike * error + fresh * (offsets[place + i - begin] ?? 0);
            noise[i] = (own.sd[i] ?? 0) * error;
          }
          filter?.(noise, passed, begin, end);
          const added = filter ? passed : noise;
          for (let i = begin; i < end; i++) to[i] = (from[i] ?? NaN) + (added[i] ?? 0);
        }
        place += end - begin;
      }
    }
    mix(begin, end);
  };
  return {
    view,
    fill: (offsets, offsetsFrom, eventSeconds) => {
      if (of !== "guessed") draw(offsets, offsetsFrom);
      view.from = read.from(eventSeconds, framePeriodSeconds);
      view.to = read.to(eventSeconds, framePeriodSeconds);
      const { first, last } = fixed ?? samplesWithin(seconds, view.from, view.to);
      view.first = first;
      view.last = last;
      view.decidedBy = -1;
    },
  };
}

function filtered(values: Float64Array, filter: Smoother | undefined): Float64Array {
  if (!filter) return values;
  const output = new Float64Array(values.length);
  filter(values, output);
  return output;
}
