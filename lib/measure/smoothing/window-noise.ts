import { frameNoise, POOL_MASK, POOL_RUN, smoothedFrameNoise } from "@/lib/measure/normal-pool";
import { weightIn, type ParabolaFit } from "@/lib/measure/smoothing/parabola-fit";
import { samplesInReach } from "@/lib/measure/smoothing/reach";

/** Times that are off an even step by less than this share of it make no difference to how noise is smoothed. */
const EVEN_SHARE = 0.02;

/** Noise of one point's coordinate through a window, drawn from the pool of normal numbers. */
export interface WindowNoise {
  /** Writes base + the noise that starts at a place of the pool into the output, for samples begin..end-1. */
  readonly add: (place: number, base: Float64Array, output: Float64Array, begin: number, end: number) => void;
}

/** Noise on the samples as they are placed. @param sd of each sample @param alike how alike neighbouring errors are, 0 to 1 */
export function rawNoise(sd: Float64Array, alike: number): WindowNoise {
  const source = frameNoise(alike);
  return {
    add: (place, base, output, begin, end) => {
      for (let i = begin; i < end; i++) output[i] = (base[i] ?? NaN) + (sd[i] ?? 0) * (source[(place + i) & POOL_MASK] ?? 0);
    },
  };
}

/** Noise as it is left by a filter over a whole run of samples. */
export function filteredNoise(filter: (input: Float64Array, output: Float64Array) => void, run: { readonly from: number; readonly to: number }, sd: Float64Array, alike: number): WindowNoise {
  const source = frameNoise(alike);
  const [noise, passed] = [new Float64Array(sd.length), new Float64Array(sd.length)];
  return {
    add: (place, base, output, begin, end) => {
      for (let i = run.from, at = (place + i) & POOL_MASK; i < run.to; i++, at = (at + 1) & POOL_MASK) noise[i] = (sd[i] ?? 0) * (source[at] ?? 0);
      filter(noise, passed);
      for (let i = begin; i < end; i++) output[i] = (base[i] ?? NaN) + (passed[i] ?? 0);
    },
  };
}

/**
 * Noise as it is left by a smoothing. Where samples are evenly spaced, all placed and equally doubtful, it is taken ready
 * smoothed from the pool; elsewhere (ends, holes, guessed points, uneven times) it is summed up with the weights of the fit.
 * Both come from the same errors of the single samples.
 * @param begin..end-1 the samples for which it is ever asked
 */
export function smoothedNoise(fit: ParabolaFit, sd: Float64Array, alike: number, framePeriodSeconds: number, begin: number, end: number): WindowNoise {
  const source = frameNoise(alike);
  const reach = samplesInReach(fit.reachSeconds, framePeriodSeconds);
  const breaks = breaksOf(fit, sd, framePeriodSeconds);
  const isReady = (i: number): boolean => {
    const [first, last] = [i - reach, i + reach];
    return reach >= 2 && fit.from[i] === first && fit.to[i] === last + 1 && breaks[last] === breaks[first];
  };
  const runs: NoiseRun[] = [];
  for (let from = begin; from < end; ) {
    let to = from + 1;
    if (isReady(from)) while (to < end && to - from < POOL_RUN && isReady(to) && sd[to] === sd[from]) to++;
    runs.push(isReady(from) ? { from, to, sd: sd[from] ?? 0, first: 0, weights: null } : { from, to, sd: 1, first: fit.from[from] ?? 0, weights: weightsOf(fit, sd, from) });
    from = to;
  }
  const ready = runs.some(({ weights }) => !weights) ? smoothedFrameNoise(alike, reach) : source;
  return {
    add: (place, base, output, first, last) => {
      for (const run of runs) {
        if (run.to <= first || run.from >= last) continue;
        if (run.weights) output[run.from] = (base[run.from] ?? NaN) + summed(run.weights, source, place + run.first);
        else addRun(ready, run.sd, place, base, output, Math.max(first, run.from), Math.min(last, run.to));
      }
    },
  };
}

/** Samples from..to-1 that are taken ready from the pool, or a single one that is summed up from `first` on. */
interface NoiseRun {
  readonly from: number;
  readonly to: number;
  readonly sd: number;
  readonly first: number;
  readonly weights: Float64Array | null;
}

/** At most POOL_RUN samples. */
function addRun(pool: Float32Array, sd: number, place: number, base: Float64Array, output: Float64Array, from: number, to: number): void {
  const ahead = ((place + from) & POOL_MASK) - from;
  for (let i = from; i < to; i++) output[i] = (base[i] ?? NaN) + sd * (pool[ahead + i] ?? 0);
}

function summed(weights: Float64Array, pool: Float32Array, place: number): number {
  let sum = 0;
  for (let k = 0, at = place & POOL_MASK; k < weights.length; k++, at++) sum += (weights[k] ?? 0) * (pool[at] ?? 0);
  return sum;
}

/** How many samples up to each one do not go on evenly from the one before: not placed, another doubt, another step of time. */
function breaksOf({ times, isKnown }: ParabolaFit, sd: Float64Array, framePeriodSeconds: number): Int32Array {
  const breaks = new Int32Array(sd.length);
  for (let i = 1; i < sd.length; i++) {
    const step = (times[i] ?? NaN) - (times[i - 1] ?? NaN);
    const isEven = isKnown[i] && isKnown[i - 1] && sd[i] === sd[i - 1] && Math.abs(step - framePeriodSeconds) <= EVEN_SHARE * framePeriodSeconds;
    breaks[i] = (breaks[i - 1] ?? 0) + (isEven ? 0 : 1);
  }
  return breaks;
}

/** Weights of the samples from..to-1 in a smoothed one, each times its SD. */
function weightsOf(fit: ParabolaFit, sd: Float64Array, i: number): Float64Array {
  const first = fit.from[i] ?? 0;
  return Float64Array.from({ length: (fit.to[i] ?? 0) - first }, (_, k) => weightIn(fit, i, first + k) * (sd[first + k] ?? 0));
}
