import { describe, expect, it } from "vitest";
import { angleDeg, atan2Deg } from "@/lib/measure/angles";
import { fitHomography, inverseHomography, mapPoint, rmsMiss, type Homography, type PlanePoint } from "@/lib/measure/camera/homography";
import { turnFromWidth } from "@/lib/measure/camera/width-turn";
import { intervalError, momentOnFrame } from "@/lib/measure/time/interval-error";
import { cases } from "./optics.json";

const places = (list: readonly (readonly number[])[]) => list.map(([x = NaN, y = NaN]): PlanePoint => [x, y]);
const rows = (matrix: readonly (readonly number[])[]) => matrix.flat() as unknown as Homography;
const fitted = (from: readonly PlanePoint[], to: readonly PlanePoint[]) => fitHomography(from, to)!;
const expectNear = (found: readonly number[] | null | undefined, published: readonly number[], tolerance: number) => {
  expect(found?.length).toBe(published.length);
  published.forEach((value, i) => expect(Math.abs((found?.[i] ?? NaN) - value)).toBeLessThan(tolerance));
};
/** Distance on the ground between two pixels, inches. */
const groundDistance = (h: Homography, [a, b]: readonly PlanePoint[]) => {
  const back = inverseHomography(h)!;
  const [p, q] = [mapPoint(back, a!)!, mapPoint(back, b!)!];
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
};

describe("T6.1 a plate's homography", () => {
  const { inputs, expected, tolerance } = cases["T6.1"];
  const [world, image] = [places(inputs.world_in), places(inputs.image_px)];
  const found = fitted(world.slice(1), image.slice(1));
  it("four corners give back the published map", () => {
    expectNear(found, expected.H.flat(), tolerance);
  });
  it("and foretell where the apex lies", () => {
    expectNear(mapPoint(found, world[0]!), expected.apex_px[0]!, tolerance);
  });
});

describe("T6.2 from pixels to the ground", () => {
  const { inputs, expected, tolerance } = cases["T6.2"];
  it("two pixels are the published distance apart", () => {
    const back = inverseHomography(rows(inputs.H))!;
    places(inputs.px).forEach((px, i) => expectNear(mapPoint(back, px), expected.world_in[i]!, tolerance));
    expect(Math.abs(groundDistance(rows(inputs.H), places(inputs.px)) - expected.distance_in)).toBeLessThan(tolerance);
  });
});

describe("T6.3 whole pixels", () => {
  const { inputs, expected, tolerance } = cases["T6.3"];
  it("five corners rounded to whole pixels still fit finely but the ground distance is off by the published amount", () => {
    const [world, image] = [places(cases["T6.1"].inputs.world_in), places(inputs.image_px_rounded)];
    const found = fitted(world, image);
    expect(Math.abs(rmsMiss(found, world, image) - expected.rms_px)).toBeLessThan(tolerance);
    expect(Math.abs(groundDistance(found, places(cases["T6.2"].inputs.px)) - expected.distance_in)).toBeLessThan(tolerance);
  });
});

describe("T6.4 the unit square", () => {
  const { expected, tolerance } = cases["T6.4"];
  const square: PlanePoint[] = [[0, 0], [1, 0], [1, 1], [0, 1]];
  const found = fitted(square, places(expected.img));
  it("its map, its middle and a pixel's way back are the published ones", () => {
    expectNear(found, expected.H.flat(), 1e-9 * 200);
    expectNear(mapPoint(found, [0.5, 0.5]), expected["centre(0.5,0.5)->"][0]!, tolerance);
    expectNear(mapPoint(inverseHomography(found)!, [200, 180]), expected["pixel(200,180)->world"][0]!, tolerance);
  });
});

describe("T6.7 what a camera off its line does to angles", () => {
  const { expected, tolerance } = cases["T6.7"];
  const turned = (deg: number) => Math.cos((deg * Math.PI) / 180);
  it("a line at 45 degrees, seen from 30 degrees off, looks as steep as published", () => {
    const { alpha_true_from_vertical: lean, phi, alpha_apparent: seen } = expected.segment_angle_projection;
    expect(Math.abs(atan2Deg(Math.sin((lean * Math.PI) / 180) * turned(phi), Math.cos((lean * Math.PI) / 180)) - seen)).toBeLessThan(tolerance);
  });
  it("a bent knee looks straighter the further the camera is off, by the published angles", () => {
    const { "pts(hip,knee,ankle)": points, ...seen } = expected.knee_projection;
    for (const [phi, angle] of Object.entries(seen)) {
      const [hip, knee, ankle] = points.map(([x = NaN, y = NaN]) => ({ h: x * turned(Number(phi.slice(4))), v: y }));
      expect(Math.abs(angleDeg(hip!, knee!, ankle!) - angle)).toBeLessThan(1e-6);
    }
  });
});

describe("T6.8 a turn from an apparent width", () => {
  const { expected, tolerance } = cases["T6.8"];
  it.each(expected)("a width of $w in $w0 gives the published turn and SD", ({ w, w0, sigma_w, sigma_w0, theta_deg, sigma_theta_deg }) => {
    const { turn, isTooSquare } = turnFromWidth(w, w0, sigma_w, sigma_w0);
    expect(Math.abs((turn?.turnDeg ?? NaN) - theta_deg)).toBeLessThan(tolerance);
    expect(Math.abs((turn?.sdDeg ?? NaN) - sigma_theta_deg)).toBeLessThan(tolerance);
    expect(isTooSquare).toBe(theta_deg < 20);
  });
});

describe("T6.10 the error of times on frames", () => {
  const { expected, tolerance } = cases["T6.10"];
  it.each(expected)("at $fps frames a second one moment and one interval err by the published amounts", (row) => {
    const at = (frame: number) => momentOnFrame(Array.from({ length: 60 }, (_, i) => i / row.fps), frame)!;
    const [first, second] = [at(5), at(50)];
    expect(Math.abs(first.periodSeconds * 1000 - row.frame_ms)).toBeLessThan(tolerance);
    expect(Math.abs((first.periodSeconds / 2) * 1000 - row.single_event_max_ms)).toBeLessThan(tolerance);
    expect(Math.abs(first.sdSeconds * 1000 - row.single_sd_ms)).toBeLessThan(tolerance);
    const error = intervalError(first, second)!;
    expect(Math.abs(error.mostSeconds * 1000 - row.interval_max_ms)).toBeLessThan(tolerance);
    expect(Math.abs(error.sdSeconds * 1000 - row.interval_sd_ms)).toBeLessThan(tolerance);
    expect(Math.abs((100 * error.sdSeconds) / 0.15 - row.interval_sd_pct_of_150ms)).toBeLessThan(tolerance);
  });
});
