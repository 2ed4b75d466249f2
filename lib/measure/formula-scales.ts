import type { LengthId } from "@/lib/measure/body-lengths";
import type { EventId } from "@/lib/measure/clip-input";

/** What a formula is given beside its places: lengths in pixels, event times in seconds from contact, resting heights. */
export interface FormulaScales {
  readonly length: Readonly<Record<LengthId, number>>;
  readonly seconds: Readonly<Record<EventId, number>>;
  readonly resting: Readonly<Record<string, number>>;
}
