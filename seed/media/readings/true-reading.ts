import type { BodyScales } from "./body-scales";
import type { SeenSwing } from "./seen-swing";

/** What a checkpoint is worth when nothing is uncertain, in its own unit. */
export interface TrueReading {
  /** Null when the checkpoint's own rule says that there is none. */
  readonly value: number | null;
  /** The value is the limit beyond which only "that or more" is known. */
  readonly isCensored: boolean;
  readonly say?: string;
}

/** How one checkpoint is read off a swing seen without doubt. */
export type TruthOf = (swing: SeenSwing, scales: BodyScales) => TrueReading;

/** A plain value. */
export const reads = (value: number): TrueReading => ({ value, isCensored: false });
/** Only "that or more". */
export const atLimit = (value: number): TrueReading => ({ value, isCensored: true });
/** No reading, and why. */
export const none = (say: string): TrueReading => ({ value: null, isCensored: false, say });

/** Radians and degrees. */
export const cosineOf = (degrees: number): number => Math.cos((degrees * Math.PI) / 180);
export const sineOf = (degrees: number): number => Math.sin((degrees * Math.PI) / 180);
