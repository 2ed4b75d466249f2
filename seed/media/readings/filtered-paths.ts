import type { PointId } from "../points";
import { lowPassed } from "./low-pass";
import { timesBetween, type Moment, type SeenSwing } from "./seen-swing";
import { reads, type TruthOf } from "./true-reading";

/** Rows made from every moment of the clip up to contact, filtered there and not across it, at dense times. */
export function filteredUpToContact(swing: SeenSwing, cutOffHz: number, of: (p: Moment) => readonly number[]): { readonly times: readonly number[]; readonly rows: readonly (readonly number[])[] } {
  const times = timesBetween(swing, swing.clipTimes[0] ?? NaN, 0);
  const step = (times[1] ?? NaN) - (times[0] ?? NaN);
  const places = times.map((t) => of(swing.at(t)));
  const rows = (places[0] ?? []).map((_, axis) => lowPassed(places.map((place) => place[axis] ?? NaN), step, cutOffHz));
  return { times, rows };
}

interface FilteredWay {
  readonly length: number;
  readonly straight: number;
}

/** The way of a point from launch to contact, filtered at 20 Hz: the library's sum of steps as their number grows. */
function wayOf(swing: SeenSwing, point: PointId): FilteredWay {
  const { times, rows } = filteredUpToContact(swing, 20, (p) => [p(point).h, p(point).v]);
  const last = times.length - 1;
  const at = (place: number) => rows.map((row) => {
    const low = Math.floor(place);
    const value = row[low] ?? NaN;
    return value + (place - low) * ((row[low + 1] ?? value) - value);
  });
  const apart = (a: number, b: number) => Math.hypot(...at(b).map((value, axis) => value - (at(a)[axis] ?? NaN)));
  const start = (last * (swing.events.launch - (times[0] ?? NaN))) / -(times[0] ?? NaN);
  const first = Math.ceil(start);
  let length = apart(start, first);
  for (let i = first; i < last; i++) length += apart(i, i + 1);
  return { length, straight: apart(start, last) };
}

/** Ways travelled on the way to the ball. */
export const PATHS = {
  "hand-path-directness": (swing) => {
    const way = wayOf(swing, "knob");
    return reads(way.length / way.straight);
  },
  "barrel-path-length": (swing, { bat }) => reads(wayOf(swing, "tip").length / bat()),
} as const satisfies Record<string, TruthOf>;
