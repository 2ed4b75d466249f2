import { findOrder } from "./elimination-order";
import type { Factor } from "./factor";
import { layOut, run } from "./tree";

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
 * All marginals of a product of factors at once: one pass that sums variables out and one pass of reverse
 * differentiation back. No table is ever divided, since factors may hold negative numbers and zeros.
 * @returns `too-wide` above `widthCap` variables in one table
 * @throws RangeError when the total is not above 0
 */
export function solveMarginals(count: number, factors: readonly Factor[], options: SolveOptions = {}): Marginals | TooWide {
  const found = findOrder(count, factors.map((factor) => factor.variables));
  if (found.width > (options.widthCap ?? WIDTH_CAP)) return { outcome: "too-wide", width: found.width };
  const tree = layOut(count, factors, found);
  const share = options.isTotalOnly ? new Float64Array(count).fill(NaN) : run(tree, count, { change: {}, isPresentAsked: true }).present.map((part) => Math.min(1, Math.max(0, part / tree.total)));
  return { outcome: "exact", width: found.width, logTotal: Math.log(tree.total) + tree.logScale, share };
}
