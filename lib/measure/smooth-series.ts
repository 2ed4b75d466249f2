/**
 * A series smoothed by the parabola of least squares through the placed samples around each one. Only for finding how
 * much noise adds to an extreme: a maximum of a noisy curve drawn noisy once more would show only two fifths of it.
 * @param reachSeconds how far to either side of a sample its neighbours lie @returns NaN where the series is
 */
export function smoothSeries(values: Float64Array, seconds: Float64Array, reachSeconds: number): Float64Array {
  const smooth = new Float64Array(values.length).fill(NaN);
  let [from, to] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    const own = values[i] ?? NaN;
    const now = seconds[i] ?? NaN;
    if (Number.isNaN(own)) continue;
    while ((seconds[from] ?? NaN) < now - reachSeconds - 1e-9) from++;
    while (to < values.length && (seconds[to] ?? NaN) <= now + reachSeconds + 1e-9) to++;
    smooth[i] = parabolaAt(values, seconds, from, to, now) ?? own;
  }
  return smooth;
}

/** Value at a time of the parabola of least squares through samples from..to-1; null for fewer than five. */
function parabolaAt(values: Float64Array, seconds: Float64Array, from: number, to: number, now: number): number | null {
  let [n, s1, s2, s3, s4, y0, y1, y2] = [0, 0, 0, 0, 0, 0, 0, 0];
  const unit = Math.max((seconds[to - 1] ?? NaN) - now, now - (seconds[from] ?? NaN));
  for (let i = from; i < to; i++) {
    const y = values[i] ?? NaN;
    if (Number.isNaN(y)) continue;
    const t = ((seconds[i] ?? NaN) - now) / unit;
    const t2 = t * t;
    n += 1;
    s1 += t;
    s2 += t2;
    s3 += t2 * t;
    s4 += t2 * t2;
    y0 += y;
    y1 += t * y;
    y2 += t2 * y;
  }
  if (n < 5) return null;
  // Cramer's rule for the constant of the normal equations.
  const det = n * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s3 * s2) + s2 * (s1 * s3 - s2 * s2);
  const top = y0 * (s2 * s4 - s3 * s3) - s1 * (y1 * s4 - s3 * y2) + s2 * (y1 * s3 - s2 * y2);
  return Math.abs(det) > 1e-9 ? top / det : null;
}
