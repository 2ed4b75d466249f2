/** Agreement of several raters beyond chance, as many on each thing. */
export interface FleissKappa {
  /** Mean share of pairs of raters that agree on a thing. */
  readonly observed: number;
  readonly expected: number;
  /** Null when everything got one label: then only `observed` speaks. */
  readonly kappa: number | null;
  /** Kappa over its SE if there were no agreement beyond chance. */
  readonly z: number | null;
  /** Share of pairs that agree, thing by thing. */
  readonly byThing: readonly number[];
  /** Share of all calls that each category got. */
  readonly shares: readonly number[];
}

/**
 * Fleiss' kappa of counts: a row per thing, a column per category, each row adding up to the number of raters.
 * Source: Fleiss 1971, Psychol Bull 76:378-382; SE by Fleiss, Nee & Landis 1979.
 * @throws RangeError unless every row adds up to the same number of at least two raters
 */
export function fleissKappa(counts: readonly (readonly number[])[]): FleissKappa {
  const raters = (counts[0] ?? []).reduce((sum, count) => sum + count, 0);
  const isEven = counts.every((row) => row.length === counts[0]?.length && row.every((count) => count >= 0) && row.reduce((sum, count) => sum + count, 0) === raters);
  if (!(raters >= 2 && isEven)) throw new RangeError("every thing needs as many raters, two or more");
  const calls = counts.length * raters;
  const shares = (counts[0] ?? []).map((_, j) => counts.reduce((sum, row) => sum + (row[j] ?? 0), 0) / calls);
  const byThing = counts.map((row) => (row.reduce((sum, count) => sum + count ** 2, 0) - raters) / (raters * (raters - 1)));
  const observed = byThing.reduce((sum, share) => sum + share, 0) / counts.length;
  const expected = shares.reduce((sum, share) => sum + share ** 2, 0);
  const beyond = 1 - expected;
  if (!(beyond > 1e-15)) return { observed, expected, kappa: null, z: null, byThing, shares };
  const kappa = (observed - expected) / beyond;
  const spread = shares.reduce((sum, share) => sum + share * (1 - share), 0);
  const skew = shares.reduce((sum, share) => sum + share * (1 - share) * (1 - 2 * share), 0);
  const se = Math.sqrt((2 * (spread ** 2 - skew)) / (calls * (raters - 1))) / spread;
  return { observed, expected, kappa, z: se > 0 ? kappa / se : null, byThing, shares };
}
