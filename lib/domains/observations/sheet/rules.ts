import type { SheetEvent } from "@/lib/domains/clips/stills/view";
import type { Reading } from "@/lib/measure/reading";
import { likeForLike, type SwingTaken, type TakenFact } from "@/lib/measure/several/like-for-like";
import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { seenCount, type HabitRule } from "@/lib/measure/several/seen-count";
import { countCalls, type Call } from "../rules";
import type { CountsByEvent, SheetCount, SheetRow } from "./view";

const COLUMN_OF_PHASE: Readonly<Record<string, SheetEvent>> = {
  stance: "load", load: "load", stride: "toe", "foot-plant": "plant", launch: "launch", contact: "contact", extension: "extension", "follow-through": "finish",
};

/** The event under which a phase of the library stands; contact for one that is not known. */
export function columnOfPhase(phase: string): SheetEvent {
  return COLUMN_OF_PHASE[phase] ?? "contact";
}

/** In what another swing was taken otherwise than this one, in words; none when the two may be compared. */
export function unlikeWords(theirs: SwingTaken, ours: SwingTaken, same: readonly TakenFact[]): readonly string[] {
  return likeForLike(theirs, ours, same).unlike.map((it) => (it.fact === "playerId" ? it.theirs : `${it.theirs}, this one ${it.ours}`));
}

/** Something of the library with the phase in which it happens. */
export interface NamedPhase {
  readonly id: string;
  readonly name: string;
  readonly phase: string;
}

/** Whether a row's picture and the lines on it are turned: a mirror image is turned back, a model that bats from the other side turned round, and of both nothing is left to turn. */
export function isTurned({ picture, model }: Pick<SheetRow, "model"> & { readonly picture: Pick<SheetRow["picture"], "isMirrored"> }): boolean {
  return picture.isMirrored !== (model?.isShownMirrored ?? false);
}

/** What coaches called in the swings, most often seen first. What is called in none of them has no line. */
export function calledCounts(swings: readonly { readonly id: string }[], calls: readonly Call[], faults: readonly NamedPhase[], habit: HabitRule): CountsByEvent {
  const counts = countCalls(swings, calls);
  return byEvent(faults, ({ id, name }) => {
    const own = counts.get(id);
    if (!own) return null;
    const { seen, judged, notVisible } = own;
    return { id, name, seen, judged, notVisible, notLooked: swings.length - judged - notVisible, isHabit: seen >= habit.seenAtLeast };
  });
}

/** A kept reading as far as counting goes. */
export interface CountedReading {
  readonly swingId: string;
  readonly checkpointId: string;
  readonly body: Pick<Reading, "value" | "sd" | "verdict" | "isGrey" | "deviation">;
}

/** In how many of the swings a checkpoint is one to talk about; one without a line is to talk about in none. */
export function readCounts(swings: readonly { readonly id: string }[], readings: readonly CountedReading[], checkpoints: readonly NamedPhase[], habit: HabitRule): CountsByEvent {
  return byEvent(checkpoints, ({ id, name }) => {
    const own = readings.filter(({ checkpointId }) => checkpointId === id);
    const newestFirst = swings.map((swing) => repeated(swing.id, own.filter(({ swingId }) => swingId === swing.id)));
    const { seen, judged, isHabit } = seenCount(newestFirst, { ...habit, ofLast: Math.max(habit.ofLast, swings.length) });
    return seen > 0 ? { id, name, seen, judged, notVisible: swings.length - judged, notLooked: 0, isHabit } : null;
  });
}

/** Of several readings of one swing the one that has a verdict; without any the swing does not show it. */
function repeated(swingId: string, readings: readonly CountedReading[]): RepeatedReading {
  const best = readings.find(({ body }) => !body.isGrey && body.verdict !== null)?.body ?? readings[0]?.body;
  const { value, sd, verdict, isGrey, deviation } = best ?? { value: null, sd: null, verdict: null, isGrey: true, deviation: null };
  return { swingId, day: "", value, sd, sdCamera: 0, setUp: null, isCameraKnown: false, verdict, deviation, isGrey };
}

function byEvent(things: readonly NamedPhase[], count: (thing: NamedPhase) => SheetCount | null): CountsByEvent {
  const found: Partial<Record<SheetEvent, SheetCount[]>> = {};
  for (const thing of things) {
    const one = count(thing);
    if (one) (found[columnOfPhase(thing.phase)] ??= []).push(one);
  }
  for (const list of Object.values(found)) list.sort((a, b) => b.seen - a.seen || b.judged - a.judged || (a.name < b.name ? -1 : 1));
  return found;
}

/** Which of a day's swings one is, the first one first. @param newestFirst swings of one player and side, the newest first */
export function placeInDay(swing: { readonly id: string; readonly day: string }, newestFirst: readonly { readonly id: string; readonly day: string }[]): { readonly of: number; readonly number: number } {
  const ofDay = newestFirst.filter(({ day }) => day === swing.day);
  const at = ofDay.findIndex(({ id }) => id === swing.id);
  return { of: Math.max(1, ofDay.length), number: at < 0 ? 1 : ofDay.length - at };
}
