import { medianIntervalSeconds, type FrameTimes, type TimeBasis } from "./frame-times";

/** What a person answers when asked how it was filmed: as the file says, slow motion at so many a second, not known. */
export const FILMED_RATES = ["as-file", "120", "240", "unknown"] as const;
export type FilmedRate = (typeof FILMED_RATES)[number];

/** How file time becomes real time, and who says so. */
export interface RealTime {
  readonly realSecondsPerFileSecond: number;
  readonly timeBasis: TimeBasis;
}

/**
 * From the frame times and the answer. 240 a second that plays at 30 is an eighth of real time. A file that already holds
 * as many frames a second as was said is taken as it is. Where slow and normal stretches alternate in one file no single
 * factor is true, so the time is not known.
 * @param captureFps what the file itself says of how it was filmed, null when it says nothing
 */
export function realTimeOf(times: FrameTimes, answer: FilmedRate, captureFps: number | null = null): RealTime {
  const fileFps = 1 / medianIntervalSeconds(times);
  if (!Number.isFinite(fileFps) || answer === "unknown") return { realSecondsPerFileSecond: 1, timeBasis: "unknown" };
  const filmedFps = answer === "as-file" ? (captureFps ?? fileFps) : Number(answer);
  const timeBasis = answer === "as-file" ? "measured" : "stated";
  if (filmedFps <= fileFps * 1.05) return { realSecondsPerFileSecond: 1, timeBasis };
  if (!isEven(times)) return { realSecondsPerFileSecond: 1, timeBasis: "unknown" };
  const slower = filmedFps / fileFps;
  const whole = Math.round(slower);
  return { realSecondsPerFileSecond: Math.abs(slower / whole - 1) < 0.02 ? 1 / whole : 1 / slower, timeBasis };
}

/** The answer that fits the time a clip has: what to show where the question is asked again. */
export function filmedRateOf(times: FrameTimes, { realSecondsPerFileSecond, timeBasis }: RealTime): FilmedRate {
  if (timeBasis === "unknown") return "unknown";
  if (realSecondsPerFileSecond === 1) return "as-file";
  return 1 / (medianIntervalSeconds(times) * realSecondsPerFileSecond) > 180 ? "240" : "120";
}

/** True when at most one interval in ten differs from the median by more than a third. */
function isEven(times: FrameTimes): boolean {
  const median = (medianIntervalSeconds(times) * times.timeBaseDen) / times.timeBaseNum;
  const odd = times.ticks.slice(1).filter((tick, i) => Math.abs(tick - (times.ticks[i] ?? tick) - median) > median / 3);
  return odd.length <= times.ticks.length / 10;
}
