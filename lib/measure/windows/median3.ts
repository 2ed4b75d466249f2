import type { WindowView } from "@/lib/measure/window-read";

/**
 * A value on a sample and on those before and after it inside the window, and of these the median; at the window's ends the
 * mean of two. NaN where it is NaN on the sample itself. Source: conventions `time.median3`.
 * @param into as long as the window's samples; filled inside the window
 */
export function median3(window: WindowView, valueOf: (sample: number) => number, into: Float64Array): Float64Array {
  const { first, last } = window;
  let before = NaN;
  let now = valueOf(first);
  for (let i = first; i <= last; i++) {
    const after = i < last ? valueOf(i + 1) : NaN;
    into[i] = middleOf(before, now, after);
    before = now;
    now = after;
  }
  return into;
}

/** The same on one sample alone. */
export function median3At({ first, last }: Pick<WindowView, "first" | "last">, valueOf: (sample: number) => number, sample: number): number {
  return middleOf(sample > first ? valueOf(sample - 1) : NaN, valueOf(sample), sample < last ? valueOf(sample + 1) : NaN);
}

function middleOf(before: number, now: number, after: number): number {
  if (Number.isNaN(now)) return NaN;
  if (Number.isNaN(before)) return Number.isNaN(after) ? now : (now + after) / 2;
  if (Number.isNaN(after)) return (before + now) / 2;
  return Math.max(Math.min(before, now), Math.min(Math.max(before, now), after));
}
