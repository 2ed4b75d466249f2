import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { PlaceId, PointId } from "@/lib/measure/points";
import type { SwingPosition } from "@/lib/measure/swing-coordinates";
import type { WindowRead, WindowView } from "@/lib/measure/window-read";

/** An event, or a moment between events: weights of their times, which add up to 1. */
export type Moment = EventId | Readonly<Partial<Record<EventId, number>>>;

/** A place at a moment: what a formula reads. */
export type PlaceAtMoment = readonly [PlaceId, Moment];

/** The median over the stance frames of v(first) - v(second), pixels. */
export type RestingHeight = readonly [PointId, PointId];

/**
 * One value computed from places. Swing coordinates in pixels; a value that cannot be computed is NaN, one beyond the
 * limit of a checkpoint that is censored there is infinite.
 */
export interface Expression<K extends string = string, W extends string = string> {
  readonly reads: Readonly<Record<K, PlaceAtMoment>>;
  readonly window?: WindowRead<W>;
  readonly lengths?: readonly LengthId[];
  readonly events?: readonly EventId[];
  readonly resting?: Readonly<Record<string, RestingHeight>>;
  /** Limits at which the value folds back (angles); a camera's part may not pass them. */
  readonly foldsAt?: readonly [number, number];
  /** It compares lengths of two frames, so that a zoom changes it although no body length divides it. */
  readonly comparesFrames?: boolean;
  /** The value is when something is largest: noise chooses among peaks, which no correction mends. */
  readonly isTimeOfLargest?: boolean;
  readonly value: (places: Readonly<Record<K, SwingPosition>>, scales: FormulaScales, window: WindowView<W>) => number;
  /** The library's own symbols of this checkpoint that its rules ask for: a number, or one number for each sample. */
  readonly symbols?: (scales: FormulaScales, window: WindowView<W>) => Readonly<Record<string, number | Float64Array>>;
}

/** A further value of a formula: a number, or a word made from the main reading. */
export type NamedExpression = Expression & {
  /** A word instead of the number. `main` is the checkpoint's own reading of the same clip. */
  readonly word?: (value: number, main: { readonly value: number; readonly sd: number }) => string | null;
  /** What it needs and no record holds yet, as a sentence: it is unknown for this reason. */
  readonly lacks?: string;
};

/** The code of one checkpoint. A changed formula gets a new version; old readings keep theirs. */
export interface Formula extends Expression {
  readonly id: string;
  readonly version: number;
  /** What one degree of camera off its line adds, in the reading's unit, as an SD. The file says where it comes from. */
  readonly cameraSdPerDeg: number;
  readonly named: Readonly<Record<string, NamedExpression>>;
}

/** Keeps the names of a formula's places and tracks checked against what its `value` reads. */
export function expression<const K extends string = never, const W extends string = never>(parts: Expression<K, W>): Expression {
  return parts as unknown as Expression;
}

/** Declares a formula. @throws RangeError when its numbers cannot be */
export function defineFormula<const K extends string = never, const W extends string = never>(
  parts: Expression<K, W> & Pick<Formula, "id" | "version" | "cameraSdPerDeg"> & { readonly named?: Formula["named"] },
): Formula {
  if (!(parts.cameraSdPerDeg >= 0)) throw new RangeError(`${parts.id}: cameraSdPerDeg must be 0 or more`);
  if (!(Number.isInteger(parts.version) && parts.version > 0)) throw new RangeError(`${parts.id}: version must be a whole number above 0`);
  return { named: {}, ...(parts as unknown as Omit<Formula, "named">) } as Formula;
}
