import { placesIn } from "./factor";

/** A table that goes into a bucket. */
export interface BucketInput {
  readonly variables: readonly number[];
  readonly table: Float64Array;
  /** Position of the bucket that sent it, or −1 for the factors themselves. */
  readonly from: number;
}

interface PlacedInput {
  readonly table: Float64Array;
  readonly from: number;
  /** Place of a pair of the bucket among the pairs of the input: low part and high part of the pair's number. */
  readonly low: Int32Array;
  readonly high: Int32Array;
}

/**
 * One step of the elimination: all tables that hold its variable. Tables are walked in pairs (the variable absent,
 * present), since it is bit 0 of the bucket and of every input, and in blocks that stay in the cache.
 */
export interface Bucket {
  /** The variable that is summed out first, then the others in order of elimination. */
  readonly scope: readonly number[];
  readonly inputs: readonly PlacedInput[];
}

/** Pairs walked at a time, as a power of two. */
const BLOCK_BITS = 9;

/**
 * Gathers a bucket. Its own factors are multiplied into one table first: every later pass then goes over fewer.
 * @param rank place of each variable in the order of elimination
 */
export function fillBucket(waiting: readonly BucketInput[], rank: Int32Array): Bucket {
  const messages = waiting.filter((input) => input.from >= 0);
  const inputs = [multiplyFactors(waiting.filter((input) => input.from < 0), rank), ...messages].filter((input) => input.variables.length > 0);
  const scope = inOrder(inputs.flatMap((input) => input.variables), rank);
  const placed = inputs.map(({ variables, table, from }): PlacedInput => {
    const bits = bitsOf(scope.slice(1), variables.slice(1));
    return { table, from, low: placesIn(bits.slice(0, BLOCK_BITS)), high: placesIn(bits.slice(BLOCK_BITS)) };
  });
  return { scope, inputs: placed };
}

/** The table that is left when the bucket's variable is summed out: over `scope.slice(1)`. */
export function sumOut({ scope, inputs }: Bucket): Float64Array {
  const pairs = 1 << (scope.length - 1);
  const block = Math.min(pairs, 1 << BLOCK_BITS);
  const message = new Float64Array(pairs);
  const product = new Float64Array(2 * block);
  for (let base = 0; base < pairs; base += block) {
    product.fill(1);
    for (const input of inputs) multiplyBlock(product, product, input, base / block);
    for (let i = 0; i < block; i++) message[base + i] = (product[2 * i] ?? 0) + (product[2 * i + 1] ?? 0);
  }
  return message;
}

/**
 * Reverse differentiation of `sumOut`.
 * @param derivative of the total by the bucket's message, up to a positive factor
 * @returns derivative by each input that another bucket sent, and the weight of both states of the bucket's variable
 */
export function differentiate({ scope, inputs }: Bucket, derivative: Float64Array): { backward: { from: number; table: Float64Array }[]; absent: number; present: number } {
  const pairs = 1 << (scope.length - 1);
  const block = Math.min(pairs, 1 << BLOCK_BITS);
  const before = Array.from({ length: inputs.length + 1 }, () => new Float64Array(2 * block));
  const after = new Float64Array(2 * block);
  const backs = inputs.map((input) => (input.from < 0 ? null : new Float64Array(input.table.length)));
  let absent = 0;
  let present = 0;
  for (let base = 0; base < pairs; base += block) {
    const start = before[0] ?? after;
    for (let i = 0; i < block; i++) start[2 * i] = start[2 * i + 1] = derivative[base + i] ?? 0;
    inputs.forEach((input, k) => multiplyBlock(before[k + 1] ?? after, before[k] ?? after, input, base / block));
    const whole = before[inputs.length] ?? after;
    for (let i = 0; i < block; i++) {
      absent += whole[2 * i] ?? 0;
      present += whole[2 * i + 1] ?? 0;
    }
    after.fill(1);
    for (let k = inputs.length - 1; k >= 0; k--) {
      const input = inputs[k];
      const back = backs[k];
      if (input && back) addBlock(back, before[k] ?? after, after, input, base / block);
      if (input && k > 0) multiplyBlock(after, after, input, base / block);
    }
  }
  const backward = inputs.flatMap((input, k) => {
    const table = backs[k];
    return table ? [{ from: input.from, table }] : [];
  });
  return { backward, absent, present };
}

function multiplyBlock(into: Float64Array, from: Float64Array, input: PlacedInput, block: number): void {
  const { table, low } = input;
  const high = input.high[block] ?? 0;
  for (let i = 0; i < low.length; i++) {
    const place = 2 * ((low[i] ?? 0) | high);
    into[2 * i] = (from[2 * i] ?? 0) * (table[place] ?? 0);
    into[2 * i + 1] = (from[2 * i + 1] ?? 0) * (table[place + 1] ?? 0);
  }
}

function addBlock(into: Float64Array, before: Float64Array, after: Float64Array, input: PlacedInput, block: number): void {
  const { low } = input;
  const high = input.high[block] ?? 0;
  for (let i = 0; i < low.length; i++) {
    const place = 2 * ((low[i] ?? 0) | high);
    into[place] = (into[place] ?? 0) + (before[2 * i] ?? 0) * (after[2 * i] ?? 0);
    into[place + 1] = (into[place + 1] ?? 0) + (before[2 * i + 1] ?? 0) * (after[2 * i + 1] ?? 0);
  }
}

function multiplyFactors(factors: readonly BucketInput[], rank: Int32Array): BucketInput {
  const variables = inOrder(factors.flatMap((factor) => factor.variables), rank);
  const table = new Float64Array(1 << variables.length).fill(1);
  for (const factor of factors) {
    const places = placesIn(bitsOf(variables, factor.variables));
    for (let i = 0; i < table.length; i++) table[i] = (table[i] ?? 0) * (factor.table[places[i] ?? 0] ?? 0);
  }
  return { variables, table, from: -1 };
}

function inOrder(variables: readonly number[], rank: Int32Array): number[] {
  return [...new Set(variables)].sort((a, b) => (rank[a] ?? 0) - (rank[b] ?? 0));
}

function bitsOf(scope: readonly number[], variables: readonly number[]): number[] {
  return scope.map((variable) => {
    const k = variables.indexOf(variable);
    return k < 0 ? 0 : 1 << k;
  });
}
