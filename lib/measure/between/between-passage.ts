import type { BetweenFrame } from "@/lib/measure/between/between-frames";
import type { Passage } from "@/lib/measure/smoothing/passage";
import { filteredNoise } from "@/lib/measure/smoothing/window-noise";

/** Samples of a piece of the clip that are worked out from placed ones. */
export interface BetweenSamples {
  readonly all: readonly BetweenSample[];
  /** The same values with nothing on these samples, ready to be passed: what stands there is put on from the placed ones. On a followed sample stays how far it lies from those. */
  readonly blanked: (values: Float64Array) => Float64Array;
}

interface BetweenSample {
  readonly sample: number;
  readonly knots: readonly number[];
  readonly weights: readonly number[];
  readonly isFollowed: boolean;
}

/** The in-between frames that lie in a run of a clip's frames. @param firstFrame the clip's frame of its first sample */
export function betweenSamples(between: readonly BetweenFrame[], firstFrame: number, count: number): BetweenSamples {
  const all = between.flatMap(({ frame, knots, weights, isFollowed = false }) => {
    const own = knots.map((knot) => knot - firstFrame);
    return own.every((knot) => knot >= 0 && knot < count) ? [{ sample: frame - firstFrame, knots: own, weights, isFollowed }] : [];
  });
  return {
    all,
    blanked: (values) => {
      const blank = values.slice();
      for (const { sample, knots, weights, isFollowed } of all) blank[sample] = isFollowed ? (values[sample] ?? NaN) - mixOf(values, knots, weights) : 0;
      return blank;
    },
  };
}

/**
 * What a window is read through when some of its samples are worked out from placed ones: first those are put on, each the curve
 * through its placed samples plus what is given for it itself (nothing for a place, how far it strays for noise), then the rest of the
 * passage. Linear, so that the noise of the placed samples runs through the curve as their places do.
 */
export function betweenPassage(inner: Passage, { all }: BetweenSamples, count: number): Passage {
  const { from, to } = inner.looksAt;
  const within = all.filter(({ sample }) => sample >= from && sample < to);
  const through = new Set(within.flatMap(({ knots }) => knots));
  const own = all.filter((it) => (it.sample >= from && it.sample < to) || (it.isFollowed && through.has(it.sample)));
  if (own.length === 0) return inner;
  const first = Math.min(from, ...own.map(({ sample, knots }) => Math.min(sample, knots[0] ?? from)));
  const last = Math.max(to, ...own.map(({ sample, knots }) => Math.max(sample, knots.at(-1) ?? 0) + 1));
  const whole = new Float64Array(count);
  const pass: Passage["pass"] = (input, output) => {
    whole.set(input.subarray(first, last), first);
    for (let i = 0; i < own.length; i++) {
      const { sample, knots, weights } = own[i] ?? NOTHING;
      // A followed sample has been put on already where a curve goes through it.
      whole[sample] = (input[sample] ?? NaN) + mixOf(whole, knots, weights);
    }
    inner.pass(whole, output);
  };
  const looksAt = { from: first, to: last };
  return { pass, looksAt, isBare: inner.isBare, by: pass, noise: (sd, alike) => filteredNoise(pass, looksAt, sd, alike) };
}

function mixOf(values: Float64Array, knots: readonly number[], weights: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < knots.length; k++) sum += (weights[k] ?? 0) * (values[knots[k] ?? 0] ?? NaN);
  return sum;
}

const NOTHING: BetweenSample = { sample: -1, knots: [], weights: [], isFollowed: false };
