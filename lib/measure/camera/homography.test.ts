import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitHomography, inverseHomography, localMap, mapPoint, rmsMiss, type Homography, type PlanePoint } from "./homography";
import { leastSquares } from "./least-squares";
import { PLATE_CORNERS_M } from "./plate";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** A camera's map: never folding the plate over. */
const maps = fc
  .tuple(number(80, 400), number(-60, 60), number(0, 1900), number(-40, 40), number(-90, -15), number(0, 1000), number(-0.2, 0.2), number(-0.3, 0.3))
  .map((h) => [...h, 1] as unknown as Homography);

describe("a homography", () => {
  it("is found again from where it takes the plate's corners", () => {
    fc.assert(
      fc.property(maps, (map) => {
        const image = PLATE_CORNERS_M.map((corner) => mapPoint(map, corner)!);
        const found = fitHomography(PLATE_CORNERS_M, image)!;
        expect(rmsMiss(found, PLATE_CORNERS_M, image)).toBeLessThan(1e-7);
        map.forEach((value, i) => expect(Math.abs((found[i] ?? NaN) - value)).toBeLessThan(1e-5 * Math.max(1, Math.abs(value))));
      }),
    );
  });
  it("and its inverse lead there and back", () => {
    fc.assert(
      fc.property(maps, number(-0.4, 0.4), number(-0.4, 0.4), (map, x, y) => {
        const back = mapPoint(inverseHomography(map)!, mapPoint(map, [x, y])!)!;
        expect(Math.hypot(back[0] - x, back[1] - y)).toBeLessThan(1e-7);
      }),
    );
  });
  it("moves its image as small steps of the place do", () => {
    fc.assert(
      fc.property(maps, number(-0.4, 0.4), number(-0.4, 0.4), (map, x, y) => {
        const step = 1e-6;
        const local = localMap(map, [x, y])!;
        const [ahead, behind] = [mapPoint(map, [x + step, y])!, mapPoint(map, [x - step, y])!];
        expect(local.x[0]).toBeCloseTo((ahead[0] - behind[0]) / 2 / step, 2);
        expect(local.y[0]).toBeCloseTo((ahead[1] - behind[1]) / 2 / step, 2);
      }),
    );
  });
  it("is not told from three points, points in a line, one point five times, or a place that is no number", () => {
    const line: PlanePoint[] = [[0, 0], [1, 1], [2, 2], [3, 3]];
    const square: PlanePoint[] = [[0, 0], [1, 0], [1, 1], [0, 1]];
    expect(fitHomography(square.slice(0, 3), square.slice(0, 3))).toBeNull();
    expect(fitHomography(line, square)).toBeNull();
    expect(fitHomography(PLATE_CORNERS_M, PLATE_CORNERS_M.map((): PlanePoint => [3, 3]))).toBeNull();
    expect(fitHomography(square, [[0, 0], [1, 0], [NaN, 1], [0, 1]])).toBeNull();
    expect(() => fitHomography(square, line.slice(1))).toThrow(RangeError);
  });
});

describe("least squares", () => {
  it("leaves a rest that is square to every column", () => {
    const row = fc.array(number(-9, 9), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 5, maxLength: 9 }), fc.array(number(-9, 9), { minLength: 9, maxLength: 9 }), (rows, right) => {
        const x = leastSquares(rows, right.slice(0, rows.length));
        if (!x || Math.max(...x.map(Math.abs)) > 1e3) return;
        for (let j = 0; j < 3; j++) {
          const along = rows.reduce((sum, own, i) => sum + (own[j] ?? NaN) * ((right[i] ?? NaN) - own.reduce((value, a, k) => value + a * (x[k] ?? NaN), 0)), 0);
          expect(Math.abs(along)).toBeLessThan(1e-6);
        }
      }),
    );
  });
  it("says nothing where a column follows from others or rows are too few", () => {
    expect(leastSquares([[1, 2], [2, 4], [3, 6]], [1, 2, 3])).toBeNull();
    expect(leastSquares([[1, 2]], [1])).toBeNull();
    expect(leastSquares([], [])).toBeNull();
    expect(() => leastSquares([[1, 2], [1]], [1, 2])).toThrow(RangeError);
  });
});
