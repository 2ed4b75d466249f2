import { defineFormula } from "@/lib/measure/formula";
import type { WindowView } from "@/lib/measure/window-read";
import { largestIn } from "@/lib/measure/windows/extremes";
import { vertexOf } from "@/lib/measure/windows/parabola";

type Belt = WindowView<"belt">;

/** Speed of the belt toward the pitcher on a sample, pixels a second, by central differences; NaN at the ends. */
function speedAt(h: Float64Array, seconds: Float64Array, i: number): number {
  return ((h[i + 1] ?? NaN) - (h[i - 1] ?? NaN)) / ((seconds[i + 1] ?? NaN) - (seconds[i - 1] ?? NaN));
}

/** When the belt moves fastest, seconds from contact, by the parabola through the fastest sample and its neighbours. */
function fastestSeconds(window: Belt): number {
  const { seconds } = window;
  const { h } = window.at.belt;
  largestIn(window, (sample) => speedAt(h, seconds, sample));
  const i = window.decidedBy;
  const [before, now, after] = [speedAt(h, seconds, i - 1), speedAt(h, seconds, i), speedAt(h, seconds, i + 1)];
  const time = seconds[i] ?? NaN;
  return Number.isNaN(before + now + after) ? time : vertexOf([seconds[i - 1] ?? NaN, time, seconds[i + 1] ?? NaN], [before, now, after]);
}

/**
 * When the belt moves forward fastest, as a share of the ball's flight, 0 = release, 1 = contact. Belt filtered at 10 Hz up to contact.
 * Camera: most drawn hitters move by 0.0002 a degree; ten times that is taken (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "shift-in-ball-flight",
  version: 1,
  reads: {},
  window: { from: ({ load }) => load, to: ({ contact }) => contact, tracks: { belt: "midhip" }, axes: "h", filterHz: 10 },
  events: ["release", "load", "contact"],
  lengths: ["T"],
  isTimeOfLargest: true,
  cameraSdPerDeg: 0.002,
  value: (_, { seconds: { release, contact } }, window) => (fastestSeconds(window) - release) / (contact - release),
  symbols: (_, window) => ({
    speed: Float64Array.from(window.seconds, (__, i) => (i < window.first || i > window.last ? NaN : speedAt(window.at.belt.h, window.seconds, i))),
    t_shift: fastestSeconds(window),
  }),
});
