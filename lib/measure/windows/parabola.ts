/**
 * Slope at a time of the parabola of least squares through samples first..last, in the values' unit a second; NaN for
 * fewer than three or a value that is not known.
 */
export function slopeOfParabola(seconds: Float64Array, values: Float64Array, first: number, last: number, at: number): number {
  const count = last - first + 1;
  if (count < 3) return NaN;
  let [s2, s3, s4, y1, y2, meanT, meanY] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = first; i <= last; i++) {
    meanT += (seconds[i] ?? NaN) / count;
    meanY += (values[i] ?? NaN) / count;
  }
  for (let i = first; i <= last; i++) s2 += ((seconds[i] ?? NaN) - meanT) ** 2;
  // Second orthogonal polynomial t^2 - b t - c about the mean, so that both coefficients stand alone.
  const c = s2 / count;
  for (let i = first; i <= last; i++) s3 += ((seconds[i] ?? NaN) - meanT) ** 3;
  const b = s3 / s2;
  for (let i = first; i <= last; i++) {
    const t = (seconds[i] ?? NaN) - meanT;
    const y = (values[i] ?? NaN) - meanY;
    const square = t * t - b * t - c;
    s4 += square * square;
    y1 += t * y;
    y2 += square * y;
  }
  const bend = y2 / s4;
  return y1 / s2 + bend * (2 * (at - meanT) - b);
}

/** Time of the extreme of the parabola through three samples; the middle sample's own time when they lie in a line. */
export function vertexOf(times: readonly [number, number, number], values: readonly [number, number, number]): number {
  const [a, b, c] = times;
  const [ya, yb, yc] = values;
  const left = (yb - ya) / (b - a);
  const right = (yc - yb) / (c - b);
  const bend = (right - left) / (c - a);
  if (bend === 0 || !Number.isFinite(bend)) return b;
  return Math.max(a, Math.min(c, (a + b) / 2 - left / (2 * bend)));
}
