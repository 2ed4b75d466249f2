import type { TrackFilter } from "@/lib/measure/signals/filter-track";
import { smoothThrough, type ParabolaFit } from "@/lib/measure/smoothing/parabola-fit";
import { filteredNoise, rawNoise, smoothedNoise, type WindowNoise } from "@/lib/measure/smoothing/window-noise";

/** A stretch of samples, from..to-1. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What a coordinate of a point passes through before a window is read, in the same linear way as its noise does. */
export interface Passage {
  /** Writes the passed samples of the stretch that is read; the others stay as they are. */
  readonly pass: (input: Float64Array, output: Float64Array) => void;
  /** The samples that `pass` looks at. */
  readonly looksAt: Stretch;
  /** Nothing is done to the values. */
  readonly isBare: boolean;
  /** The fit of a smoothing, or the filter; null where nothing is done. */
  readonly by: ParabolaFit | TrackFilter["filter"] | null;
  /** The noise of one coordinate, passed. @param sd of each sample @param alike how alike neighbouring errors are, 0 to 1 */
  readonly noise: (sd: Float64Array, alike: number) => WindowNoise;
}

/** Whether two passages do the same to samples of a stretch. */
export function doTheSame(a: Passage, b: Passage, { from, to }: Stretch): boolean {
  if (a.by === b.by) return true;
  if (!a.by || !b.by || typeof a.by === "function" || typeof b.by === "function") return false;
  for (let i = from; i < to; i++) {
    if (a.by.from[i] !== b.by.from[i] || a.by.to[i] !== b.by.to[i] || a.by.by0[i] !== b.by.by0[i] || a.by.by1[i] !== b.by.by1[i] || a.by.by2[i] !== b.by.by2[i]) return false;
  }
  return true;
}

/** Nothing: the samples are read as they are placed. */
export function noPassage(read: Stretch): Passage {
  return { pass: (input, output) => output.set(input.subarray(read.from, read.to), read.from), looksAt: read, isBare: true, by: null, noise: rawNoise };
}

/** A smoothing by parabolas. */
export function smoothingPassage(fit: ParabolaFit, framePeriodSeconds: number, read: Stretch): Passage {
  return {
    pass: (input, output) => smoothThrough(fit, input, output, read.from, read.to),
    isBare: false,
    by: fit,
    looksAt: { from: fit.from[read.from] ?? read.from, to: fit.to[read.to - 1] ?? read.to },
    noise: (sd, alike) => smoothedNoise(fit, sd, alike, framePeriodSeconds, read.from, read.to),
  };
}

/** The two-pass filter, whose memory needs the whole run. */
export function filterPassage({ filter }: Pick<TrackFilter, "filter">, run: Stretch): Passage {
  return { pass: filter, looksAt: run, isBare: false, by: filter, noise: (sd, alike) => filteredNoise(filter, run, sd, alike) };
}
