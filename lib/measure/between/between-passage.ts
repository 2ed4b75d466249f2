import type { BetweenFrame } from "@/lib/measure/between/between-frames";
import type { Passage } from "@/lib/measure/smoothing/passage";
import { filteredNoise } from "@/lib/measure/smoothing/window-noise";

/** Samples of a piece of the clip that are worked out from placed ones. */
export interface BetweenSamples {
  readonly all: readonly { readonly sample: number; readonly knots: readonly number[]; readonly weights: readonly number[] }[];
  /** The same values with nothing on these samples, ready to be passed: what stands there is put on from the placed ones. */
  readonly blanked: (values: Float64Array) => Float64Array;
}

/** The in-between frames that lie in a run of a clip's frames. @param firstFrame the clip's frame of its first sample */
export function betweenSamples(between: readonly BetweenFrame[], firstFrame: number, count: number): BetweenSamples {
  const all = between.flatMap(({ frame, knots, weights }) => {
    const own = knots.map((knot) => knot - firstFrame);
    return own.every((knot) => knot >= 0 && knot < count) ? [{ sample: frame - firstFrame, knots: own, weights }] : [];
  });
  return {
    all,
    blanked: (values) => {
      const blank = values.slice();
      for (const { sample } of all) blank[sample] = 0;
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
  const own = all.filter(({ sample }) => sample >= from && sample < to);
  if (own.length === 0) return inner;
  const first = Math.min(from, ...own.map(({ knots }) => knots[0] ?? from));
  const last = Math.max(to, ...own.map(({ knots }) => (knots.at(-1) ?? 0) + 1));
  const whole = new Float64Array(count);
  const pass: Passage["pass"] = (input, output) => {
    whole.set(input.subarray(first, last), first);
    for (let i = 0; i < own.length; i++) {
      const { sample, knots, weights } = own[i] ?? NOTHING;
      let value = input[sample] ?? NaN;
      for (let k = 0; k < knots.length; k++) value += (weights[k] ?? 0) * (input[knots[k] ?? 0] ?? NaN);
      whole[sample] = value;
    }
    inner.pass(whole, output);
  };
  const looksAt = { from: first, to: last };
  return { pass, looksAt, isBare: inner.isBare, by: pass, noise: (sd, alike) => filteredNoise(pass, looksAt, sd, alike) };
}

const NOTHING: BetweenSamples["all"][number] = { sample: -1, knots: [], weights: [] };
