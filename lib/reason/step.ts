import { placesIn } from "./factor";

/** Where the pairs of one table stand beside the pairs of a step, in bytes: one each of `outer`, `middle` and `inner`, added. */
export interface Placing {
  readonly outer: Uint32Array;
  readonly middle: Uint32Array;
  readonly inner: Uint32Array;
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
  /** Where what is handed on stands. */
  readonly into: Placing;
  /** Whether each pair of a is met once. */
  readonly isWhole: boolean;
}

/** Pairs walked at a time, as a power of two. */
const BLOCK_BITS = 8;
/** A block holds at least so many bits that b does not have, if there are as many. */
const LEAST_INNER_BITS = 3;
const PAIR_BYTES = 16;
const NUMBER_BYTES = 8;

/**
 * @param a the larger input and @param b the other one, by their variables in order of elimination, the first one the same as the scope's
 * @param isSummed the variable is summed out: what b does not have is then walked innermost, where b's pair stays the same
 */
export function shapeStep(scope: readonly number[], a: readonly number[], b: readonly number[] | null, isSummed: boolean): StepShape {
  const bits = [...scope.keys()].slice(1);
  const stridesIn = (variables: readonly number[]) => scope.map((variable) => {
    const k = variables.indexOf(variable) - 1;
    return k < 0 ? 0 : PAIR_BYTES << k;
  });
  const [stridesA, stridesB] = [stridesIn(a), b && stridesIn(b)];
  const isFree = (bit: number) => !isSummed || !stridesB || stridesB[bit] === 0;
  const low = bits.slice(0, BLOCK_BITS);
  const missing = Math.max(0, LEAST_INNER_BITS - low.filter(isFree).length);
  const inner = [...low.filter(isFree), ...bits.slice(BLOCK_BITS).filter(isFree).slice(0, missing)];
  const middle = low.filter((bit) => !isFree(bit));
  const outer = bits.filter((bit) => !inner.includes(bit) && !middle.includes(bit));
  const placing = (strides: readonly number[]): Placing => {
    const offsets = (of: readonly number[]) => new Uint32Array(placesIn(of.map((bit) => strides[bit] ?? 0)).buffer);
    return { outer: offsets(outer), middle: offsets(middle), inner: offsets(inner) };
  };
  return {
    scope,
    a: placing(stridesA),
    b: stridesB && placing(stridesB),
    into: placing(scope.map((_, bit) => (bit === 0 ? 0 : NUMBER_BYTES << (bit - 1)))),
    isWhole: a.length === scope.length,
  };
}
