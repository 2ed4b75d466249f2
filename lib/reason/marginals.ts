import { differentiate, fillBucket, sumOut, type Bucket, type BucketInput } from "./bucket";
import { minFillOrder } from "./elimination-order";
import type { Factor } from "./factor";

/** Largest number of variables in one table that is still summed exactly: 2^22 numbers. */
export const WIDTH_CAP = 22;

/** How far to go. */
export interface SolveOptions {
  /** Largest number of variables in one table; 22 unless given. */
  readonly widthCap?: number;
  /** Only the total is wanted: the pass back is left out and every share is NaN. */
  readonly isTotalOnly?: boolean;
}

/** The sum of the product of all factors, and for each variable the share of its state 1 in that sum. */
export interface Marginals {
  readonly outcome: "exact";
  readonly width: number;
  /** Natural logarithm of the sum over all states of the product of all factors. */
  readonly logTotal: number;
  /** Share of state 1 per variable, 0–1; NaN for variables in no factor. */
  readonly share: Float64Array;
}

/** The tables would be too large; nothing was worked out. */
export interface TooWide {
  readonly outcome: "too-wide";
  readonly width: number;
}

/**
 * All marginals of a product of factors at once: one pass that sums variables out in min-fill order and one pass of
 * reverse differentiation back. No table is ever divided, since factors may hold negative numbers and zeros.
 * @returns `too-wide` above `widthCap` variables in one table
 * @throws RangeError when the total is not above 0
 */
export function solveMarginals(count: number, factors: readonly Factor[], options: SolveOptions = {}): Marginals | TooWide {
  const { order, width } = minFillOrder(count, factors.map((factor) => factor.variables));
  if (width > (options.widthCap ?? WIDTH_CAP)) return { outcome: "too-wide", width };
  const rank = new Int32Array(count).fill(-1);
  order.forEach((variable, position) => (rank[variable] = position));

  let logTotal = 0;
  const waiting: BucketInput[][] = order.map(() => []);
  const hand = (variables: readonly number[], table: Float64Array, from: number) => {
    if (variables.length === 0) logTotal += logOf(table[0] ?? 0);
    else waiting[Math.min(...variables.map((v) => rank[v] ?? 0))]?.push({ variables, table, from });
  };
  for (const factor of factors) hand(factor.variables, factor.table, -1);

  const buckets: Bucket[] = [];
  order.forEach((_, position) => {
    const bucket = fillBucket(waiting[position] ?? [], rank);
    buckets.push(bucket);
    const message = sumOut(bucket);
    logTotal += rescale(message);
    hand(bucket.scope.slice(1), message, position);
  });

  const share = new Float64Array(count).fill(NaN);
  if (options.isTotalOnly) return { outcome: "exact", width, logTotal, share };
  const backward: (Float64Array | undefined)[] = order.map(() => undefined);
  for (let position = order.length - 1; position >= 0; position--) {
    const bucket = buckets[position];
    if (bucket) share[order[position] ?? 0] = passBack(bucket, backward[position] ?? Float64Array.of(1), backward);
  }
  return { outcome: "exact", width, logTotal, share };
}

/** Brings the largest entry to between 1/2 and 1 by a power of two, which is exact; returns the logarithm taken out. */
function rescale(table: Float64Array): number {
  let largest = 0;
  for (const entry of table) largest = Math.max(largest, Math.abs(entry));
  if (!(largest > 0) || !Number.isFinite(largest)) throw new RangeError("the factors multiply to nothing");
  const exponent = Math.ceil(Math.log2(largest));
  if (exponent === 0) return 0;
  const scale = 2 ** -exponent;
  for (let i = 0; i < table.length; i++) table[i] = (table[i] ?? 0) * scale;
  return exponent * Math.LN2;
}

/** Hands the derivative on to the buckets before; returns the share of state 1 of this bucket's own variable. */
function passBack(bucket: Bucket, derivative: Float64Array, backward: (Float64Array | undefined)[]): number {
  const { backward: handed, absent, present } = differentiate(bucket, derivative);
  for (const { from, table } of handed) {
    rescale(table);
    backward[from] = table;
  }
  return Math.min(1, Math.max(0, present / (absent + present)));
}

function logOf(total: number): number {
  if (!(total > 0)) throw new RangeError("the total of the factors is not above 0");
  return Math.log(total);
}
