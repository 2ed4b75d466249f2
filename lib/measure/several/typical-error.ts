import { sampleSd } from "@/lib/measure/mean-and-sd";
import { unknownBecause, type Answer } from "@/lib/measure/several/unknown";

/** How much one value differs from the next though nothing was changed, as an SD in the unit. */
export interface TypicalError {
  readonly sd: number;
  /** Degrees of freedom behind it. */
  readonly freedom: number;
}

/**
 * From things measured twice: SD of the differences over the root of two, so that a shift of all second values does not
 * count. Pairs with an unknown number are left out; unknown under two. Source: Hopkins 2000, Sports Med 30:1-15 (from memory).
 */
export function typicalErrorOfPairs(pairs: readonly (readonly [number | null, number | null])[]): Answer<TypicalError> {
  const differences = pairs.flatMap(([first, second]) => {
    const difference = first === null || second === null ? NaN : second - first;
    return Number.isFinite(difference) ? [difference] : [];
  });
  const sd = sampleSd(differences);
  return sd === null ? unknownBecause("fewer than two pairs") : { sd: sd / Math.SQRT2, freedom: differences.length - 1 };
}

/**
 * From sets of repeated swings: SD about each set's own mean, pooled. Sets of one swing say nothing; unknown when all are.
 */
export function typicalErrorOfSets(sets: readonly (readonly number[])[]): Answer<TypicalError> {
  let [squares, freedom] = [0, 0];
  for (const set of sets) {
    const values = set.filter(Number.isFinite);
    const sd = sampleSd(values);
    if (sd === null) continue;
    squares += sd ** 2 * (values.length - 1);
    freedom += values.length - 1;
  }
  return freedom > 0 ? { sd: Math.sqrt(squares / freedom), freedom } : unknownBecause("no set of two swings or more");
}

/** From the readings' own SDs: their root mean square. Null without any; unknown SDs are left out. */
export function rootMeanSquare(sds: readonly (number | null)[]): number | null {
  const known = sds.filter((sd): sd is number => sd !== null && Number.isFinite(sd));
  return known.length > 0 ? Math.sqrt(known.reduce((sum, sd) => sum + sd ** 2, 0) / known.length) : null;
}
