import type { WindowView } from "@/lib/measure/window-read";

/**
 * First time in a window at which a value is above 0, linear between samples; the window's first sample when it is above
 * there already; null when it never is. Notes which sample decided it.
 */
export function firstAbove(window: WindowView, valueOf: (sample: number) => number): number | null {
  let before = -1;
  let then = NaN;
  for (let i = window.first; i <= window.last; i++) {
    const now = valueOf(i);
    if (Number.isNaN(now)) continue;
    if (now > 0) {
      window.decidedBy = i;
      return timeOfZero(window, before, i, then, now);
    }
    [before, then] = [i, now];
  }
  return null;
}

/** Time of 0 between two samples of opposite sign; the later one's own when there is none before it. */
export function timeOfZero({ seconds }: WindowView, before: number, after: number, then: number, now: number): number {
  const late = seconds[after] ?? NaN;
  if (before < 0 || !(now > then)) return late;
  const early = seconds[before] ?? NaN;
  return early + (late - early) * (-then / (now - then));
}
