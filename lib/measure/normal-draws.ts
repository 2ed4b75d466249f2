import { seededRandom } from "@/lib/core/random";

const KEPT = new Map<string, Float64Array>();
const MOST_KEPT = 64;

/**
 * Standard normal numbers, the same for the same seed and count on every machine. Kept between calls: while a point is
 * dragged the same draws serve every position, so that the doubt moves smoothly with it.
 * @throws RangeError for a count that is not a whole number above 0
 */
export function normalDraws(seed: string, count: number): Float64Array {
  if (!(Number.isInteger(count) && count > 0)) throw new RangeError("the number of draws must be a whole number above 0");
  const key = `${seed} ${count}`;
  const known = KEPT.get(key);
  if (known) return known;
  const random = seededRandom(seed);
  const draws = Float64Array.from({ length: count }, () => random.normal());
  if (KEPT.size >= MOST_KEPT) KEPT.clear();
  KEPT.set(key, draws);
  return draws;
}
