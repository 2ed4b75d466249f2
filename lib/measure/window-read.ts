import type { EventId } from "@/lib/measure/clip-input";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { PlaceId } from "@/lib/measure/points";

/** When a window begins or ends, in seconds from contact, from the times of events and the interval between frames. */
export type WindowBound = (seconds: Readonly<Record<EventId, number>>, framePeriodSeconds: number) => number;

/** What a formula reads on every frame of a stretch of time. Source: conventions `time.windows`. */
export interface WindowRead<W extends string = string> {
  /** Frames with from <= time <= to; both events must stand among the expression's `events`. */
  readonly from: WindowBound;
  readonly to: WindowBound;
  /** Exactly so many frames, nearest the window's middle, or nearest its end when it ends at contact. */
  readonly frames?: number;
  readonly tracks: Readonly<Record<W, PlaceId>>;
  /** The axes that the formula looks at; left out = both. */
  readonly axes?: "h" | "v";
  /** How far to either side of a frame its curve is smoothed, seconds, where it changes slowly enough; left out = the least. */
  readonly smoothSeconds?: number;
  /** Cut-off in Hz of the two-pass filter on its tracks, up to contact; left out = raw points. */
  readonly filterHz?: number;
  /** A frame on which the formula cannot be used counts as one without its points. */
  readonly isUsable?: (window: WindowView<W>, sample: number, scales: FormulaScales) => boolean;
}

/** A place on every sample of a window: swing coordinates in pixels, NaN where it is not placed. */
export interface WindowTrack {
  readonly h: Float64Array;
  readonly v: Float64Array;
}

/** What a formula is given of its window. A sample is a frame, or a step of the filter's even grid. */
export interface WindowView<W extends string = string> {
  /** Seconds from contact of every sample at hand; some lie outside the window. */
  readonly seconds: Float64Array;
  /** First and last sample inside the window; last < first when there is none. */
  readonly first: number;
  readonly last: number;
  /** The window's bounds in seconds from contact. */
  readonly from: number;
  readonly to: number;
  readonly framePeriodSeconds: number;
  readonly at: Readonly<Record<W, WindowTrack>>;
  /** Which sample decided the value, for the still beside the reading; a formula may set it. */
  decidedBy: number;
}
