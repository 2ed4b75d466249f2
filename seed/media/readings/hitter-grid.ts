import { ballOf } from "../ball";
import { cameraOf, project } from "../camera";
import { eventsOf, type SwingEvents } from "../events";
import { POINT_IDS, pointsOf, type PointId } from "../points";
import { hitterOf } from "../skeleton";
import type { SwingSpec } from "../spec";
import type { Vec3 } from "../vec";
import type { Flat } from "./plane";
import { pictureSign, timesBetween, type Moment, type SeenSwing } from "./seen-swing";

/** Steps at which the body is worked out; between them the cubic is right to a hundredth of a pixel. */
const GRID_SECONDS = 1 / 1000;
/** Steps in which windows are looked at, seconds. */
const STEP_SECONDS = 1 / 2000;
/** The clip that truth is taken from: seconds before the stance and after the finish. */
export const CLIP_BEFORE_STANCE_SECONDS = 0.4;
export const CLIP_AFTER_FINISH_SECONDS = 0.6;
/** Seconds around the clip that can be asked for as well. */
const MARGIN_SECONDS = 0.1;

/** A hitter's points in swing coordinates (metres) in steps of a millisecond: worked out once, seen by many cameras. */
export interface HitterGrid {
  readonly spec: SwingSpec;
  readonly events: SwingEvents;
  readonly releaseSeconds: number | null;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** A point in metres at any time of the clip, by the cubic through the four nearest steps. */
  readonly worldAt: (point: PointId, timeSeconds: number) => Vec3;
}

/** The grid of a spec's hitter; view, camera and size of the picture do not matter for it. */
export function hitterGrid(spec: SwingSpec): HitterGrid {
  const hitter = hitterOf(spec);
  const events = eventsOf(hitter);
  const [fromSeconds, toSeconds] = [events.stance - CLIP_BEFORE_STANCE_SECONDS, events.finish + CLIP_AFTER_FINISH_SECONDS];
  const first = Math.floor((fromSeconds - MARGIN_SECONDS) / GRID_SECONDS);
  const count = Math.ceil((toSeconds + MARGIN_SECONDS) / GRID_SECONDS) - first + 1;
  const metres = new Float64Array(count * POINT_IDS.length * 3);
  for (let i = 0; i < count; i++) {
    const world = pointsOf(hitter, hitter.poseAt((first + i) * GRID_SECONDS));
    POINT_IDS.forEach((id, k) => metres.set(world[id], 3 * (i * POINT_IDS.length + k)));
  }
  const row = Object.fromEntries(POINT_IDS.map((id, k) => [id, 3 * k])) as Record<PointId, number>;
  const worldAt = (point: PointId, timeSeconds: number): Vec3 => {
    const place = timeSeconds / GRID_SECONDS - first;
    const low = Math.max(1, Math.min(count - 3, Math.floor(place)));
    const x = place - low;
    const weights = [(-x * (x - 1) * (x - 2)) / 6, ((x + 1) * (x - 1) * (x - 2)) / 2, (-(x + 1) * x * (x - 2)) / 2, ((x + 1) * x * (x - 1)) / 6];
    let [a, b, c] = [0, 0, 0];
    weights.forEach((weight, k) => {
      const at = 3 * POINT_IDS.length * (low - 1 + k) + row[point];
      a += weight * (metres[at] ?? NaN);
      b += weight * (metres[at + 1] ?? NaN);
      c += weight * (metres[at + 2] ?? NaN);
    });
    return [a, b, c];
  };
  return { spec, events, releaseSeconds: ballOf(spec, hitter).release, fromSeconds, toSeconds, worldAt };
}

/** The hitter of a grid as the spec's camera sees it. The spec must be of the same hitter. */
export function seenBy(grid: HitterGrid, spec: SwingSpec): SeenSwing {
  const camera = cameraOf(spec);
  const sign = pictureSign(spec.view, spec.side);
  const at = (timeSeconds: number): Moment => {
    return (point): Flat => {
      const { x, y } = project(camera, grid.worldAt(point, timeSeconds));
      return { h: sign * x, v: -y };
    };
  };
  const clipTimes = timesBetween({ stepSeconds: GRID_SECONDS }, grid.fromSeconds, grid.toSeconds);
  const releaseSeconds = spec.task === "toss" ? grid.releaseSeconds : null;
  return { view: spec.view, events: grid.events, releaseSeconds, at, clipTimes, stepSeconds: STEP_SECONDS };
}
