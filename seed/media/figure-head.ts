import { MATERIAL as M } from "./look";
import type { Mesh } from "./mesh";
import type { Hitter, Pose } from "./skeleton";
import { add, along, scale, unit, type Vec3 } from "./vec";

/** Head of nobody in particular: plain face, hair at the neck, a helmet with two ear flaps and a brim. */
export function addHead(mesh: Mesh, hitter: Hitter, pose: Pose): void {
  const { centre, ahead, up, across } = pose.head;
  const r = hitter.size.headRadius;
  const at = (a: number, u: number, f: number): Vec3 => add(add(along(centre, across, a * r), scale(up, u * r)), scale(ahead, f * r));
  const ball = (a: number, u: number, f: number, wide: number, high: number, deep: number, material: number, segments = 12): void => {
    mesh.begin();
    mesh.ellipsoid(at(a, u, f), scale(across, wide * r), scale(up, high * r), scale(ahead, deep * r), material, segments);
  };
  ball(0, 0.06, 0, 0.86, 1.0, 0.98, M.skin, 22);
  ball(0, -0.5, 0.2, 0.62, 0.62, 0.68, M.skin, 18);
  ball(0, -0.4, -0.34, 0.7, 0.56, 0.6, M.hair, 16);
  for (const side of [-1, 1]) {
    ball(side * 0.88, -0.22, -0.06, 0.1, 0.22, 0.15, M.skin, 10);
    ball(side * 0.34, 0.0, 0.83, 0.155, 0.12, 0.11, M.white, 12);
    ball(side * 0.335, -0.005, 0.915, 0.066, 0.08, 0.04, M.dark, 10);
    ball(side * 0.36, 0.24, 0.84, 0.17, 0.028, 0.06, M.brow, 10);
  }
  ball(0, -0.2, 0.97, 0.12, 0.14, 0.17, M.skin, 12);
  ball(0, -0.09, 0.92, 0.085, 0.2, 0.1, M.skin, 10);
  ball(0, -0.56, 0.84, 0.22, 0.042, 0.07, M.lip, 12);

  mesh.begin();
  const rim = (azimuth: number): number => {
    // azimuth 0 = across (front ear), 90 degrees = ahead, 180 = other ear, 270 = behind
    const front = Math.max(0, Math.sin(azimuth));
    const behind = Math.max(0, -Math.sin(azimuth));
    return 1.72 - 0.44 * front ** 0.7 + 0.46 * behind ** 0.8;
  };
  const shell = 1.14;
  mesh.ellipsoid(at(0, 0.12, -0.03), scale(across, shell * 0.94 * r), scale(up, shell * 1.0 * r), scale(ahead, shell * 1.02 * r), M.helmet, 28, rim);
  mesh.begin();
  brim(mesh, at(0, 0.46, 0.55), across, unit(add(ahead, scale(up, -0.1))), up, r);
  for (const side of [-1, 1]) {
    mesh.begin();
    mesh.ellipsoid(at(side * 0.93, -0.24, 0.02), scale(across, 0.15 * r), scale(up, 0.5 * r), scale(ahead, 0.4 * r), M.helmet, 16);
    ball(side * 1.06, -0.26, 0.0, 0.03, 0.1, 0.1, M.dark, 10);
  }
}

/** A flat, slightly arched half moon. */
function brim(mesh: Mesh, root: Vec3, across: Vec3, ahead: Vec3, up: Vec3, r: number): void {
  const columns = 14;
  const rows = 4;
  for (const face of [1, -1]) {
    const start = mesh.vertices;
    for (let row = 0; row <= rows; row++) {
      for (let column = 0; column <= columns; column++) {
        const a = (column / columns) * 2 - 1;
        const reachOut = 0.4 + (row / rows) * 0.58 * Math.sqrt(1 - a * a * 0.92);
        const arch = -0.2 * a * a - 0.06 * (row / rows);
        const thick = row === rows ? 0 : 0.028 * face;
        mesh.vertex(add(add(along(root, across, a * 0.82 * r), scale(ahead, (reachOut - 0.25 * a * a) * r)), scale(up, (arch + thick) * r)));
      }
    }
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        const p = start + row * (columns + 1) + column;
        const [b, c, d] = [p + 1, p + columns + 2, p + columns + 1];
        if (face === 1) {
          mesh.triangle(p, c, b, M.helmet);
          mesh.triangle(p, d, c, M.helmet);
        } else {
          mesh.triangle(p, b, c, M.helmet);
          mesh.triangle(p, c, d, M.helmet);
        }
      }
    }
  }
}
