/**
 * Weights with which two to four values give the value of a smooth curve through them at a time between the two in the middle:
 * a cubic whose slope at each of those two is that of the parabola through it and its neighbours (Bessel's slopes; de Boor, A
 * Practical Guide to Splines, 1978, from memory). It looks at no further knot, so that a moved point moves the curve nearby only.
 * Two knots give a line, three a curve with the parabola's slope at both. The weights add up to 1.
 * @param times of the knots in seconds, increasing, at most two before the piece's end and two after its start
 * @param left index of the knot that begins the piece; the next one ends it
 * @param at a time of the piece
 */
export function splineWeights(times: readonly number[], left: number, at: number): number[] {
  const weights = new Array<number>(times.length).fill(0);
  const [start, end] = [times[left] ?? NaN, times[left + 1] ?? NaN];
  const span = end - start;
  const s = (at - start) / span;
  const r = 1 - s;
  const add = (index: number, weight: number) => (weights[index] = (weights[index] ?? 0) + weight);
  add(left, (1 + 2 * s) * r * r);
  add(left + 1, s * s * (3 - 2 * s));
  slopeWeights(times, left).forEach((weight, i) => add(i, s * r * r * span * weight));
  slopeWeights(times, left + 1).forEach((weight, i) => add(i, -s * s * r * span * weight));
  return weights;
}

/** Weights of the knots' values in the slope at one of them: of the parabola through three, at an end the first or last three. */
function slopeWeights(times: readonly number[], knot: number): number[] {
  const weights = new Array<number>(times.length).fill(0);
  const count = times.length;
  if (count === 2) {
    const span = (times[1] ?? NaN) - (times[0] ?? NaN);
    return [-1 / span, 1 / span];
  }
  const first = Math.max(0, Math.min(count - 3, knot - 1));
  const [a, b, c] = [times[first] ?? NaN, times[first + 1] ?? NaN, times[first + 2] ?? NaN];
  const at = times[knot] ?? NaN;
  // Derivatives of Lagrange's three parabolas.
  weights[first] = (2 * at - b - c) / ((a - b) * (a - c));
  weights[first + 1] = (2 * at - a - c) / ((b - a) * (b - c));
  weights[first + 2] = (2 * at - a - b) / ((c - a) * (c - b));
  return weights;
}

/**
 * How strongly values bend at the knots of a piece, in their unit a second squared: the larger of the second derivatives of the
 * parabolas through each of its two ends and their neighbours; 0 for two knots.
 */
export function bendAt(times: readonly number[], left: number, valueOf: (knot: number) => number): number {
  let largest = 0;
  for (const middle of [left, left + 1]) {
    if (middle < 1 || middle + 1 >= times.length) continue;
    const [a, b, c] = [times[middle - 1] ?? NaN, times[middle] ?? NaN, times[middle + 1] ?? NaN];
    const [ya, yb, yc] = [valueOf(middle - 1), valueOf(middle), valueOf(middle + 1)];
    largest = Math.max(largest, Math.abs((2 * ((yc - yb) / (c - b) - (yb - ya) / (b - a))) / (c - a)));
  }
  return largest;
}
