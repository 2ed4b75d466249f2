import type { View } from "../spec";
import { ACROSS_INSTANTS } from "./at-instants-across";
import { SIDE_INSTANTS } from "./at-instants-side";
import { bodyScales, type BodyScales } from "./body-scales";
import { PATHS } from "./filtered-paths";
import { CROSSINGS } from "./of-crossings";
import { TIME_READINGS } from "./of-times";
import { WINDOW_EXTREMES } from "./over-windows";
import type { SeenSwing } from "./seen-swing";
import type { TrueReading, TruthOf } from "./true-reading";

const TRUTHS: Readonly<Record<string, TruthOf>> = {
  ...SIDE_INSTANTS, ...ACROSS_INSTANTS, ...TIME_READINGS, ...WINDOW_EXTREMES, ...CROSSINGS, ...PATHS,
};

/** Ids of all checkpoints that have a true reading. */
export const TRUTH_IDS: readonly string[] = Object.keys(TRUTHS);

/** True readings of one swing in one camera's picture, each worked out when it is asked for, once. */
export class TrueReadingsOf {
  private readonly scales: BodyScales;
  private readonly known = new Map<string, TrueReading>();

  constructor(private readonly swing: SeenSwing) {
    this.scales = bodyScales(swing);
  }

  get view(): View {
    return this.swing.view;
  }

  /** @throws RangeError for a checkpoint that has no true reading here; the caller asks only for measured views */
  of(checkpointId: string): TrueReading {
    const known = this.known.get(checkpointId);
    if (known) return known;
    const truth = Object.hasOwn(TRUTHS, checkpointId) ? TRUTHS[checkpointId] : undefined;
    if (!truth) throw new RangeError(`no true reading of ${checkpointId}`);
    const reading = truth(this.swing, this.scales);
    this.known.set(checkpointId, reading);
    return reading;
  }
}
