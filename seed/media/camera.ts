import { bodySize } from "./body";
import type { SwingSpec } from "./spec";
import { along, dot, facing, sub, type Vec3 } from "./vec";

/** A place in the picture: pixels from its left and upper edge (pixel i covers i to i + 1). */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** A level pin-hole camera in swing coordinates. A left-handed swing is the mirror picture: `mirror` is -1 and x runs the other way. */
export interface Camera {
  readonly position: Vec3;
  /** Unit vectors: into the picture, to its right (before `mirror`), up. */
  readonly into: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly focalPx: number;
  readonly centreX: number;
  readonly centreY: number;
  readonly mirror: 1 | -1;
  readonly distanceM: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

const YAW = { side: 0, front: 90, rear: -90 } as const;

/** The camera of a spec: at belt height, 4.2 body heights off, framed so that hitter and bat stay inside. */
export function cameraOf(spec: SwingSpec): Camera {
  const { heightM } = bodySize(spec);
  const yaw = YAW[spec.view] + spec.cameraOffDeg;
  const toCamera = facing(yaw);
  const target: Vec3 = [0, 0.6 * heightM, spec.view === "side" ? 0.1 : 0.2 * heightM];
  const distanceM = 4.2 * heightM;
  const pxPerM = Math.min(spec.heightPx / (1.5 * heightM), spec.widthPx / (1.75 * heightM));
  const mirror = spec.side === "right" ? 1 : -1;
  const shift = spec.view === "side" ? -0.02 : 0;
  return {
    position: along(target, toCamera, distanceM),
    into: [-toCamera[0], 0, -toCamera[2]],
    right: facing(yaw + 90),
    up: [0, 1, 0],
    focalPx: pxPerM * distanceM,
    centreX: spec.widthPx * (0.5 + mirror * shift),
    centreY: spec.heightPx - pxPerM * 0.76 * heightM,
    mirror,
    distanceM,
    widthPx: spec.widthPx,
    heightPx: spec.heightPx,
  };
}

/** Depth in metres along the camera's axis. */
export const depthOf = (camera: Camera, point: Vec3): number => dot(sub(point, camera.position), camera.into);

/** Where a point of swing coordinates is seen. */
export function project(camera: Camera, point: Vec3): PicturePoint {
  const from = sub(point, camera.position);
  const k = camera.focalPx / dot(from, camera.into);
  return {
    x: camera.centreX + camera.mirror * k * dot(from, camera.right),
    y: camera.centreY - k * dot(from, camera.up),
  };
}
