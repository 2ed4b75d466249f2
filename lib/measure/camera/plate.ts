import type { PlanePoint } from "./homography";

const INCH_M = 0.0254;

/**
 * The corners of home plate in metres, turning the same way as seen from above: x from the apex (the point toward the
 * catcher) toward the pitcher, z to the first-base side. Source: NCAA rule 1-6 and Official Baseball Rules (17-inch front, two
 * 8.5-inch sides, apex the origin of the pitching distance); the 12-inch rear edges are nominal, 12.02 in fact.
 */
export const PLATE_CORNERS_M: readonly PlanePoint[] = [[0, 0], [8.5, -8.5], [17, -8.5], [17, 8.5], [8.5, 8.5]].map(
  ([x = NaN, z = NaN]): PlanePoint => [x * INCH_M, z * INCH_M],
);

/** Middle of the plate, metres from the apex. */
export const PLATE_MIDDLE_M: PlanePoint = [9 * INCH_M, 0];

/** Middle of the plate's marked corners in a picture. */
export function middleOf(points: readonly PlanePoint[]): PlanePoint {
  const sum = (axis: 0 | 1) => points.reduce((total, point) => total + point[axis], 0) / points.length;
  return [sum(0), sum(1)];
}

/**
 * Five places in the order in which they lie around their middle, as the plate's corners do; null when they are not the
 * corners of a convex figure, as a plate on the ground always is in a picture.
 */
export function aroundMiddle(points: readonly PlanePoint[]): readonly PlanePoint[] | null {
  const [cx, cy] = middleOf(points);
  const ring = [...points].sort((a, b) => Math.atan2(a[1] - cy, a[0] - cx) - Math.atan2(b[1] - cy, b[0] - cx));
  const isConvex = ring.every((here, i) => {
    const next = ring[(i + 1) % ring.length] ?? here;
    const after = ring[(i + 2) % ring.length] ?? here;
    return (next[0] - here[0]) * (after[1] - next[1]) - (next[1] - here[1]) * (after[0] - next[0]) > 0;
  });
  return isConvex ? ring : null;
}
