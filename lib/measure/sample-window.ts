import type { EventId } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { doTheSame, type Passage, type Stretch } from "@/lib/measure/smoothing/passage";
import type { WindowNoise } from "@/lib/measure/smoothing/window-noise";
import type { WindowRead, WindowTrack, WindowView } from "@/lib/measure/window-read";

/** Both coordinates of a point on every sample. Swing coordinates in pixels. */
export interface Curve {
  readonly h: Float64Array;
  readonly v: Float64Array;
}

/** One point through a window: what carries noise there. NaN where it is not placed and outside what is read. */
export interface PointSeries {
  readonly point: PointId;
  /** The points as placed, passed through what the window is read through. */
  readonly placed: Curve;
  /** SD of one coordinate on each sample, before it is passed. */
  readonly sd: Float64Array;
  readonly passage: Passage;
  /** Noise of one coordinate, passed; made once. */
  readonly noise: () => WindowNoise;
  /** The best guess at the true curves: as it is, and passed, so that noise can be drawn around it. */
  readonly guess: () => { readonly bare: Curve; readonly passed: Curve };
}

/** A window gathered from a clip, with its noise. Its samples are a piece of the clip, of which some lie outside the window. */
export interface SampleWindow {
  readonly seconds: Float64Array;
  /** The clip's frame of the first sample. */
  readonly firstFrame: number;
  readonly framePeriodSeconds: number;
  readonly points: readonly PointSeries[];
  readonly tracks: readonly { readonly name: string; readonly parts: readonly { readonly point: number; readonly weight: number }[] }[];
  readonly read: WindowRead;
  /** Samples that a draw can bring into the window, with those beside them. */
  readonly reachable: Stretch;
  /** Samples whose noise can reach those. */
  readonly active: Stretch;
  /** With `frames` in the read: the samples chosen, whatever the draws do to the bounds. */
  readonly fixed: { readonly first: number; readonly last: number } | null;
  /** How alike errors on neighbouring frames are, 0 to 1. */
  readonly frameCorrelation: number;
}

/** Samples beside the window that a formula may look at: neighbours of neighbours, for a difference beside the first or last. */
export const BESIDE = 2;

/** Unknowns of a window: one for each coordinate in use, sample and point, in units of its SD. */
export function windowUnknownCount(window: SampleWindow | null): number {
  if (!window) return 0;
  return window.points.length * (window.active.to - window.active.from) * (window.read.axes ? 1 : 2);
}

/** Samples with from <= time <= to; last < first when there are none. */
export function samplesWithin(seconds: Float64Array, from: number, to: number): { first: number; last: number } {
  const slack = 1e-9;
  return { first: countBefore(seconds, from - slack, false), last: countBefore(seconds, to + slack, true) - 1 };
}

