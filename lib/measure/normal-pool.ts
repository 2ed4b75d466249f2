import { seededRandom } from "@/lib/core/random";

/** Enough that the draws of one reading seldom meet the same stretch; a power of two. */
const SIZE = 1 << 19;

let pool: Float64Array | null = null;

/** Standard normal numbers made once, the same on every machine: drawn readings take stretches of them. */
function normals(): Float64Array {
  if (!pool) {
    const random = seededRandom("normal pool");
    pool = Float64Array.from({ length: SIZE }, () => random.normal());
  }
  return pool;
}

/** Where in the pool the draws of a seed begin (FNV-1a). */
export function poolStart(seed: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < seed.length; i++) hash = Math.imul(hash ^ seed.charCodeAt(i), 0x01000193);
  return (hash >>> 0) % SIZE;
}

/**
 * Fills numbers with standard normal ones: draw after draw of a reading takes the next stretch of the pool, which starts
 * where its seed says. The same seed and draw give the same numbers.
 */
export function fillNormals(into: Float64Array, start: number, draw: number): void {
  const source = normals();
  // A step that shares no factor with the size keeps the stretches of several draws apart.
  let from = (start + draw * (into.length + 1)) % SIZE;
  let done = 0;
  while (done < into.length) {
    const part = Math.min(into.length - done, SIZE - from);
    into.set(source.subarray(from, from + part), done);
    done += part;
    from = 0;
  }
}
