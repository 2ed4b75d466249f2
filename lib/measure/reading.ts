import type { Band } from "@/lib/measure/checkpoint-definition";
import type { EventId } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import type { TrustReason } from "@/lib/measure/trust-reasons";

/** A frame from which a reading took points, so that a page can show the still. */
export interface UsedFrame {
  readonly frameIndex: number;
  /** The event whose value the frame gave, or `window`: the frame of a window that decided it. */
  readonly at: EventId | "window";
  readonly points: readonly PointId[];
}

/** Everything a reading was made of. */
export interface InputsUsed {
  readonly frames: readonly UsedFrame[];
  readonly points: readonly PointId[];
  readonly events: readonly EventId[];
  /** Frames that gave the body scale, when one was used. */
  readonly scaleFrameIndexes: readonly number[];
}

/** Where the doubt comes from, each as a standard deviation in the reading's unit. */
export interface DoubtParts {
  readonly points: number;
  readonly scale: number;
  /** Event times times the slope of the value; `null` when too few frames around an event are placed to know it. */
  readonly time: number | null;
}

export interface Quantiles {
  readonly p16: number;
  readonly p50: number;
  readonly p84: number;
}

/** Chance that the true value lies inside `ok`, beyond the low `act` limit, beyond the high one. */
export interface BandChances {
  readonly fine: number;
  readonly low: number;
  readonly high: number;
}

export type Verdict = "fine" | "watch" | "talk-about" | "cannot-tell";
export type DeviationSize = "small" | "clear" | "large";

/** A further value shown with a reading. `value` and `word` are both null when it cannot be told; see `reasons`. */
export interface NamedReading {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly value: number | null;
  readonly sd: number | null;
  readonly word: string | null;
  /** Whether it keeps its own limit; null when it has none, is grey or cannot be told. */
  readonly isInsideLimit: boolean | null;
  readonly reasons: readonly TrustReason[];
}

/** What one checkpoint reads on one clip (or, made of event times, on one swing). Derived, never edited. */
export interface Reading {
  readonly checkpointId: string;
  readonly formulaId: string;
  readonly formulaVersion: number;
  readonly unit: string;
  /** `null` = unknown, never fine; `reasons` says why. */
  readonly value: number | null;
  /** Standard deviation in the unit, without the camera's part; null where only "that or more" is known. */
  readonly sd: number | null;
  /** The value is a limit beyond which only "that or more" is known, in these words; null = it is a value. */
  readonly censoredWords: string | null;
  /** Said instead of the number, where a number would say more than is known. */
  readonly word?: string | null;
  readonly doubt: DoubtParts | null;
  /** What the known angle of the camera adds, kept apart: two sets from one set-up share it. 0 when square or unknown. */
  readonly sdCamera: number;
  /** Only where the distribution is not normal. */
  readonly quantiles: Quantiles | null;
  /** `null` without a band and for grey readings: those are no evidence. The camera's part is included. */
  readonly probabilities: BandChances | null;
  readonly verdict: Verdict | null;
  /** How far beyond the `ok` band, in words; `null` inside it or under one SD. */
  readonly size: DeviationSize | null;
  /** On which side of the `ok` band the value lies; `null` inside it. */
  readonly deviation: "low" | "high" | null;
  readonly named: readonly NamedReading[];
  readonly reasons: readonly TrustReason[];
  readonly isGrey: boolean;
  /** The band in force for this swing (age), or null. */
  readonly band: Band | null;
  readonly inputsUsed: InputsUsed;
}
