import { placesIn } from "./factor";

/** Where the entries of one input stand beside the pairs of a step: low part and high part of the pair's number. */
interface Placing {
  readonly low: Int32Array;
  readonly high: Int32Array;
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

/** @param inputs the variables of each input in order of elimination, the first one the same as the scope's */
export function shapeStep(scope: readonly number[], a: readonly number[], b: readonly number[] | null): StepShape {
  const placing = (variables: readonly number[]): Placing => {
    const bits = scope.slice(1).map((variable) => {
      const k = variables.indexOf(variable) - 1;
      return k < 0 ? 0 : 1 << k;
    });
    return { low: placesIn(bits.slice(0, BLOCK_BITS)), high: placesIn(bits.slice(BLOCK_BITS)) };
  };
  return { scope, a: placing(a), b: b && placing(b) };
}

/** The weight of both states of the first variable. */
export interface Weights {
  readonly absent: number;
  readonly present: number;
}

/**
 * The product of the inputs with its first variable summed out.
 * @param weights what each state counts
 * @param into filled; over `scope.slice(1)`
 */
export function sumOut({ a, b }: StepShape, tableA: Float64Array, tableB: Float64Array | null, weights: Weights, into: Float64Array): void {
  const { absent, present } = weights;
  const [lowA, size] = [a.low, a.low.length];
  if (!b || !tableB) {
    for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
      const highA = a.high[block] ?? 0;
      for (let i = 0; i < size; i++) {
        const at = 2 * ((lowA[i] ?? 0) | highA);
        into[base + i] = absent * (tableA[at] ?? 0) + present * (tableA[at + 1] ?? 0);
      }
    }
    return;
  }
  const lowB = b.low;
  for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
    const [highA, highB] = [a.high[block] ?? 0, b.high[block] ?? 0];
    for (let i = 0; i < size; i++) {
      const atA = 2 * ((lowA[i] ?? 0) | highA);
      const atB = 2 * ((lowB[i] ?? 0) | highB);
      into[base + i] = absent * (tableA[atA] ?? 0) * (tableB[atB] ?? 0) + present * (tableA[atA + 1] ?? 0) * (tableB[atB + 1] ?? 0);
    }
  }
}

/** The product of two inputs, over the whole scope. */
export function multiply({ a, b }: StepShape, tableA: Float64Array, tableB: Float64Array, into: Float64Array): void {
  const [lowA, size] = [a.low, a.low.length];
  const { low: lowB, high } = b ?? a;
  for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
    const [highA, highB] = [a.high[block] ?? 0, high[block] ?? 0];
    for (let i = 0; i < size; i++) {
      const atA = 2 * ((lowA[i] ?? 0) | highA);
      const atB = 2 * ((lowB[i] ?? 0) | highB);
      const at = 2 * (base + i);
      into[at] = (tableA[atA] ?? 0) * (tableB[atB] ?? 0);
      into[at + 1] = (tableA[atA + 1] ?? 0) * (tableB[atB + 1] ?? 0);
    }
  }
}

/**
 * Reverse differentiation of `sumOut`.
 * @param derivative of the total by what the step handed on
 * @param backA added to, as `backB`: the derivative by each input; null where nobody asks
 * @returns the total's share with the variable absent and present
 */
export function differentiateSum(shape: StepShape, tableA: Float64Array, tableB: Float64Array | null, derivative: Float64Array, weights: Weights, backA: Float64Array | null, backB: Float64Array | null): Weights {
  const { a, b } = shape;
  const [lowA, size] = [a.low, a.low.length];
  let [absent, present] = [0, 0];
  if (!b || !tableB) {
    for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
      const highA = a.high[block] ?? 0;
      for (let i = 0; i < size; i++) {
        const at = 2 * ((lowA[i] ?? 0) | highA);
        const d = derivative[base + i] ?? 0;
        absent += d * (tableA[at] ?? 0);
        present += d * (tableA[at + 1] ?? 0);
        if (backA) {
          backA[at] = (backA[at] ?? 0) + weights.absent * d;
          backA[at + 1] = (backA[at + 1] ?? 0) + weights.present * d;
        }
      }
    }
    return { absent: weights.absent * absent, present: weights.present * present };
  }
  const lowB = b.low;
  for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
    const [highA, highB] = [a.high[block] ?? 0, b.high[block] ?? 0];
    for (let i = 0; i < size; i++) {
      const atA = 2 * ((lowA[i] ?? 0) | highA);
      const atB = 2 * ((lowB[i] ?? 0) | highB);
      const d = derivative[base + i] ?? 0;
      const [d0, d1] = [weights.absent * d, weights.present * d];
      const [a0, a1] = [tableA[atA] ?? 0, tableA[atA + 1] ?? 0];
      const [b0, b1] = [d0 * (tableB[atB] ?? 0), d1 * (tableB[atB + 1] ?? 0)];
      absent += a0 * b0;
      present += a1 * b1;
      if (backA) {
        backA[atA] = (backA[atA] ?? 0) + b0;
        backA[atA + 1] = (backA[atA + 1] ?? 0) + b1;
      }
      if (backB) {
        backB[atB] = (backB[atB] ?? 0) + d0 * a0;
        backB[atB + 1] = (backB[atB + 1] ?? 0) + d1 * a1;
      }
    }
  }
  return { absent, present };
}

/** Reverse differentiation of `multiply`. */
export function differentiateProduct({ a, b }: StepShape, tableA: Float64Array, tableB: Float64Array, derivative: Float64Array, backA: Float64Array | null, backB: Float64Array | null): void {
  const [lowA, size] = [a.low, a.low.length];
  const { low: lowB, high } = b ?? a;
  for (let block = 0, base = 0; block < a.high.length; block++, base += size) {
    const [highA, highB] = [a.high[block] ?? 0, high[block] ?? 0];
    for (let i = 0; i < size; i++) {
      const atA = 2 * ((lowA[i] ?? 0) | highA);
      const atB = 2 * ((lowB[i] ?? 0) | highB);
      const at = 2 * (base + i);
      const [d0, d1] = [derivative[at] ?? 0, derivative[at + 1] ?? 0];
      if (backA) {
        backA[atA] = (backA[atA] ?? 0) + d0 * (tableB[atB] ?? 0);
        backA[atA + 1] = (backA[atA + 1] ?? 0) + d1 * (tableB[atB + 1] ?? 0);
      }
      if (backB) {
        backB[atB] = (backB[atB] ?? 0) + d0 * (tableA[atA] ?? 0);
        backB[atB + 1] = (backB[atB + 1] ?? 0) + d1 * (tableA[atA + 1] ?? 0);
      }
    }
  }
}
