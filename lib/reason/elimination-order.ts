import { seededRandom } from "@/lib/core/random";

/** An order to sum variables out in, the largest number of variables that then stand in one table, and the size of all. */
export interface EliminationOrder {
  readonly order: readonly number[];
  readonly width: number;
  /** Entries of all tables together. */
  readonly entries: number;
}

/** From so many entries on further orders are tried, and so many: each takes about as long as a pass over a hundred thousand. */
const TRIES = [{ from: 4_000_000, tries: 60 }, { from: 1_000_000, tries: 30 }, { from: 150_000, tries: 10 }];
/** How far a further try's costs are moved, at most: to twice what they are. */
const MOVED = 1;
/** After so many tries a further one starts from the best and moves only this share of its costs anew. */
const FREE_TRIES = 10;
const MOVED_ANEW = 0.3;

/**
 * The best of some greedy orders by the entries of all tables: least missing links, least missing links a neighbour, and where
 * the tables are large, the latter with its costs moved at random (seeded), at first all, then some of the best order's.
 * @param isThorough false where only a rough size is wanted
 */
export function findOrder(count: number, scopes: readonly (readonly number[])[], isThorough = true): EliminationOrder {
  const links = linksOf(count, scopes);
  let best = greedyOrder(links, { isPerNeighbour: false }) ?? NOTHING;
  const tryOne = (how: Greed) => (best = greedyOrder(links, how, best.entries) ?? best);
  tryOne({ isPerNeighbour: true });
  if (!isThorough) return best;
  const tries = TRIES.find(({ from }) => best.entries >= from)?.tries ?? 0;
  let bestMoved = links.variables.map(() => 1);
  for (let seed = 1; seed <= tries; seed++) {
    const random = seededRandom(seed);
    const before = best;
    const moved = bestMoved.map((kept) => (seed <= FREE_TRIES || random.uniform() < MOVED_ANEW ? 1 + MOVED * random.uniform() : kept));
    if (tryOne({ isPerNeighbour: true, moved }) !== before) bestMoved = moved;
  }
  return best;
}

const NOTHING: EliminationOrder = { order: [], width: 0, entries: 0 };

/**
 * Greedy min-fill: next goes the variable whose neighbours lack the fewest links among each other; ties by fewer
 * neighbours, then by the smaller number.
 * @param count variables are 0 … count − 1; those in no scope are left out
 * @param scopes the variables of each factor
 * @param isPerNeighbour count the missing links per neighbour (and one), which lets well-linked variables go sooner
 */
export function minFillOrder(count: number, scopes: readonly (readonly number[])[], isPerNeighbour = false): EliminationOrder {
  return greedyOrder(linksOf(count, scopes), { isPerNeighbour }) ?? NOTHING;
}

/** Who stands in a factor with whom: row v of `rows` holds a bit for each neighbour of the v-th variable. */
interface Links {
  /** The variables that stand in factors, rising. */
  readonly variables: readonly number[];
  readonly words: number;
  readonly rows: Int32Array;
}

interface Greed {
  readonly isPerNeighbour: boolean;
  /** Factors of the variables' costs. */
  readonly moved?: readonly number[];
}

function linksOf(count: number, scopes: readonly (readonly number[])[]): Links {
  const place = new Int32Array(count).fill(-1);
  for (const scope of scopes) for (const variable of scope) place[variable] = 0;
  const variables = [...place.keys()].filter((variable) => place[variable] === 0);
  variables.forEach((variable, v) => (place[variable] = v));
  const words = (variables.length + 31) >> 5;
  const rows = new Int32Array(variables.length * words);
  for (const scope of scopes) {
    for (const one of scope) {
      for (const other of scope) {
        if (one === other) continue;
        const [a, b] = [place[one] ?? 0, place[other] ?? 0];
        rows[a * words + (b >> 5)] = (rows[a * words + (b >> 5)] ?? 0) | (1 << (b & 31));
      }
    }
  }
  return { variables, words, rows };
}

/** @returns null as soon as the tables are as large as `limit` */
function greedyOrder({ variables, words, rows: before }: Links, { isPerNeighbour, moved }: Greed, limit = Infinity): EliminationOrder | null {
  const rows = before.slice();
  const isOpen = new Uint8Array(variables.length).fill(1);
  const cost = new Float64Array(variables.length);
  /** Puts the neighbours of v into `into`. @returns how many */
  const neighboursOf = (v: number, into: Int32Array) => {
    let many = 0;
    for (let w = 0; w < words; w++) {
      for (let bits = rows[v * words + w] ?? 0; bits !== 0; bits &= bits - 1) into[many++] = 32 * w + 31 - Math.clz32(bits & -bits);
    }
    return many;
  };
  const around = new Int32Array(variables.length);
  const price = (v: number) => {
    const many = neighboursOf(v, around);
    let common = 0;
    for (let k = 0; k < many; k++) {
      const row = (around[k] ?? 0) * words;
      for (let w = 0; w < words; w++) common += bitCount((rows[v * words + w] ?? 0) & (rows[row + w] ?? 0));
    }
    const missing = (many * (many - 1) - common) / 2;
    cost[v] = (isPerNeighbour ? (missing / (1 + many)) * 4096 + many / 4096 : missing * 4096 + many) * (moved?.[v] ?? 1);
  };
  for (let v = 0; v < variables.length; v++) price(v);

  const order: number[] = [];
  let width = 0;
  let entries = 0;
  const left = new Int32Array(variables.length);
  const isStale = new Uint8Array(variables.length);
  while (order.length < variables.length) {
    let best = -1;
    for (let v = 0; v < variables.length; v++) if (isOpen[v] && (best < 0 || (cost[v] ?? 0) < (cost[best] ?? 0))) best = v;
    const many = neighboursOf(best, left);
    width = Math.max(width, many + 1);
    entries += 2 ** (many + 1);
    if (entries >= limit) return null;
    order.push(variables[best] ?? 0);
    isOpen[best] = 0;
    isStale.fill(0);
    for (let k = 0; k < many; k++) {
      const a = left[k] ?? 0;
      for (let w = 0; w < words; w++) rows[a * words + w] = (rows[a * words + w] ?? 0) | (rows[best * words + w] ?? 0);
      for (const gone of [a, best]) rows[a * words + (gone >> 5)] = (rows[a * words + (gone >> 5)] ?? 0) & ~(1 << (gone & 31));
      isStale[a] = 1;
      for (let n = neighboursOf(a, around) - 1; n >= 0; n--) isStale[around[n] ?? 0] = 1;
    }
    for (let v = 0; v < variables.length; v++) if (isStale[v]) price(v);
  }
  return { order, width, entries };
}

/** Number of bits set in 32 bits. */
function bitCount(bits: number): number {
  let n = bits - ((bits >>> 1) & 0x55555555);
  n = (n & 0x33333333) + ((n >>> 2) & 0x33333333);
  return Math.imul((n + (n >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