/** How many samples lie before a time, or up to it. */
function countBefore(seconds: Float64Array, time: number, isUpTo: boolean): number {
  let [low, high] = [0, seconds.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const own = seconds[middle] ?? NaN;
    if (isUpTo ? own <= time : own < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A view that is brought to the values of one set of unknowns. Its arrays are used again and again. */
export interface WindowFiller {
  readonly view: WindowView;
  /** The values themselves, or moved by offsets: one for each unknown from `offsetsFrom` on, where there are so many. */
  readonly fill: (seconds: Readonly<Record<EventId, number>>, offsets: Float64Array, offsetsFrom: number) => void;
  /** The values with the noise that starts at a place of the pool. */
  readonly draw: (seconds: Readonly<Record<EventId, number>>, place: number) => void;
}

/** What is evaluated: the points as placed; the guessed curves as noise is drawn around them; or the guessed curves themselves. */
export type WindowBase = "placed" | "drawn" | "guessed";

/** Prepares a window to be evaluated many times. */
export function windowFiller(window: SampleWindow, of: WindowBase): WindowFiller {
  const { seconds, points, read, fixed, framePeriodSeconds, reachable } = window;
  const count = seconds.length;
  const axes: readonly ("h" | "v")[] = read.axes ? [read.axes] : ["h", "v"];
  const bases = points.map(({ placed, guess }) => (of === "placed" ? placed : of === "drawn" ? guess().passed : guess().bare));
  const at: Record<string, WindowTrack> = {};
  const view: { -readonly [P in keyof WindowView]: WindowView[P] } = { seconds, first: 0, last: -1, from: NaN, to: NaN, framePeriodSeconds, at, decidedBy: -1 };
  // Until something moves, what is shown are the bases themselves.
  let shown: readonly Curve[] = bases;
  let mixes = show(window, shown, at);
  mixInto(mixes, shown, axes, 0, count);
  let isMoved = false;
  const startMoving = (): void => {
    isMoved = true;
    if (shown !== bases) return;
    // One piece of memory for all of them.
    const memory = new Float64Array(bases.length * axes.length * count);
    let used = 0;
    const copied = (row: Float64Array, axis: "h" | "v") => {
      if (!axes.includes(axis)) return row;
      const own = memory.subarray(used, (used += count));
      own.set(row);
      return own;
    };
    shown = bases.map(({ h, v }) => ({ h: copied(h, "h"), v: copied(v, "v") }));
    mixes = show(window, shown, at);
    mixInto(mixes, shown, axes, 0, count);
  };
  const restore = (): void => {
    if (!isMoved) return;
    isMoved = false;
    bases.forEach((base, p) => axes.forEach((axis) => shown[p]?.[axis].set(base[axis])));
    mixInto(mixes, shown, axes, 0, count);
  };
  const bound = (eventSeconds: Readonly<Record<EventId, number>>): void => {
    view.from = read.from(eventSeconds, framePeriodSeconds);
    view.to = read.to(eventSeconds, framePeriodSeconds);
    const { first, last } = fixed ?? samplesWithin(seconds, view.from, view.to);
    view.first = first;
    view.last = last;
    view.decidedBy = -1;
  };
  const move = slopes(window);
  let carriers: ReturnType<typeof carriersOf> | null = null;
  return {
    view,
    fill: (eventSeconds, offsets, offsetsFrom) => {
      bound(eventSeconds);
      if (offsets.length <= offsetsFrom) return restore();
      startMoving();
      let place = offsetsFrom;
      points.forEach((point, p) => {
        for (const axis of axes) {
          const [base, own] = [bases[p]?.[axis], shown[p]?.[axis]];
          if (base && own) move(base, own, point, offsets, place);
          place += window.active.to - window.active.from;
        }
      });
      mixInto(mixes, shown, axes, reachable.from, reachable.to);
    },
    draw: (eventSeconds, place) => {
      bound(eventSeconds);
      startMoving();
      carriers ??= carriersOf(window, bases, shown, mixes);
      const from = Math.max(reachable.from, view.first - BESIDE);
      const to = Math.min(reachable.to, view.last + 1 + BESIDE);
      let start = place - window.active.from;
      for (const { noise, base, to: shownThere } of carriers.each) {
        for (const axis of axes) {
          noise.add(start, base[axis], shownThere[axis], from, to);
          start += window.active.to - window.active.from;
        }
      }
      mixInto(carriers.mixes, shown, axes, from, to);
    },
  };
}

/** What carries noise of its own in a draw: a point, or a whole track of points that nothing else reads. */
interface Carrier {
  readonly noise: WindowNoise;
  readonly base: Curve;
  readonly to: Curve;
}

/**
 * The noise of a mix of points is itself a single noise, where no other track reads the points and all of them are alike
 * doubtful and pass through the same; then the track is drawn at once instead of its points.
 */
function carriersOf({ points, tracks, frameCorrelation, active, reachable }: SampleWindow, bases: readonly Curve[], shown: readonly Curve[], mixes: readonly Mixed[]): { readonly each: readonly Carrier[]; readonly mixes: readonly Mixed[] } {
  const readers = points.map((_, p) => tracks.filter(({ parts }) => parts.some(({ point }) => point === p)).length);
  const isOneNoise = ({ parts }: Mixed) => {
    const [first, ...others] = parts.map(({ point }) => points[point]);
    return first !== undefined && parts.every(({ point }) => readers[point] === 1) && others.every((other) => other && doTheSame(first.passage, other.passage, reachable) && areAlike(first.sd, other.sd, active));
  };
  const whole = mixes.filter(isOneNoise);
  const isInWhole = (p: number) => whole.some(({ parts }) => parts.some(({ point }) => point === p));
  const ofTracks = whole.flatMap(({ to, parts }): Carrier[] => {
    const point = points[parts[0]?.point ?? -1];
    if (!point) return [];
    const size = Math.hypot(...parts.map(({ weight }) => weight));
    return [{ noise: point.passage.noise(point.sd.map((sd) => size * sd), frameCorrelation), base: { h: to.h.slice(), v: to.v.slice() }, to }];
  });
  const ofPoints = points.flatMap(({ noise }, p): Carrier[] => {
    const [base, to] = [bases[p], shown[p]];
    return base && to && !isInWhole(p) ? [{ noise: noise(), base, to }] : [];
  });
  return { each: [...ofTracks, ...ofPoints], mixes: mixes.filter((mix) => !whole.includes(mix)) };
}

function areAlike(a: Float64Array, b: Float64Array, { from, to }: Stretch): boolean {
  for (let i = from; i < to; i++) if (a[i] !== b[i]) return false;
  return true;
}

interface Mixed {
  readonly to: WindowTrack;
  readonly parts: readonly { readonly point: number; readonly weight: number }[];
}

/** Puts the tracks of a window up for view: those of a single point directly, the others to be mixed. */
function show({ tracks, seconds }: SampleWindow, shown: readonly Curve[], at: Record<string, WindowTrack>): readonly Mixed[] {
  const mixes: Mixed[] = [];
  for (const { name, parts } of tracks) {
    const [only] = parts;
    const alone = parts.length === 1 && only?.weight === 1 ? shown[only.point] : undefined;
    const to = alone ?? at[name] ?? { h: new Float64Array(seconds.length), v: new Float64Array(seconds.length) };
    at[name] = to;
    if (!alone) mixes.push({ to, parts });
  }
  return mixes;
}

function mixInto(mixes: readonly Mixed[], shown: readonly Curve[], axes: readonly ("h" | "v")[], from: number, to: number): void {
  for (const { to: track, parts } of mixes) {
    for (const axis of axes) {
      const sum = track[axis].fill(0, from, to);
      for (const { point, weight } of parts) {
        const series = shown[point]?.[axis];
        if (series) for (let i = from; i < to; i++) sum[i] = (sum[i] ?? 0) + weight * (series[i] ?? NaN);
      }
    }
  }
}

/** Moves one coordinate by offsets of its own samples, each error alike to the one before, passed as the values are. */
function slopes({ seconds, active, reachable, frameCorrelation: alike }: SampleWindow) {
  const fresh = Math.sqrt(1 - alike * alike);
  const [noise, passed] = [new Float64Array(seconds.length), new Float64Array(seconds.length)];
  return (base: Float64Array, shown: Float64Array, { sd, passage }: PointSeries, offsets: Float64Array, offsetsFrom: number): void => {
    let error = offsets[offsetsFrom] ?? 0;
    for (let i = active.from; i < active.to; i++) {
      if (i > active.from) error = alike * error + fresh * (offsets[offsetsFrom + i - active.from] ?? 0);
      noise[i] = (sd[i] ?? 0) * error;
    }
    passage.pass(noise, passed);
    for (let i = reachable.from; i < reachable.to; i++) shown[i] = (base[i] ?? NaN) + (passed[i] ?? 0);
  };
}
