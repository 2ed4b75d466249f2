import { median } from "@/lib/measure/order-statistics";
import type { WindowView } from "@/lib/measure/window-read";

/**
 * Largest value over the samples of a window; NaN where it cannot be computed on any. Samples whose value is NaN are passed over.
 * Notes which sample decided it.
 */
export function largestIn(window: WindowView, valueOf: (sample: number) => number): number {
  let best = NaN;
  let at = -1;
  for (let i = window.first; i <= window.last; i++) {
    const value = valueOf(i);
    if (value > best || (at < 0 && !Number.isNaN(value))) {
      best = value;
      at = i;
    }
  }
  if (at >= 0) window.decidedBy = at;
  return best;
}

/** Smallest value over the samples of a window, as largestIn. */
export function smallestIn(window: WindowView, valueOf: (sample: number) => number): number {
  let best = NaN;
  let at = -1;
  for (let i = window.first; i <= window.last; i++) {
    const value = valueOf(i);
    if (value < best || (at < 0 && !Number.isNaN(value))) {
      best = value;
      at = i;
    }
  }
  if (at >= 0) window.decidedBy = at;
  return best;
}

/** Median of the `count` largest values over a window, an odd number; NaN when there are fewer. */
export function medianOfLargest(window: WindowView, count: number, valueOf: (sample: number) => number): number {
  const top: number[] = [];
  largestIn(window, (sample) => {
    const value = valueOf(sample);
    if (!Number.isNaN(value)) {
      let place = top.length;
      while (place > 0 && (top[place - 1] ?? NaN) < value) place--;
      if (place < count) {
        top.splice(place, 0, value);
        if (top.length > count) top.pop();
      }
    }
    return value;
  });
  return top.length < count ? NaN : (top[(count - 1) / 2] ?? NaN);
}

/** Median of a value over the samples of a window; NaN when it is NaN on one of them. For windows of a few frames. */
export function medianIn(window: WindowView, valueOf: (sample: number) => number): number {
  const values: number[] = [];
  for (let i = window.first; i <= window.last; i++) values.push(valueOf(i));
  return values.some(Number.isNaN) ? NaN : median(values);
}
