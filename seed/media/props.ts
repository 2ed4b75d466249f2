import { BALL_RADIUS_M } from "./ball";
import { MATERIAL as M } from "./look";
import { ringsAlong, type Mesh, type Station } from "./mesh";
import type { Hitter, Pose } from "./skeleton";
import { along, type Vec3 } from "./vec";

/** Bat outline: share of the length from the knob, radius in metres. */
const BAT: readonly (readonly [number, number])[] = [
  [0.0, 0.02], [0.006, 0.026], [0.016, 0.026], [0.026, 0.0135], [0.06, 0.0125], [0.2, 0.0125], [0.36, 0.0135], [0.365, 0.0135], [0.46, 0.018],
  [0.56, 0.0245], [0.66, 0.0295], [0.76, 0.0325], [0.94, 0.0335], [0.975, 0.032], [0.99, 0.026], [0.998, 0.014],
];

export function addBat(mesh: Mesh, hitter: Hitter, pose: Pose): void {
  const { knob, along: axis } = pose.bat;
  const stations: Station[] = BAT.map(([share, radius]) => ({ at: along(knob, axis, share * hitter.size.bat), radius }));
  mesh.begin();
  const rings = ringsAlong(stations, [0.2, 0.3, 0.9], { start: true, end: true });
  mesh.tube(rings, rings.map((_, i) => (i < 3 + 6 ? M.handle : M.barrel)), 16);
}

export function addBall(mesh: Mesh, centre: Vec3): void {
  mesh.begin();
  const r = BALL_RADIUS_M;
  mesh.ellipsoid(centre, [r, 0, 0], [0, r, 0], [0, 0, r], M.ball, 18);
}

/** A tee under the point where the ball is met. */
export function addTee(mesh: Mesh, contact: Vec3): void {
  const [x, , z] = contact;
  const top = contact[1] - BALL_RADIUS_M * 0.86;
  const post = (points: readonly (readonly [number, number])[], material: readonly number[]): void => {
    mesh.begin();
    const stations = points.map(([y, radius]): Station => ({ at: [x, y, z], radius }));
    mesh.tube(ringsAlong(stations, [1, 0, 0], { start: false, end: true }), material, 18);
  };
  post([[0, 0.15], [0.012, 0.152], [0.022, 0.144], [0.028, 0.06], [0.032, 0.02]], [M.teeTop]);
  post([[0.02, 0.017], [0.32, 0.017], [0.321, 0.013], [top - 0.09, 0.013]], [M.tee]);
  post([[top - 0.11, 0.017], [top - 0.05, 0.016], [top - 0.02, 0.02], [top, 0.028]], [M.teeTop]);
}
