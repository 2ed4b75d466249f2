import { leastSquares } from "./least-squares";

/** A place in a plane: pixels of a picture (y down), or metres or inches on the ground. */
export type PlanePoint = readonly [number, number];

/** Maps one plane onto another: x' = (h0 x + h1 y + h2) / (h6 x + h7 y + h8), y' = (h3 x + h4 y + h5) / the same; h8 = 1. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** How the image of a place moves with the place: the two rows are the changes of x' and y'. */
export interface LocalMap {
  readonly at: PlanePoint;
  readonly x: PlanePoint;
  readonly y: PlanePoint;
}

interface Normalised {
  readonly points: readonly PlanePoint[];
  readonly centre: PlanePoint;
  readonly scale: number;
}

/**
 * The homography that takes the first points nearest to the second ones: direct linear transformation, both planes moved to
 * their middle and scaled to a mean distance of root 2 first. Null for fewer than four pairs, pairs that are not finite, or
 * three points of four in a line. Source: Hartley & Zisserman, Multiple View Geometry, 4.1 and 4.4; cases T6.1 and T6.4.
 * @throws RangeError when there are not as many points on both sides
 */
export function fitHomography(from: readonly PlanePoint[], to: readonly PlanePoint[]): Homography | null {
  if (from.length !== to.length) throw new RangeError("as many points are needed on both sides");
  if (from.length < 4) return null;
  const a = normalised(from);
  const b = normalised(to);
  if (!a || !b) return null;
  const rows: number[][] = [];
  const right: number[] = [];
  a.points.forEach(([x, y], i) => {
    const [u, v] = b.points[i] ?? [NaN, NaN];
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]);
    right.push(u, v);
  });
  const found = leastSquares(rows, right);
  if (!found) return null;
  const [h0 = NaN, h1 = NaN, h2 = NaN, h3 = NaN, h4 = NaN, h5 = NaN, h6 = NaN, h7 = NaN] = found;
  // Back: from-plane scaled and moved, then H, then the to-plane unscaled and moved back.
  const k = a.scale;
  const [cx, cy] = a.centre;
  const rowsOut = [[h0, h1, h2], [h3, h4, h5], [h6, h7, 1]].map(([p = NaN, q = NaN, r = NaN]) => [p * k, q * k, r - k * (p * cx + q * cy)]);
  const [first = [], second = [], last = []] = rowsOut;
  const back = (row: readonly number[], centre: number) => row.map((value, i) => value / b.scale + centre * (last[i] ?? NaN));
  return unitLast([...back(first, b.centre[0]), ...back(second, b.centre[1]), ...last]);
}

/** Where a place goes; null for one that goes to infinity. */
export function mapPoint(h: Homography, [x, y]: PlanePoint): PlanePoint | null {
  const w = h[6] * x + h[7] * y + h[8];
  const to: PlanePoint = [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
  return to.every(Number.isFinite) ? to : null;
}

/** The homography that leads back; null when there is none. */
export function inverseHomography(h: Homography): Homography | null {
  const [a, b, c, d, e, f, g, i, j] = h;
  return unitLast([
    e * j - f * i, c * i - b * j, b * f - c * e, f * g - d * j, a * j - c * g, c * d - a * f, d * i - e * g, b * g - a * i, a * e - b * d,
  ]);
}

/** How the image moves when a place moves a little; null where it goes to infinity. */
export function localMap(h: Homography, point: PlanePoint): LocalMap | null {
  const at = mapPoint(h, point);
  if (!at) return null;
  const w = h[6] * point[0] + h[7] * point[1] + h[8];
  return {
    at,
    x: [(h[0] - at[0] * h[6]) / w, (h[1] - at[0] * h[7]) / w],
    y: [(h[3] - at[1] * h[6]) / w, (h[4] - at[1] * h[7]) / w],
  };
}

/** Root mean square distance between where points go and where they should; Infinity when one goes to infinity. */
export function rmsMiss(h: Homography, from: readonly PlanePoint[], to: readonly PlanePoint[]): number {
  const squares = from.map((point, i) => {
    const [x, y] = mapPoint(h, point) ?? [Infinity, Infinity];
    return (x - (to[i]?.[0] ?? NaN)) ** 2 + (y - (to[i]?.[1] ?? NaN)) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

function normalised(points: readonly PlanePoint[]): Normalised | null {
  const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  const centre: PlanePoint = [mean(0), mean(1)];
  const reach = points.reduce((sum, [x, y]) => sum + Math.hypot(x - centre[0], y - centre[1]), 0) / points.length;
  if (!(reach > 0 && reach < Infinity)) return null;
  const scale = Math.SQRT2 / reach;
  return { centre, scale, points: points.map(([x, y]): PlanePoint => [(x - centre[0]) * scale, (y - centre[1]) * scale]) };
}

function unitLast(entries: readonly number[]): Homography | null {
  const last = entries[8] ?? NaN;
  const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN, g = NaN, h = NaN] = entries.map((value) => value / last);
  const whole: Homography = [a, b, c, d, e, f, g, h, 1];
  return whole.every(Number.isFinite) ? whole : null;
}
