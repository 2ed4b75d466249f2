import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cameraOf, depthOf, project } from "./camera";
import { BODIES, swingSpec, VIEWS } from "./spec";
import { middle, type Vec3 } from "./vec";

const near = fc.double({ min: -0.9, max: 0.9, noNaN: true });
const points = fc.tuple(near, fc.double({ min: 0, max: 1.9, noNaN: true }), near) as fc.Arbitrary<Vec3>;

describe("the camera", () => {
  test("sees the pitcher's side on the right of a right-handed side view and the plate where the conventions put it", () => {
    const xOf = (view: (typeof VIEWS)[number], side: "right" | "left", point: Vec3) => project(cameraOf(swingSpec({ view, side })), point).x;
    const origin: Vec3 = [0, 1, 0];
    for (const [side, s] of [["right", 1], ["left", -1]] as const) {
      expect(s * (xOf("side", side, [1, 1, 0]) - xOf("side", side, origin))).toBeGreaterThan(100);
      expect(s * (xOf("rear", side, [0, 1, 1]) - xOf("rear", side, origin))).toBeGreaterThan(100);
      expect(s * (xOf("front", side, [0, 1, 1]) - xOf("front", side, origin))).toBeLessThan(-100);
    }
  });

  test("keeps straight lines straight and puts what is twice as far at half the size", () => {
    fc.assert(
      fc.property(points, points, fc.constantFrom(...VIEWS), fc.double({ min: -30, max: 30, noNaN: true }), (a, b, view, cameraOffDeg) => {
        const camera = cameraOf(swingSpec({ view, cameraOffDeg }));
        const [pa, pm, pb] = [project(camera, a), project(camera, middle(a, b)), project(camera, b)];
        const cross = (pb.x - pa.x) * (pm.y - pa.y) - (pb.y - pa.y) * (pm.x - pa.x);
        expect(Math.abs(cross)).toBeLessThan(1e-3);
        const farther: Vec3 = [2 * a[0] - camera.position[0], 2 * a[1] - camera.position[1], 2 * a[2] - camera.position[2]];
        expect(depthOf(camera, farther)).toBeCloseTo(2 * depthOf(camera, a), 6);
        expect(project(camera, farther).x).toBeCloseTo(pa.x, 6);
        expect(project(camera, farther).y).toBeCloseTo(pa.y, 6);
      }),
    );
  });

  test("turned off its line, shows a depth difference as a shift of the tangent of the angle", () => {
    const straight = cameraOf(swingSpec({ cameraOffDeg: 0 }));
    const turned = cameraOf(swingSpec({ cameraOffDeg: 15 }));
    const shift = (camera: typeof straight) => project(camera, [0, 1, 0.1]).x - project(camera, [0, 1, -0.1]).x;
    const width = project(straight, [0.1, 1, 0.1]).x - project(straight, [-0.1, 1, 0.1]).x;
    expect(Math.abs(shift(straight))).toBeLessThan(4);
    expect(-shift(turned) / width).toBeCloseTo(Math.sin((15 * Math.PI) / 180), 1);
  });

  test("holds head, feet and hands of every body in the picture", () => {
    for (const body of BODIES) {
      for (const view of VIEWS) {
        const spec = swingSpec({ body, view });
        const camera = cameraOf(spec);
        expect(project(camera, [0, 0, 0.2]).y).toBeLessThan(spec.heightPx - spec.heightPx / 60);
        expect(project(camera, [0, camera.distanceM / 4.2, 0]).y).toBeGreaterThan(0.1 * spec.heightPx);
      }
    }
  });
});
