/** An order to sum variables out in, the largest number of variables that then stand in one table, and the size of all. */
export interface EliminationOrder {
  readonly order: readonly number[];
  readonly width: number;
  /** Entries of all tables together. */
  readonly entries: number;
}

/** The better of two greedy orders by the entries of all tables: least missing links, and least missing links a neighbour. */
export function findOrder(count: number, scopes: readonly (readonly number[])[]): EliminationOrder {
  const plain = minFillOrder(count, scopes);
  const shared = minFillOrder(count, scopes, true);
  return shared.entries < plain.entries ? shared : plain;
}

/**
 * Greedy min-fill: next goes the variable whose neighbours lack the fewest links among each other; ties by fewer
 * neighbours, then by the smaller number.
 * @param count variables are 0 … count − 1; those in no scope are left out
 * @param scopes the variables of each factor
 * @param isPerNeighbour count the missing links per neighbour (and one), which lets well-linked variables go sooner
 */
export function minFillOrder(count: number, scopes: readonly (readonly number[])[], isPerNeighbour = false): EliminationOrder {
  const words = (count + 31) >> 5;
  /** Row v: bit u set when u is an open neighbour of v. */
  const rows = new Int32Array(count * words);
  const isOpen = new Uint8Array(count);
  const link = (a: number, b: number) => (rows[a * words + (b >> 5)] = (rows[a * words + (b >> 5)] ?? 0) | (1 << (b & 31)));
  for (const scope of scopes) {
    for (const a of scope) {
      isOpen[a] = 1;
      for (const b of scope) if (a !== b) link(a, b);
    }
  }
  const neighbours = (v: number) => {
    const found: number[] = [];
    for (let w = 0; w < words; w++) {
      for (let bits = rows[v * words + w] ?? 0; bits !== 0; bits &= bits - 1) found.push(32 * w + 31 - Math.clz32(bits & -bits));
    }
    return found;
  };
  const cost = new Float64Array(count).fill(Infinity);
  const price = (v: number) => {
    const around = neighbours(v);
    let common = 0;
    for (const u of around) for (let w = 0; w < words; w++) common += bitCount((rows[v * words + w] ?? 0) & (rows[u * words + w] ?? 0));
    const missing = (around.length * (around.length - 1) - common) / 2;
    cost[v] = isPerNeighbour ? (missing / (1 + around.length)) * 4096 + around.length / 4096 : missing * 4096 + around.length;
  };
  for (let v = 0; v < count; v++) if (isOpen[v]) price(v);

  const order: number[] = [];
  let width = 0;
  let entries = 0;
  for (;;) {
    let best = -1;
    for (let v = 0; v < count; v++) if (isOpen[v] && (best < 0 || (cost[v] ?? 0) < (cost[best] ?? 0))) best = v;
    if (best < 0) return { order, width, entries };
    const around = neighbours(best);
    width = Math.max(width, around.length + 1);
    entries += 2 ** (around.length + 1);
    order.push(best);
    isOpen[best] = 0;
    const touched = new Set(around);
    for (const a of around) {
      for (let w = 0; w < words; w++) rows[a * words + w] = (rows[a * words + w] ?? 0) | (rows[best * words + w] ?? 0);
      const clear = (u: number) => (rows[a * words + (u >> 5)] = (rows[a * words + (u >> 5)] ?? 0) & ~(1 << (u & 31)));
      clear(a);
      clear(best);
      for (const b of neighbours(a)) touched.add(b);
    }
    for (const v of touched) price(v);
  }
}

/** Number of bits set in 32 bits. */
function bitCount(bits: number): number {
  let n = bits - ((bits >>> 1) & 0x55555555);
  n = (n & 0x33333333) + ((n >>> 2) & 0x33333333);
  return Math.imul((n + (n >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
