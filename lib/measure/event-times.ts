import { EVENT_IDS, type EventId, type SwingEvent } from "@/lib/measure/clip-input";

/** How well a person marks an event, in seconds, before the frame interval is counted in. */
export const MARKED_SD_SECONDS: Readonly<Record<EventId, number>> = {
  release: 0.004, stance: 0.05, "first-move": 0.02, load: 0.02, toe: 0.004,
  plant: 0.006, launch: 0.008, contact: 0, extension: 0.004, finish: 0.02,
};

/** Names of the events for sentences. */
export const EVENT_NAMES: Readonly<Record<EventId, string>> = {
  release: "pitch release", stance: "stance", "first-move": "first move", load: "load", toe: "toe touch",
  plant: "heel plant", launch: "launch", contact: "contact", extension: "extension", finish: "finish",
};

/**
 * Median interval between frames in real seconds; NaN for fewer than two frames or times that do not increase.
 * @param seconds real time of each frame
 */
export function framePeriod(seconds: readonly number[]): number {
  const steps = seconds.slice(1).map((time, i) => time - (seconds[i] ?? NaN));
  if (steps.length === 0 || steps.some((step) => !(step > 0 && step < Infinity))) return NaN;
  steps.sort((a, b) => a - b);
  const middle = steps.length >> 1;
  const upper = steps[middle] ?? NaN;
  return steps.length % 2 ? upper : (upper + (steps[middle - 1] ?? NaN)) / 2;
}

/** SD of a time that is only known to lie within one frame interval: P / sqrt(12), as of a uniform distribution. */
export function frameQuantisationSd(framePeriodSeconds: number): number {
  if (!(framePeriodSeconds > 0)) throw new RangeError("the frame interval must be above 0 seconds");
  return framePeriodSeconds / Math.sqrt(12);
}

/** SD in seconds of an event that a person marked on a frame: root of its own SD squared and P^2/12. */
export function markedEventSdSeconds(event: EventId, framePeriodSeconds: number): number {
  return Math.hypot(MARKED_SD_SECONDS[event], frameQuantisationSd(framePeriodSeconds));
}

/** Pairs that cannot come the other way round; only the pairs with `true` may fall together. */
const MUST_FOLLOW: readonly (readonly [EventId, EventId, boolean])[] = [
  ["stance", "first-move", true], ["stance", "load", true], ["stance", "plant", false], ["load", "plant", false],
  ["load", "toe", true], ["toe", "plant", true], ["load", "launch", false],
  ["release", "contact", false], ["stance", "contact", false], ["load", "contact", false], ["toe", "contact", false],
  ["plant", "contact", false], ["launch", "contact", false],
  ["contact", "extension", true], ["contact", "finish", false],
];

/**
 * A sentence about two events that stand in an order that cannot be, else null: two of the needed ones, or one of them
 * and contact, from which all times are counted.
 */
export function orderProblem(
  events: Readonly<Partial<Record<EventId, SwingEvent>>>,
  needed: readonly EventId[] = EVENT_IDS,
): string | null {
  const isCounted = (id: EventId) => needed.includes(id) || (id === "contact" && needed.length > 0);
  for (const [first, second, mayCoincide] of MUST_FOLLOW) {
    const a = events[first]?.seconds;
    const b = events[second]?.seconds;
    if (!isCounted(first) || !isCounted(second) || a === undefined || b === undefined) continue;
    if (mayCoincide ? a > b : a >= b) return `the marks are out of order: ${EVENT_NAMES[first]} is not before ${EVENT_NAMES[second]}`;
  }
  return null;
}
