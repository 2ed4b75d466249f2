import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { TrueReading } from "@/seed/media/readings/true-reading";
import type { HeldReading } from "./held-readings";

/** How well a checkpoint's stated doubt holds. Coverage is a share; bias in SDs; the SD in the checkpoint's unit. */
export interface Coverage {
  readonly id: string;
  readonly cases: number;
  /** Share of 95 % intervals, without the camera's part, that hold what is true in the camera's own picture. */
  readonly coverage: number;
  /** With the camera's part, what a camera on the line would see. */
  readonly coverageOfSquare: number;
  readonly biasInSd: number;
  readonly medianSd: number;
  /** Share of readings whose doubt comes from the points more than from scale and time, and the coverage of those. */
  readonly pointNoiseShare: number;
  readonly coverageOfPointNoise: number;
}

const Z95 = 1.96;

/** Sums readings up by checkpoint, in the order of the definitions. */
export function coverageByCheckpoint(readings: readonly HeldReading[], definitions: readonly CheckpointDefinition[]): readonly Coverage[] {
  return definitions.map((definition) => {
    const own = readings.filter(({ id }) => id === definition.id);
    const noisy = own.filter(({ isPointNoise }) => isPointNoise);
    const measured = own.filter((one): one is HeldReading & { sd: number } => one.sd !== null && !one.isCensored && !one.truth.isCensored);
    const sds = measured.map(({ sd }) => sd).sort((a, b) => a - b);
    const medianSd = sds[sds.length >> 1] ?? NaN;
    // A reading at its limit counts in the bias as the limit: without those only the low half of the noise would be left.
    const limited = own.filter((one) => one.isCensored && !one.truth.isCensored).map(({ value, truth }) => (value - (truth.value ?? NaN)) / medianSd);
    const holding = (list: readonly HeldReading[]) => mean(list.map((one) => (holds(one, one.truth, 0, definition) ? 1 : 0)));
    return {
      id: definition.id,
      cases: own.length,
      coverage: holding(own),
      coverageOfSquare: mean(own.map((one) => (holds(one, one.squareTruth, one.sdCamera, definition) ? 1 : 0))),
      biasInSd: mean([...measured.map(({ value, sd, truth }) => (value - (truth.value ?? NaN)) / sd), ...limited]),
      medianSd,
      pointNoiseShare: noisy.length / own.length,
      coverageOfPointNoise: holding(noisy),
    };
  });
}

/**
 * Whether a reading's 95 % interval holds a truth. Value ± 1.96 SD; where quantiles are given, about their middle with each
 * side's own width. "That or more" is right when the truth is there or beyond; a value is right about such a truth when its
 * interval reaches the limit.
 */
export function holds({ value, sd, quantiles, isCensored }: HeldReading, truth: TrueReading, sdCamera: number, { censor }: Pick<CheckpointDefinition, "censor">): boolean {
  const trueValue = truth.value ?? NaN;
  const isUpward = censor?.above !== undefined;
  if (isCensored || sd === null) return truth.isCensored || (isUpward ? trueValue >= value : trueValue <= value);
  const [middle, below, above] = quantiles ? [quantiles.p50, quantiles.p50 - quantiles.p16, quantiles.p84 - quantiles.p50] : [value, sd, sd];
  const [low, high] = [middle - Z95 * Math.hypot(below, sdCamera), middle + Z95 * Math.hypot(above, sdCamera)];
  if (truth.isCensored) return isUpward ? high >= trueValue : low <= trueValue;
  return trueValue >= low && trueValue <= high;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
