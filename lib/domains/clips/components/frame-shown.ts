/**
 * The frame to which a presented time belongs: the one that starts there, give or take a quarter of the gap to its
 * nearest neighbour. Null when no frame starts there.
 * @param microseconds start of each frame, increasing
 * @param seconds the presentation time that the browser reports for a picture it has shown
 */
export function frameShownAt(microseconds: readonly number[], seconds: number): number | null {
  const at = seconds * 1e6;
  let low = 0;
  let high = microseconds.length - 1;
  while (high > low) {
    const middle = (low + high) >> 1;
    if ((microseconds[middle] ?? 0) < at) low = middle + 1;
    else high = middle;
  }
  const near = [low - 1, low].filter((i) => i >= 0 && i < microseconds.length);
  const best = near.reduce<number | null>((a, b) => (a !== null && Math.abs((microseconds[a] ?? 0) - at) <= Math.abs((microseconds[b] ?? 0) - at) ? a : b), null);
  if (best === null) return null;
  const start = microseconds[best] ?? 0;
  const gaps = [start - (microseconds[best - 1] ?? -Infinity), (microseconds[best + 1] ?? Infinity) - start].filter(Number.isFinite);
  const gap = gaps.length > 0 ? Math.min(...gaps) : 33_000;
  return Math.abs(start - at) <= gap / 4 ? best : null;
}

/**
 * Places to send an element to for one frame, in seconds: its middle first, then nearer to its start and to its end. The
 * start itself is never asked for: elements show the frame before it as often as not.
 */
export function seekPlaces(microseconds: readonly number[], frameIndex: number): readonly number[] {
  const start = microseconds[frameIndex] ?? 0;
  const next = microseconds[frameIndex + 1] ?? start + (start - (microseconds[frameIndex - 1] ?? start - 2000));
  return [0.5, 0.25, 0.75].map((part) => (start + (next - start) * part) / 1e6);
}
