import { ballOf } from "./ball";
import { cameraOf, project, type Camera, type PicturePoint } from "./camera";
import { clockOf, timeOfFrame } from "./clock";
import { eventsOf, type SwingEvents } from "./events";
import { POINT_IDS, pointsOf, type PointId } from "./points";
import { trueReadings, type Projected, type TrueReadings } from "./readings";
import { hitterOf } from "./skeleton";
import type { SwingSpec } from "./spec";
import type { Vec3 } from "./vec";
import { seenPoints } from "./visibility";

/** One point on one frame: swing coordinates in metres, place in the picture in pixels, and whether it can be seen. */
export interface TruePoint {
  readonly world: Vec3;
  readonly picture: PicturePoint;
  readonly isVisible: boolean;
}

export interface TrueFrame {
  readonly index: number;
  /** Seconds from contact. */
  readonly timeSeconds: number;
  readonly points: Readonly<Record<PointId, TruePoint>>;
  readonly ball: { readonly world: Vec3; readonly picture: PicturePoint } | null;
}

/** All that is true of a synthetic swing. */
export interface SwingTruth {
  readonly spec: SwingSpec;
  readonly camera: Camera;
  readonly contactFrame: number;
  /** File time of contact and of the beginning of the crack, in seconds: the same, no way of the sound is added. */
  readonly contactAtSeconds: number;
  readonly soundAtSeconds: number;
  readonly events: SwingEvents;
  /** Release of the toss, seconds from contact; null off a tee. */
  readonly releaseSeconds: number | null;
  readonly heightM: number;
  readonly batLengthM: number;
  readonly frames: readonly TrueFrame[];
  /** The side view's readings; null for other views. */
  readonly readings: TrueReadings | null;
  /** Points at any time, not only on frames. */
  readonly pointsAt: (timeSeconds: number) => Projected;
}

/** The truth of a spec: computed from the motion alone, never from pictures. */
export function truthOf(spec: SwingSpec): SwingTruth {
  const hitter = hitterOf(spec);
  const camera = cameraOf(spec);
  const ball = ballOf(spec, hitter);
  const { frameCount, contactFrame, contactAtSeconds } = clockOf(spec);
  const events = eventsOf(hitter);
  const pointsAt = (t: number): Projected => {
    const world = pointsOf(hitter, hitter.poseAt(t));
    return mapPoints((id) => project(camera, world[id]));
  };
  const frames = Array.from({ length: frameCount }, (_, index): TrueFrame => {
    const timeSeconds = timeOfFrame(spec, index);
    const pose = hitter.poseAt(timeSeconds);
    const world = pointsOf(hitter, pose);
    const seen = seenPoints(hitter, pose, camera, world);
    const place = ball.at(timeSeconds);
    return {
      index,
      timeSeconds,
      points: mapPoints((id) => ({
        world: world[id],
        picture: project(camera, world[id]),
        isVisible: seen.has(id),
      })),
      ball: place && place[1] > 0 ? { world: place, picture: project(camera, place) } : null,
    };
  });
  const s = spec.side === "right" ? 1 : -1;
  const frameTimes = frames.map((frame) => frame.timeSeconds);
  return {
    spec,
    camera,
    contactFrame,
    contactAtSeconds,
    soundAtSeconds: contactAtSeconds,
    events,
    releaseSeconds: ball.release,
    heightM: hitter.size.heightM,
    batLengthM: hitter.size.bat,
    frames,
    readings: spec.view === "side" ? trueReadings({ at: pointsAt, frameTimes, events, s }) : null,
    pointsAt,
  };
}

function mapPoints<T>(make: (id: PointId) => T): Record<PointId, T> {
  return Object.fromEntries(POINT_IDS.map((id) => [id, make(id)])) as Record<PointId, T>;
}
