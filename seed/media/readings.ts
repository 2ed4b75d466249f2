import type { PicturePoint } from "./camera";
import type { SwingEvents } from "./events";
import type { PointId } from "./points";
import type { Flat } from "./readings/plane";
import { TrueReadingsOf } from "./readings/true-readings";

export { medianOf, percentile95 } from "./readings/plane";

/** Picture positions of all points. */
export type Projected = Readonly<Record<PointId, PicturePoint>>;

/** What a side-view reading is worth when nothing is uncertain, by the checkpoint's id. Lengths in torso lengths, angles in degrees. */
export type TrueReadings = Readonly<Record<TrueReadingId, number>>;

/** Readings that go with a swing's truth; all others are asked for one by one (`readings/true-readings.ts`). */
export const TRUE_READING_IDS = [
  "load-hip-shift", "hip-travel", "back-foot-release", "front-knee-firming", "shoulder-behind-knee", "front-side-stack",
  "top-hand-hold", "hands-back-at-plant", "lead-arm-bend-at-plant", "trunk-lean-at-contact", "trunk-shortening", "contact-depth",
  "barrel-catch-up", "plant-to-contact-time", "launch-to-contact-time",
] as const;
export type TrueReadingId = (typeof TRUE_READING_IDS)[number];

/** Positions toward the pitcher (u) and up (v) in pixels for a side view: `s` is 1 for a right-handed, -1 for a left-handed picture. */
export function sideAxes(points: Projected, s: 1 | -1): (id: PointId) => { u: number; v: number } {
  return (id) => ({ u: s * points[id].x, v: -points[id].y });
}

/** Inputs of the true readings: the projected points at any time, the frames' times, the events. */
export interface ReadingInput {
  readonly at: (timeSeconds: number) => Projected;
  readonly frameTimes: readonly number[];
  readonly events: SwingEvents;
  readonly s: 1 | -1;
}

/** The time from plant to contact is a fact of the motion, with or without a pitch. */
const ANY_RELEASE_SECONDS = -1;

/** The side view's readings from exact points at exact event times. They share no code with what is tested against them. */
export function trueReadings({ at, frameTimes, events, s }: ReadingInput): TrueReadings {
  const momentAt = (time: number) => {
    const points = at(time);
    return (id: PointId): Flat => ({ h: s * points[id].x, v: -points[id].y });
  };
  const truth = new TrueReadingsOf({ view: "side", events, releaseSeconds: ANY_RELEASE_SECONDS, at: momentAt, clipTimes: frameTimes, stepSeconds: 0.001 });
  return Object.fromEntries(TRUE_READING_IDS.map((id) => [id, truth.of(id).value ?? NaN])) as TrueReadings;
}
