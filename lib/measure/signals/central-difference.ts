/**
 * First derivative by differences: inside, the parabola through a sample and its neighbours (the plain central
 * difference where steps are equal); at the ends one-sided, of first or second order. Unit of the values per second.
 * NaN among the values stays NaN beside it. Fewer than two samples (three for second order) give NaN.
 * Source: case T5.4 (numpy's gradient).
 * @param seconds strictly increasing
 * @throws RangeError when there are not as many times as values
 */
export function centralDifference(values: ArrayLike<number>, seconds: ArrayLike<number>, endOrder: 1 | 2 = 1): Float64Array {
  const n = values.length;
  if (seconds.length !== n) throw new RangeError(`${n} values but ${seconds.length} times`);
  const slopes = new Float64Array(n).fill(NaN);
  const rise = (i: number) => ((values[i + 1] ?? NaN) - (values[i] ?? NaN)) / step(i);
  const step = (i: number) => (seconds[i + 1] ?? NaN) - (seconds[i] ?? NaN);
  for (let i = 1; i < n - 1; i++) slopes[i] = (step(i) * rise(i - 1) + step(i - 1) * rise(i)) / (step(i - 1) + step(i));
  if (n > endOrder) {
    const bend = (i: number) => (rise(i + 1) - rise(i)) / (step(i) + step(i + 1));
    slopes[0] = rise(0) - (endOrder === 2 ? bend(0) * step(0) : 0);
    slopes[n - 1] = rise(n - 2) + (endOrder === 2 ? bend(n - 3) * step(n - 2) : 0);
  }
  return slopes;
}

/**
 * Second derivative from three neighbours; the two end samples have none (NaN). Unit of the values per second squared.
 * Source: case T5.4.
 * @param seconds strictly increasing
 * @throws RangeError when there are not as many times as values
 */
export function secondDifference(values: ArrayLike<number>, seconds: ArrayLike<number>): Float64Array {
  const n = values.length;
  if (seconds.length !== n) throw new RangeError(`${n} values but ${seconds.length} times`);
  const bends = new Float64Array(n).fill(NaN);
  for (let i = 1; i < n - 1; i++) {
    const before = (seconds[i] ?? NaN) - (seconds[i - 1] ?? NaN);
    const after = (seconds[i + 1] ?? NaN) - (seconds[i] ?? NaN);
    const rise = ((values[i + 1] ?? NaN) - (values[i] ?? NaN)) / after - ((values[i] ?? NaN) - (values[i - 1] ?? NaN)) / before;
    bends[i] = (2 * rise) / (before + after);
  }
  return bends;
}

/**
 * What a central difference leaves of the speed of an oscillation: sin(2 pi f dt) / (2 pi f dt), 1 for slow, 0 at half
 * the rate. A speed read at 60 Hz from a 10 Hz movement is 17 % too small.
 * @throws RangeError for a frequency below 0 or an interval not above 0
 */
export function centralDifferenceGain(frequencyHz: number, intervalSeconds: number): number {
  if (!(frequencyHz >= 0 && frequencyHz < Infinity)) throw new RangeError(`the frequency must be 0 Hz or more, not ${frequencyHz}`);
  if (!(intervalSeconds > 0 && intervalSeconds < Infinity)) throw new RangeError(`the interval must be above 0 seconds, not ${intervalSeconds}`);
  const turn = 2 * Math.PI * frequencyHz * intervalSeconds;
  return turn === 0 ? 1 : Math.sin(turn) / turn;
}
