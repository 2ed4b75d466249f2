import type { ClipTracks } from "@/lib/measure/tracks";
import { LARGEST_GAP } from "@/lib/measure/signals/pieces";

/** Share of the frames a rule looks at on which its points must be placed. Source: conventions `time.coverage`. */
const COVERAGE = 0.8;
const EPSILON = 1e-6;

/** Frames of a clip with from <= time <= to, in order. */
export function framesBetween(tracks: ClipTracks, from: number, to: number): readonly number[] {
  const slack = EPSILON * tracks.periodSeconds;
  return [...tracks.seconds.keys()].filter((frame) => {
    const time = tracks.seconds[frame] ?? NaN;
    return time >= from - slack && time <= to + slack;
  });
}

/** Whether values are known on at least 80 % of some frames, without a hole of more than three intervals. */
export function isCovered(values: Float64Array, frames: readonly number[], tracks: ClipTracks): boolean {
  const known = frames.filter((frame) => Number.isFinite(values[frame]));
  if (frames.length === 0 || known.length < COVERAGE * frames.length - EPSILON) return false;
  const edges = [frames[0], ...known, frames.at(-1)];
  return edges.every((frame, i) => {
    const before = edges[i - 1];
    if (frame === undefined || before === undefined) return i === 0;
    return (tracks.seconds[frame] ?? NaN) - (tracks.seconds[before] ?? NaN) <= (LARGEST_GAP + EPSILON) * tracks.periodSeconds;
  });
}

/** Number of frames that a run of this many seconds has at least: never fewer than two. */
function framesOfRun(seconds: number, periodSeconds: number): number {
  return Math.max(2, Math.ceil(seconds / periodSeconds - 1e-3));
}

/**
 * The first frame of the first run, of at least some seconds, of frames that hold. Frames on which it is not known
 * (null) are passed over.
 */
export function firstRun(frames: readonly number[], holds: (frame: number) => boolean | null, seconds: number, periodSeconds: number): number | null {
  const least = framesOfRun(seconds, periodSeconds);
  let run: number[] = [];
  for (const frame of frames) {
    const here = holds(frame);
    if (here === null) continue;
    if (!here) run = [];
    else run.push(frame);
    if (run.length >= least) return run[0] ?? null;
  }
  return null;
}

/** A height seen as down or up with memory: down once within `limit`, up again only above 1.5 times it; null = not known. */
export function downWithHysteresis(frames: readonly number[], height: (frame: number) => number, limit: number): ReadonlyMap<number, boolean> {
  const states = new Map<number, boolean>();
  let isDown = false;
  for (const frame of frames) {
    const above = height(frame);
    if (!Number.isFinite(above)) continue;
    isDown = above <= (isDown ? 1.5 * limit : limit);
    states.set(frame, isDown);
  }
  return states;
}

/**
 * When values pass a level between a frame and the known frame before it, in seconds; the frame's own time where the
 * frame before does not lie on the other side. An event is a time between frames.
 */
export function passingSeconds(values: Float64Array, frame: number, level: number, tracks: ClipTracks): number {
  const here = tracks.seconds[frame] ?? NaN;
  let before = frame - 1;
  while (before >= 0 && !Number.isFinite(values[before])) before--;
  const [a, b] = [(values[before] ?? NaN) - level, (values[frame] ?? NaN) - level];
  const from = tracks.seconds[before] ?? NaN;
  if (!(a * b < 0) || here - from > (LARGEST_GAP + EPSILON) * tracks.periodSeconds) return here;
  return from + ((here - from) * a) / (a - b);
}

/** Slope of values around a frame, per second: over about 0.02 s to either side, at least one frame. */
export function slopeAround(values: Float64Array, frame: number, tracks: ClipTracks): number {
  const reach = Math.max(1, Math.round(0.02 / tracks.periodSeconds));
  let [first, last] = [frame, frame];
  for (let i = 1; i <= reach; i++) {
    if (Number.isFinite(values[frame - i])) first = frame - i;
    if (Number.isFinite(values[frame + i])) last = frame + i;
  }
  if (first === last) return NaN;
  return ((values[last] ?? NaN) - (values[first] ?? NaN)) / ((tracks.seconds[last] ?? NaN) - (tracks.seconds[first] ?? NaN));
}

/** Root of P^2/12 and of the squares of the parts, at least and at most; parts that cannot be told count as the most. */
export function eventSd(periodSeconds: number, parts: readonly number[], least: number, most: number): number {
  const sd = Math.hypot(periodSeconds / Math.sqrt(12), ...parts);
  return Number.isFinite(sd) ? Math.min(most, Math.max(least, sd)) : most;
}

/**
 * SD of the time between passing a limit above the ground and touching it: a foot that brakes evenly to rest needs
 * twice the height over its speed there, and one that does not brake half of that or less; taken as even between 0 and
 * that, about 0. (The library's rule leaves it out; drawn swings land 15 to 25 ms after the limit.)
 */
export function landingSd(limit: number, fallSpeed: number): number {
  return (2 * limit) / fallSpeed / Math.sqrt(3);
}
