/**
 * A table over yes/no variables. Bit k of a place in `table` is the state of `variables[k]`; 2^n entries. Entries may
 * be negative (the factored noisy-OR needs that), so a factor is never divided by.
 */
export interface Factor {
  readonly variables: readonly number[];
  readonly table: Float64Array;
}

/** A factor from plain numbers. @throws RangeError when the table has not 2^n entries or a variable stands twice */
export function makeFactor(variables: readonly number[], values: ArrayLike<number>): Factor {
  if (values.length !== 2 ** variables.length) {
    throw new RangeError(`a factor over ${variables.length} variables needs ${2 ** variables.length} entries, not ${values.length}`);
  }
  if (new Set(variables).size !== variables.length) throw new RangeError(`a variable stands twice in ${variables.join(", ")}`);
  return { variables, table: Float64Array.from(values) };
}

/** The factor where the given variables have taken their states (`states[v]`: 0, 1, or −1 for open). */
export function instantiate(factor: Factor, states: Int8Array): Factor {
  const open: number[] = [];
  let base = 0;
  factor.variables.forEach((variable, k) => {
    const state = states[variable] ?? -1;
    if (state === -1) open.push(k);
    else if (state === 1) base |= 1 << k;
  });
  if (open.length === factor.variables.length) return factor;
  const table = new Float64Array(1 << open.length);
  const places = placesIn(open.map((k) => 1 << k));
  for (let i = 0; i < table.length; i++) table[i] = factor.table[base | (places[i] ?? 0)] ?? 0;
  return { variables: open.map((k) => factor.variables[k] ?? -1), table };
}

/**
 * For every place of a table whose bit k stands for `bits[k]` of another table: the place in that other table.
 * A variable that the other table lacks has the bit 0.
 */
export function placesIn(bits: readonly number[]): Int32Array {
  const places = new Int32Array(1 << bits.length);
  bits.forEach((bit, k) => {
    const half = 1 << k;
    for (let i = 0; i < half; i++) places[half + i] = (places[i] ?? 0) | bit;
  });
  return places;
}
