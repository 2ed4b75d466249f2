/**
 * When each frame of a file was shown, as the file itself says: whole ticks of its own time base, in order of
 * presentation. Kept as integers so that nothing is lost; seconds are made only where they are needed.
 */
export interface FrameTimes {
  /** One tick lasts `timeBaseNum / timeBaseDen` seconds of file time. */
  readonly timeBaseNum: number;
  readonly timeBaseDen: number;
  /** Presentation tick of each frame, strictly increasing. */
  readonly ticks: readonly number[];
}

/**
 * Real seconds that pass for one second of file time: 1 for an ordinary file, 1/8 for 240 frames a second exported to
 * play at 30. `unknown` when neither the file nor a person says it.
 */
export type TimeBasis = "measured" | "stated" | "unknown";

/** File time of a frame in seconds. @throws RangeError when there is no such frame */
export function fileSecondsOf(times: FrameTimes, frameIndex: number): number {
  const tick = times.ticks[frameIndex];
  if (tick === undefined) throw new RangeError(`no frame ${frameIndex} among ${times.ticks.length}`);
  return (tick * times.timeBaseNum) / times.timeBaseDen;
}

/** Index of the frame shown at a tick: the last one that starts at or before it, the first frame before the start. */
export function frameAtTick(times: FrameTimes, tick: number): number {
  let low = 0;
  let high = times.ticks.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((times.ticks[middle] ?? Infinity) <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Median interval between neighbouring frames, in file seconds; NaN for fewer than two frames. */
export function medianIntervalSeconds(times: FrameTimes): number {
  const steps = times.ticks.slice(1).map((tick, i) => tick - (times.ticks[i] ?? tick));
  if (steps.length === 0) return NaN;
  steps.sort((a, b) => a - b);
  const middle = steps.length >> 1;
  const median = steps.length % 2 ? (steps[middle] ?? NaN) : ((steps[middle - 1] ?? NaN) + (steps[middle] ?? NaN)) / 2;
  return (median * times.timeBaseNum) / times.timeBaseDen;
}
