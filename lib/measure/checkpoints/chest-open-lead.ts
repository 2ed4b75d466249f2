import { defineFormula } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import { percentile } from "@/lib/measure/order-statistics";
import type { WindowView } from "@/lib/measure/window-read";
import { median3 } from "@/lib/measure/windows/median3";

type Shoulders = WindowView<"front" | "back">;

/** The chest is open when it looks this much narrower than square. */
const OPEN = Math.cos(Math.PI / 6);
const scratch = { width: new Float64Array(0), known: new Float64Array(0) };

interface Opening {
  readonly width: Float64Array;
  /** 95th percentile of the width, pixels. */
  readonly full: number;
  /** Sample of the largest width. */
  readonly widest: number;
}

/** How wide the shoulders look along u through the window. */
function openingOf(window: Shoulders): Opening {
  if (scratch.width.length !== window.seconds.length) {
    scratch.width = new Float64Array(window.seconds.length);
    scratch.known = new Float64Array(window.seconds.length);
  }
  const { front, back } = window.at;
  const width = median3(window, (i) => Math.abs((front.h[i] ?? NaN) - (back.h[i] ?? NaN)), scratch.width);
  let widest = window.first;
  let count = 0;
  for (let i = window.first; i <= window.last; i++) {
    const value = width[i] ?? NaN;
    if (Number.isNaN(value)) continue;
    scratch.known[count++] = value;
    if (!(value <= (width[widest] ?? NaN))) widest = i;
  }
  return { width, full: percentile(scratch.known.subarray(0, count), 0.95), widest };
}

/** First time after the largest width at which it is at most cos 30° of its full one, between frames; NaN when it never is. */
function openSeconds(window: Shoulders): number {
  const { width, full, widest } = openingOf(window);
  if (!(full > 0)) return NaN;
  const limit = OPEN * full;
  let before = widest;
  for (let i = widest + 1; i <= window.last; i++) {
    const now = width[i] ?? NaN;
    if (Number.isNaN(now)) continue;
    if (now <= limit) {
      const then = width[before] ?? NaN;
      const share = then > now ? Math.max(0, Math.min(1, (then - limit) / (then - now))) : 1;
      window.decidedBy = i;
      const [t0, t1] = [window.seconds[before] ?? NaN, window.seconds[i] ?? NaN];
      return t0 + share * (t1 - t0);
    }
    before = i;
  }
  return NaN;
}

/**
 * How long before contact the chest is 30 degrees open, from its width to a side camera, seconds; larger = it opened earlier.
 * Camera: measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "chest-open-lead",
  version: 1,
  reads: {},
  window: { from: ({ load }) => load, to: ({ contact }) => contact, tracks: { front: "sh_f", back: "sh_b" }, axes: "h" },
  events: ["load", "contact"],
  comparesFrames: true,
  cameraSdPerDeg: 0.0018,
  value: (_, { seconds }: FormulaScales, window) => seconds.contact - openSeconds(window),
  symbols: (_, window) => {
    const { width, full, widest } = openingOf(window);
    return { width: Float64Array.from(width, (value, i) => (i < window.first || i > window.last ? NaN : value)), W: full, t_wide: window.seconds[widest] ?? NaN, t_open: openSeconds(window) };
  },
});
