import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { EventId, View } from "@/lib/measure/clip-input";
import { findFormula } from "@/lib/measure/formula-registry";
import type { Moment } from "@/lib/measure/formula";
import { BY_HAND_ONLY, mixesOf, type PlaceId, type PointId } from "@/lib/measure/points";
import { isWeakSuggestion } from "./weak-suggestions";

/** What is known of a clip when frames are chosen. */
export interface ClipToLookAt {
  readonly view: View;
  /** Real seconds from contact of each frame, increasing. */
  readonly seconds: readonly number[];
  /** The clip's median interval between frames in real seconds. */
  readonly periodSeconds: number;
  /** The events that are known, in real seconds from contact. */
  readonly events: Readonly<Partial<Record<EventId, number>>>;
}

/** The frames to look at, and those of them without which a reading could not be taken. */
export interface FramesToLookAt {
  readonly frames: readonly number[];
  readonly needed: readonly number[];
}

/** At most so many frames of a clip: some ten seconds of work. */
export const MOST_FRAMES = 96;
/**
 * Where a swing happens, as long as nobody has marked more than contact, in seconds from it: closely from before the landing to the extension, so that
 * events can be found, and loosely before that, down to the stance.
 */
const CLOSE = { from: -0.3, to: 0.12, apart: 1 / 60 } as const;
const LOOSE = { from: -1.1, to: -0.3, apart: 1 / 10 } as const;
/** The frames before stance from which lengths are taken. */
const STANCE_SECONDS = 0.25;
const STANCE_APART = 0.06;

/** So many frames are kept for the stretch around contact, whatever the checkpoints want. */
const KEPT_FOR_STRETCH = 24;

/**
 * Chooses the frames on which suggested points would serve: those of the moments at which the wanted checkpoints read; then their stretches, the
 * shortest first and each whole, since a stretch with holes cannot be read; then, thinned evenly, a stretch of its own around contact.
 */
export function framesToLookAt(clip: ClipToLookAt, wanted: readonly CheckpointDefinition[]): FramesToLookAt {
  const needed = new Set<number>();
  const useful = new Set<number>();
  const stretches: ReadonlySet<number>[] = [];
  const own = wanted.filter(({ scope, views }) => scope === "clip" && views.measured.includes(clip.view));
  for (const event of Object.keys(clip.events) as EventId[]) if (event !== "release") around(clip, clip.events[event], needed);
  for (const definition of own) {
    const formula = findFormula(definition.formulaId, definition.formulaVersion);
    if (!formula) continue;
    for (const [, moment] of Object.values(formula.reads)) around(clip, secondsOf(moment, clip.events), needed);
    const asked = formula.events ?? definition.events;
    if (!formula.window || !asked.every((event) => clip.events[event] !== undefined)) continue;
    if (!Object.values(formula.window.tracks).every((place) => isSuggested(place, clip.view))) continue;
    const at = clip.events as Readonly<Record<EventId, number>>;
    const stretch = new Set<number>();
    within(clip, formula.window.from(at, clip.periodSeconds), formula.window.to(at, clip.periodSeconds), 0, stretch);
    stretches.push(stretch);
  }
  const { stance } = clip.events;
  if (stance !== undefined) within(clip, stance - STANCE_SECONDS, stance, STANCE_APART, needed);
  within(clip, CLOSE.from, CLOSE.to, CLOSE.apart, useful);
  within(clip, LOOSE.from, LOOSE.to, LOOSE.apart, useful);
  const first = thinned([...needed].sort((a, b) => a - b), MOST_FRAMES);
  const chosen = new Set(first);
  for (const stretch of stretches.sort((a, b) => a.size - b.size)) {
    const more = [...stretch].filter((frame) => !chosen.has(frame));
    if (chosen.size + more.length <= MOST_FRAMES - KEPT_FOR_STRETCH) for (const frame of more) chosen.add(frame);
  }
  const others = [...useful].filter((frame) => !chosen.has(frame)).sort((a, b) => a - b);
  for (const frame of thinned(others, MOST_FRAMES - chosen.size)) chosen.add(frame);
  return { frames: [...chosen].sort((a, b) => a - b), needed: first };
}

/** Whether suggestions can give a place: no bat point, and none that is too weak to be read. */
function isSuggested(place: PlaceId, view: View): boolean {
  return mixesOf(place).some((mix) => (Object.keys(mix) as PointId[]).every((point) => !BY_HAND_ONLY.includes(point) && !isWeakSuggestion(point, view)));
}

/** Time of a moment; undefined while one of its events is not known. */
function secondsOf(moment: Moment, events: ClipToLookAt["events"]): number | undefined {
  if (typeof moment === "string") return events[moment];
  let sum = 0;
  for (const [event, weight] of Object.entries(moment) as [EventId, number][]) {
    const seconds = events[event];
    if (seconds === undefined) return undefined;
    sum += weight * seconds;
  }
  return sum;
}

/** The frames beside an instant; of contact the three before it, from which a value there is taken. */
function around({ seconds, periodSeconds }: ClipToLookAt, instant: number | undefined, frames: Set<number>): void {
  if (instant === undefined) return;
  const isContact = Math.abs(instant) < periodSeconds / 2;
  const [from, to] = isContact ? [-2.1 * periodSeconds, 0.1 * periodSeconds] : [instant - 1.01 * periodSeconds, instant + 1.01 * periodSeconds];
  for (const [frame, time] of seconds.entries()) if (time >= from && time <= to) frames.add(frame);
}

/** Frames of a stretch, no nearer to each other than said (a tenth of an interval is forgiven). */
function within({ seconds, periodSeconds }: ClipToLookAt, from: number, to: number, apart: number, frames: Set<number>): void {
  let last = -Infinity;
  for (const [frame, time] of seconds.entries()) {
    if (time < from - 1e-9 || time > to + 1e-9 || time - last < apart - periodSeconds / 10) continue;
    frames.add(frame);
    last = time;
  }
}

/** So many of a list at most, evenly, the first and the last among them. */
export function thinned(list: readonly number[], most: number): readonly number[] {
  if (list.length <= most) return list;
  if (most <= 0) return [];
  if (most === 1) return list.slice(0, 1);
  return Array.from({ length: most }, (_, i) => list[Math.round((i * (list.length - 1)) / (most - 1))] ?? 0);
}
