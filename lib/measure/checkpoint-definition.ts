import type { EventId, View } from "@/lib/measure/clip-input";

/** Limits low and high; `null` = no limit on that side. */
export type Limits = readonly [number | null, number | null];

/** Inside `ok` leave alone, between `ok` and `act` watch, beyond `act` talk about it. */
export interface Band {
  readonly ok: Limits;
  readonly act: Limits;
}

/** How value, SD and verdict are formed. */
export type EstimateShape = "plain" | "folded" | "extreme" | "crossing" | "time";

/** Beyond the limit only "that or more" is known. */
export interface CensorLimit {
  readonly above?: number;
  readonly below?: number;
  readonly say: string;
  /** "inside ok with probability 1" or "beyond act with probability 1". */
  readonly verdict: string;
}

/** Limits that depend on the ball's flight: limit = 1 - seconds / flight. */
export interface FlightBand {
  readonly okSeconds: readonly [number, number];
  readonly actSeconds: readonly [number, number];
}

/** A word said instead of the number: below or above a limit (a number, "ok low" or "ok high"), or inside the ok band. */
export interface ValueWord {
  readonly below?: number | string;
  readonly above?: number | string;
  readonly inside?: string;
  readonly say: string;
}

/** One rule under which a checkpoint gives no reading; its grammar is in null-rule.ts. */
export interface NullRule {
  readonly left?: string | number;
  readonly op?: string;
  readonly right?: string | number;
  readonly over?: string;
  readonly fact?: string;
  readonly is?: readonly string[];
  readonly checkpoint?: string;
  readonly say: string;
}

/** A further value shown with a reading. */
export interface NamedDefinition {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly okMin?: number;
  readonly okMax?: number;
  readonly events?: readonly EventId[];
  readonly stillCamera?: boolean;
}

/** A checkpoint of the library, in the library's own shape; only the fields that measuring uses. */
export interface CheckpointDefinition {
  readonly id: string;
  readonly name: string;
  /** `clip`: one reading per clip in a measured view. `swing`: made of event times, one reading per swing. */
  readonly scope: "clip" | "swing";
  readonly views: { readonly measured: readonly View[] };
  readonly formulaId: string;
  readonly formulaVersion: number;
  readonly events: readonly EventId[];
  /** Frames with from <= time <= to, as expressions of null-rule-expression.ts; null = taken at instants. */
  readonly window?: { readonly from: string; readonly to: string; readonly frames?: number } | null;
  readonly stillCamera: boolean;
  readonly estimate: EstimateShape;
  readonly censor?: CensorLimit;
  readonly unit: string;
  readonly band: Band | null;
  readonly bandYouth?: Band;
  /** Takes the place of the band, whose numbers hold for one flight only. */
  readonly bandOfFlight?: FlightBand;
  readonly words?: readonly ValueWord[];
  readonly ownBaselineOnly?: boolean;
  readonly named: readonly NamedDefinition[];
  readonly nullWhen: readonly NullRule[];
  readonly minFps: number;
  readonly maxCameraOffDeg: number | null;
}
