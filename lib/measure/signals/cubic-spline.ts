/** A cubic spline: value and slope at any place; outside the knots the end pieces go on. */
export interface CubicSpline {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/**
 * The not-a-knot cubic spline through points: the first two pieces are one cubic, and the last two. Two knots give a
 * line, three a parabola. NaN among the values gives NaN. Source: case T5.5 (scipy's CubicSpline).
 * @param xs knots, strictly increasing @param ys values there, any unit
 * @throws RangeError for fewer than two knots, unequal lengths, or knots that do not increase
 */
export function cubicSpline(xs: ArrayLike<number>, ys: ArrayLike<number>): CubicSpline {
  if (xs.length !== ys.length) throw new RangeError(`${xs.length} knots but ${ys.length} values`);
  const slopes = knotSlopes(new Float64Array(xs), new Float64Array(ys));
  const at = (x: number, part: typeof hermite) => {
    const i = pieceOf(xs, x);
    const [x0, x1, y0, y1] = [xs[i] ?? NaN, xs[i + 1] ?? NaN, ys[i] ?? NaN, ys[i + 1] ?? NaN];
    return part((x - x0) / (x1 - x0), x1 - x0, y0, y1, slopes[i] ?? NaN, slopes[i + 1] ?? NaN);
  };
  return { value: (x) => at(x, hermite), slope: (x) => at(x, hermiteSlope) };
}

/**
 * Values of the same spline at many places in increasing order, in one sweep.
 * @throws RangeError as cubicSpline
 */
export function splineValues(xs: Float64Array, ys: Float64Array, at: Float64Array): Float64Array {
  if (xs.length !== ys.length) throw new RangeError(`${xs.length} knots but ${ys.length} values`);
  const slopes = knotSlopes(xs, ys);
  const values = new Float64Array(at.length);
  let i = 0;
  for (let k = 0; k < at.length; k++) {
    const x = at[k] ?? NaN;
    while (i < xs.length - 2 && (xs[i + 1] ?? Infinity) <= x) i++;
    const x0 = xs[i] ?? NaN;
    const h = (xs[i + 1] ?? NaN) - x0;
    values[k] = hermite((x - x0) / h, h, ys[i] ?? NaN, ys[i + 1] ?? NaN, slopes[i] ?? NaN, slopes[i + 1] ?? NaN);
  }
  return values;
}

/** Index of the piece that holds x, or of the end piece nearest to it. */
function pieceOf(xs: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = xs.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((xs[middle] ?? Infinity) <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

function hermite(s: number, h: number, y0: number, y1: number, d0: number, d1: number): number {
  const r = 1 - s;
  return (1 + 2 * s) * r * r * y0 + s * r * r * h * d0 + s * s * (3 - 2 * s) * y1 - s * s * r * h * d1;
}

function hermiteSlope(s: number, h: number, y0: number, y1: number, d0: number, d1: number): number {
  return (6 * s * (1 - s) * (y1 - y0)) / h + (1 - s) * (1 - 3 * s) * d0 + s * (3 * s - 2) * d1;
}

/** Slopes at the knots for which the second derivative is continuous and the ends are not knots. */
function knotSlopes(xs: Float64Array, ys: Float64Array): Float64Array {
  const n = xs.length;
  if (n < 2) throw new RangeError("a spline needs two knots or more");
  const h = new Float64Array(n - 1);
  const m = new Float64Array(n - 1);
  for (let i = 0; i < n - 1; i++) {
    const step = (xs[i + 1] ?? NaN) - (xs[i] ?? NaN);
    if (!(step > 0 && step < Infinity)) throw new RangeError("a spline's knots must increase");
    h[i] = step;
    m[i] = ((ys[i + 1] ?? NaN) - (ys[i] ?? NaN)) / step;
  }
  const get = (list: Float64Array, i: number) => list[i] ?? NaN;
  if (n === 2) return new Float64Array(2).fill(get(m, 0));
  if (n === 3) {
    const bend = (get(m, 1) - get(m, 0)) / (get(h, 0) + get(h, 1));
    return Float64Array.of(get(m, 0) - bend * get(h, 0), get(m, 0) + bend * get(h, 0), get(m, 1) + bend * get(h, 1));
  }
  const lower = new Float64Array(n);
  const middle = new Float64Array(n);
  const upper = new Float64Array(n);
  const right = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    lower[i] = get(h, i);
    middle[i] = 2 * (get(h, i - 1) + get(h, i));
    upper[i] = get(h, i - 1);
    right[i] = 3 * (get(h, i) * get(m, i - 1) + get(h, i - 1) * get(m, i));
  }
  const [h0, h1, g0, g1] = [get(h, 0), get(h, 1), get(h, n - 2), get(h, n - 3)];
  middle[0] = h1;
  upper[0] = h0 + h1;
  right[0] = ((h0 + 2 * (h0 + h1)) * h1 * get(m, 0) + h0 * h0 * get(m, 1)) / (h0 + h1);
  middle[n - 1] = g1;
  lower[n - 1] = g0 + g1;
  right[n - 1] = ((g0 + 2 * (g0 + g1)) * g1 * get(m, n - 2) + g0 * g0 * get(m, n - 3)) / (g0 + g1);
  return solveTridiagonal(lower, middle, upper, right);
}

/** Thomas's algorithm; `middle` and `right` are overwritten. */
function solveTridiagonal(lower: Float64Array, middle: Float64Array, upper: Float64Array, right: Float64Array): Float64Array {
  const n = right.length;
  for (let i = 1; i < n; i++) {
    const share = (lower[i] ?? NaN) / (middle[i - 1] ?? NaN);
    middle[i] = (middle[i] ?? NaN) - share * (upper[i - 1] ?? NaN);
    right[i] = (right[i] ?? NaN) - share * (right[i - 1] ?? NaN);
  }
  right[n - 1] = (right[n - 1] ?? NaN) / (middle[n - 1] ?? NaN);
  for (let i = n - 2; i >= 0; i--) right[i] = ((right[i] ?? NaN) - (upper[i] ?? NaN) * (right[i + 1] ?? NaN)) / (middle[i] ?? NaN);
  return right;
}
