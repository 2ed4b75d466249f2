/** One key of a motion: a time in seconds from contact and the value there. */
export type Key = readonly [timeSeconds: number, value: number];

/**
 * A smooth curve through keys that never overshoots them: monotone cubic interpolation (Fritsch and Carlson, 1980), level
 * before the first key and after the last. An extreme of the keys is an extreme of the curve, at the same time.
 * @throws RangeError when there are fewer than two keys or their times do not increase
 */
export function monotoneCurve(keys: readonly Key[]): (timeSeconds: number) => number {
  const count = keys.length;
  if (count < 2) throw new RangeError("a curve needs two keys or more");
  const times = keys.map((key) => key[0]);
  const values = keys.map((key) => key[1]);
  const at = (list: readonly number[], index: number): number => list[index] ?? 0;
  const slopes: number[] = [];
  for (let i = 0; i < count - 1; i++) {
    const span = at(times, i + 1) - at(times, i);
    if (!(span > 0)) throw new RangeError(`key times must increase: ${times.join(", ")}`);
    slopes.push((at(values, i + 1) - at(values, i)) / span);
  }
  const tangents = values.map((_, i) => {
    if (i === 0 || i === count - 1) return 0;
    const before = at(slopes, i - 1);
    const after = at(slopes, i);
    if (before * after <= 0) return 0;
    const spanBefore = at(times, i) - at(times, i - 1);
    const spanAfter = at(times, i + 1) - at(times, i);
    const total = 3 * (spanBefore + spanAfter);
    return total / ((2 * spanAfter + spanBefore) / before + (spanAfter + 2 * spanBefore) / after);
  });
  return (time) => {
    if (time <= at(times, 0)) return at(values, 0);
    if (time >= at(times, count - 1)) return at(values, count - 1);
    let i = 0;
    while (time > at(times, i + 1)) i++;
    const span = at(times, i + 1) - at(times, i);
    const s = (time - at(times, i)) / span;
    const s2 = s * s;
    const s3 = s2 * s;
    return (
      (2 * s3 - 3 * s2 + 1) * at(values, i) +
      (s3 - 2 * s2 + s) * span * at(tangents, i) +
      (3 * s2 - 2 * s3) * at(values, i + 1) +
      (s3 - s2) * span * at(tangents, i + 1)
    );
  };
}
