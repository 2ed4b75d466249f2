import { parabolaWeightsAtZero } from "@/lib/measure/value-at-event";
import type { SwingPosition } from "@/lib/measure/swing-coordinates";
import type { WindowTrack, WindowView } from "@/lib/measure/window-read";

/**
 * A bat's or a hand's place at a window's bound: linear between the samples beside it; beyond the last sample (contact
 * between frames) by the parabola through the last three. Source: conventions `time.windows`, `time.valueAtContact`.
 */
export function placeAt(track: WindowTrack, window: WindowView, time: number): SwingPosition {
  const { seconds, last, framePeriodSeconds } = window;
  const final = seconds[last] ?? NaN;
  if (time >= final) {
    if (time - final <= framePeriodSeconds / 10) return { h: track.h[last] ?? NaN, v: track.v[last] ?? NaN };
    const [a, b, c] = parabolaWeightsAtZero([(seconds[last - 2] ?? NaN) - time, (seconds[last - 1] ?? NaN) - time, final - time]);
    const along = (row: Float64Array) => a * (row[last - 2] ?? NaN) + b * (row[last - 1] ?? NaN) + c * (row[last] ?? NaN);
    return { h: along(track.h), v: along(track.v) };
  }
  let after = Math.max(1, window.first);
  while (after < last && (seconds[after] ?? NaN) < time) after++;
  const before = seconds[after - 1] ?? NaN;
  const share = (time - before) / ((seconds[after] ?? NaN) - before);
  return {
    h: (1 - share) * (track.h[after - 1] ?? NaN) + share * (track.h[after] ?? NaN),
    v: (1 - share) * (track.v[after - 1] ?? NaN) + share * (track.v[after] ?? NaN),
  };
}

/**
 * Length of a track's path through a window, its two ends counted in, with those ends; pixels. Samples without the point
 * are passed over.
 */
export function pathThrough(track: WindowTrack, window: WindowView): { readonly length: number; readonly start: SwingPosition; readonly end: SwingPosition } {
  const start = placeAt(track, window, window.from);
  const end = placeAt(track, window, window.to);
  let length = 0;
  let h = start.h;
  let v = start.v;
  for (let i = window.first; i <= window.last; i++) {
    const nextH = track.h[i] ?? NaN;
    const nextV = track.v[i] ?? NaN;
    if (Number.isNaN(nextH)) continue;
    length += Math.sqrt((nextH - h) ** 2 + (nextV - v) ** 2);
    h = nextH;
    v = nextV;
  }
  return { length: length + Math.hypot(end.h - h, end.v - v), start, end };
}
