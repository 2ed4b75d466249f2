import { seededRandom } from "@/lib/core/random";
import { parabolaWeights } from "@/lib/measure/smoothing/parabola-fit";

/** Enough that the draws of one reading seldom meet the same stretch; a power of two. */
const SIZE = 1 << 17;

/** A place in a pool goes round: `pool[place & POOL_MASK]`. */
export const POOL_MASK = SIZE - 1;

/** From any place within the mask on, so many numbers stand in a row: a pool's beginning is repeated behind its end. */
export const POOL_RUN = 1 << 12;

/** Rows kept of correlated or smoothed noise; a clip needs two or three. */
const MOST_KEPT = 12;

let pool: Float32Array | null = null;
const kept = new Map<string, Float32Array>();

/** Standard normal numbers made once, the same on every machine: drawn readings take stretches of them. */
function normals(): Float32Array {
  if (!pool) {
    const random = seededRandom("normal pool");
    pool = withRun(Float32Array.from({ length: SIZE + POOL_RUN }, (_, i) => (i < SIZE ? random.normal() : 0)));
  }
  return pool;
}

function withRun(row: Float32Array): Float32Array {
  row.copyWithin(SIZE, 0, POOL_RUN);
  return row;
}

function keptRow(key: string, make: () => Float32Array): Float32Array {
  const known = kept.get(key);
  if (known) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const row = withRun(make());
  kept.set(key, row);
  return row;
}

/**
 * Noise of variance 1 on the frames of a point, each error alike to the one before by `alike` (a first-order autoregression): a
 * row that goes round.
 */
export function frameNoise(alike: number): Float32Array {
  if (alike === 0) return normals();
  return keptRow(`${alike}`, () => {
    const source = normals();
    const fresh = Math.sqrt(1 - alike * alike);
    const row = new Float32Array(SIZE + POOL_RUN);
    let error = 0;
    // Twice round, so that the end goes over into the beginning.
    for (let i = 0; i < 2 * SIZE; i++) {
      error = alike * error + fresh * (source[i & POOL_MASK] ?? 0);
      row[i & POOL_MASK] = error;
    }
    return row;
  });
}

/** The same noise through parabolas of least squares over `reach` evenly spaced frames to either side, place by place. */
export function smoothedFrameNoise(alike: number, reach: number): Float32Array {
  return keptRow(`${alike} ${reach}`, () => {
    const source = frameNoise(alike);
    const weights = parabolaWeights(2 * reach + 1, reach);
    const row = new Float32Array(SIZE + POOL_RUN);
    for (let i = 0; i < SIZE; i++) {
      let sum = 0;
      for (let k = -reach; k <= reach; k++) sum += (weights[k + reach] ?? 0) * (source[(i + k) & POOL_MASK] ?? 0);
      row[i] = sum;
    }
    return row;
  });
}

/** Where in the pool the draws of a seed begin (FNV-1a). */
export function poolStart(seed: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < seed.length; i++) hash = Math.imul(hash ^ seed.charCodeAt(i), 0x01000193);
  return (hash >>> 0) & POOL_MASK;
}

/**
 * Fills numbers with standard normal ones: draw after draw of a reading takes the next stretch of the pool, which starts
 * where its seed says. The same seed and draw give the same numbers.
 */
export function fillNormals(into: Float64Array, start: number, draw: number): void {
  const source = normals();
  // A step that shares no factor with the size keeps the stretches of several draws apart.
  const from = start + draw * (into.length + 1);
  for (let i = 0; i < into.length; i++) into[i] = source[(from + i) & POOL_MASK] ?? 0;
}
