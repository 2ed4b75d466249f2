import type { PointRun } from "@/lib/domains/clips/components/waiting-runs";
import { contactTickOf, eventSecondsOf, realSecondsBetween } from "@/lib/domains/clips/rules";
import type { ClipView, EventId, EventView } from "@/lib/domains/clips/view";
import { framePeriod } from "@/lib/measure/event-times";
import { findFormula } from "@/lib/measure/formula-registry";
import { mixesOf, type PlaceId, type PointId } from "@/lib/measure/points";
import type { CheckpointToRead } from "../view";

type Timed = Readonly<Record<EventId, number>>;

/**
 * The points that are wanted on every frame of a stretch, for the readings that look at one: from the same bounds by which
 * the readings are taken. Empty while real time, contact or the events of a stretch are missing.
 */
export function windowRuns(checkpoints: readonly CheckpointToRead[], clip: ClipView, events: readonly EventView[]): readonly PointRun[] {
  const zero = contactTickOf(events);
  if (zero === null || clip.timeBasis === "unknown") return [];
  const seconds = clip.frameTimes.ticks.map((tick) => realSecondsBetween(clip, zero, tick));
  const period = framePeriod(seconds);
  if (!(period > 0)) return [];
  const at: Partial<Record<EventId, number>> = {};
  for (const event of events) {
    const found = eventSecondsOf(clip, event, zero);
    if (found !== null) at[event.event] = found;
  }
  const runs = new Map<string, PointRun>();
  for (const { definition } of checkpoints) {
    const formula = findFormula(definition.formulaId, definition.formulaVersion);
    const asked = formula?.events ?? definition.events;
    if (!formula?.window || definition.scope !== "clip" || !definition.views.measured.includes(clip.view)) continue;
    if (asked.some((event) => at[event] === undefined)) continue;
    const { from, to, frames: count, tracks } = formula.window;
    const frames = framesWithin(seconds, from(at as Timed, period), to(at as Timed, period), count);
    const [first, last] = [frames[0], frames[frames.length - 1]];
    if (first === undefined || last === undefined) continue;
    for (const point of pointsOf(Object.values(tracks))) {
      const key = `${point} ${first} ${last}`;
      const before = runs.get(key);
      const [begin, end] = boundsOf(asked, at);
      runs.set(key, { point, from: begin, to: end, frames, readings: (before?.readings ?? 0) + 1 });
    }
  }
  return [...runs.values()];
}

/** Frames with from <= time <= to; with a count those nearest to the middle. */
function framesWithin(seconds: readonly number[], from: number, to: number, count: number | undefined): readonly number[] {
  const inside = seconds.flatMap((time, frame) => (time >= from - 1e-9 && time <= to + 1e-9 ? [frame] : []));
  if (count === undefined || inside.length <= count) return inside;
  const middle = (from + to) / 2;
  const near = [...inside].sort((a, b) => Math.abs((seconds[a] ?? 0) - middle) - Math.abs((seconds[b] ?? 0) - middle));
  return near.slice(0, count).sort((a, b) => a - b);
}

/** The points of the best set that gives each place. */
function pointsOf(places: readonly PlaceId[]): readonly PointId[] {
  return [...new Set(places.flatMap((place) => Object.keys(mixesOf(place)[0] ?? {}) as PointId[]))];
}

/** The earliest and the latest of the events that are asked for. */
function boundsOf(asked: readonly EventId[], at: Readonly<Partial<Record<EventId, number>>>): readonly [EventId, EventId] {
  const order = [...asked].sort((a, b) => (at[a] ?? 0) - (at[b] ?? 0));
  return [order[0] ?? "contact", order[order.length - 1] ?? "contact"];
}
