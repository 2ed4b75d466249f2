import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";
import type { PlaceId, PointId } from "@/lib/measure/points";
import type { SwingPosition } from "@/lib/measure/swing-coordinates";

/** A place at an event: what a formula reads. */
export type PlaceAtEvent = readonly [PlaceId, EventId];

/** The median over the stance frames of v(first) - v(second), pixels. */
export type RestingHeight = readonly [PointId, PointId];

/** What a formula is given beside its places: lengths in pixels, event times in seconds from contact, resting heights. */
export interface FormulaScales {
  readonly length: Readonly<Record<LengthId, number>>;
  readonly seconds: Readonly<Record<EventId, number>>;
  readonly resting: Readonly<Record<string, number>>;
}

/** One value computed from places. Swing coordinates in pixels; a value that cannot be computed is NaN. */
export interface Expression<K extends string = string> {
  readonly reads: Readonly<Record<K, PlaceAtEvent>>;
  readonly lengths?: readonly LengthId[];
  readonly events?: readonly EventId[];
  readonly resting?: Readonly<Record<string, RestingHeight>>;
  /** It compares lengths of two frames, so that a zoom changes it although no body length divides it. */
  readonly comparesFrames?: boolean;
  readonly value: (places: Readonly<Record<K, SwingPosition>>, scales: FormulaScales) => number;
}

/** A further value of a formula: a number, or a word made from the main reading. */
export type NamedExpression = Expression & {
  /** A word instead of the number. `main` is the checkpoint's own reading of the same clip. */
  readonly word?: (value: number, main: { readonly value: number; readonly sd: number }) => string | null;
};

/** The code of one checkpoint. A changed formula gets a new version; old readings keep theirs. */
export interface Formula extends Expression {
  readonly id: string;
  readonly version: number;
  /** Limits at which the value folds back (angles); a camera's part may not pass them. */
  readonly foldsAt?: readonly [number, number];
  /** What one degree of camera off its line adds, in the reading's unit, as an SD. The file says where it comes from. */
  readonly cameraSdPerDeg: number;
  readonly named: Readonly<Record<string, NamedExpression>>;
}

/** Keeps the names of a formula's places checked against what its `value` reads. */
export function expression<const K extends string>(parts: Expression<K>): Expression {
  return parts as unknown as Expression;
}

/** Declares a formula. @throws RangeError when its numbers cannot be */
export function defineFormula<const K extends string>(
  parts: Expression<K> & Pick<Formula, "id" | "version" | "foldsAt" | "cameraSdPerDeg"> & { readonly named?: Formula["named"] },
): Formula {
  if (!(parts.cameraSdPerDeg >= 0)) throw new RangeError(`${parts.id}: cameraSdPerDeg must be 0 or more`);
  if (!(Number.isInteger(parts.version) && parts.version > 0)) throw new RangeError(`${parts.id}: version must be a whole number above 0`);
  return { named: {}, ...(parts as unknown as Omit<Formula, "named">) } as Formula;
}
