/** An order to sum variables out in, and the largest number of variables that then stand in one table. */
export interface EliminationOrder {
  readonly order: readonly number[];
  readonly width: number;
}

/**
 * Greedy min-fill: next goes the variable whose neighbours lack the fewest links among each other; ties by fewer
 * neighbours, then by the smaller number.
 * @param count variables are 0 … count − 1; those in no scope are left out
 * @param scopes the variables of each factor
 */
export function minFillOrder(count: number, scopes: readonly (readonly number[])[]): EliminationOrder {
  const linked = new Uint8Array(count * count);
  const isOpen = new Uint8Array(count);
  for (const scope of scopes) {
    for (const a of scope) {
      isOpen[a] = 1;
      for (const b of scope) if (a !== b) linked[a * count + b] = 1;
    }
  }
  const neighbours = (v: number) => {
    const found: number[] = [];
    for (let u = 0; u < count; u++) if (linked[v * count + u] && isOpen[u]) found.push(u);
    return found;
  };
  const cost = new Float64Array(count).fill(Infinity);
  const price = (v: number) => {
    const around = neighbours(v);
    let missing = 0;
    for (let i = 0; i < around.length; i++) {
      const row = (around[i] ?? 0) * count;
      for (let j = i + 1; j < around.length; j++) missing += 1 - (linked[row + (around[j] ?? 0)] ?? 0);
    }
    cost[v] = missing * 4096 + around.length;
  };
  for (let v = 0; v < count; v++) if (isOpen[v]) price(v);

  const order: number[] = [];
  let width = 0;
  for (;;) {
    let best = -1;
    for (let v = 0; v < count; v++) if (isOpen[v] && (best < 0 || (cost[v] ?? 0) < (cost[best] ?? 0))) best = v;
    if (best < 0) return { order, width };
    const around = neighbours(best);
    width = Math.max(width, around.length + 1);
    order.push(best);
    isOpen[best] = 0;
    const touched = new Set(around);
    for (const a of around) {
      for (const b of around) if (a !== b) linked[a * count + b] = 1;
      for (const b of neighbours(a)) touched.add(b);
    }
    for (const v of touched) price(v);
  }
}
