import { placesIn } from "./factor";

/** Where the pairs of one input stand beside the pairs of a step, in bytes: one of `low` and one of `high`, added. */
export interface Placing {
  readonly low: Uint32Array;
  readonly high: Uint32Array;
}

/**
 * One step of the elimination, without numbers: one or two inputs are multiplied, and then one variable may be summed out. That
 * variable is bit 0 of the step and of its inputs, so that tables are walked in pairs (absent, present), and in blocks that
 * stay in the cache.
 */
export interface StepShape {
  /** Its variables in order of elimination. */
  readonly scope: readonly number[];
  readonly a: Placing;
  readonly b: Placing | null;
}

/** Pairs walked at a time, as a power of two. */
const BLOCK_BITS = 9;
const PAIR_BYTES = 16;

/** @param inputs the variables of each input in order of elimination, the first one the same as the scope's */
export function shapeStep(scope: readonly number[], a: readonly number[], b: readonly number[] | null): StepShape {
  const placing = (variables: readonly number[]): Placing => {
    const bits = scope.slice(1).map((variable) => {
      const k = variables.indexOf(variable) - 1;
      return k < 0 ? 0 : PAIR_BYTES << k;
    });
    return { low: Uint32Array.from(placesIn(bits.slice(0, BLOCK_BITS))), high: Uint32Array.from(placesIn(bits.slice(BLOCK_BITS))) };
  };
  return { scope, a: placing(a), b: b && placing(b) };
}
