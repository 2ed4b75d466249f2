import { normalShareBelow } from "./normal-share";

/** The numbers of the reading rule, as the library's `evidence` holds them. All judgement. */
export interface ReadingEvidenceRules {
  /** Per word of a checkpoint's reliability, 0–1. */
  readonly reliability: Readonly<Record<string, number>>;
  readonly sensitivity: { readonly base: number; readonly slope: number };
  readonly falsePositive: { readonly base: number; readonly slope: number };
  /** Least and largest product for one fault. */
  readonly clamp: readonly number[];
}

/** How a fault's record speaks of a checkpoint; thresholds in the checkpoint's unit. */
export interface CheckpointLink {
  readonly checkpoint: string;
  /** ">" or "<": on which side of the threshold the fault lies. */
  readonly op: string;
  readonly value: number;
  /** 0–1. */
  readonly weight: number;
  /** For players under 13. */
  readonly valueYouth?: number;
  /** The threshold is 1 − seconds / flight time. */
  readonly valueOfFlight?: { readonly seconds: number };
}

/**
 * A reading that has a verdict: not null, not grey, its checkpoint not off for this swing. Of several swings the median.
 */
export interface SpeakingReading {
  readonly checkpoint: string;
  /** In the checkpoint's unit. */
  readonly value: number;
  /** Standard deviation of all its doubt, camera included, same unit; 0 or above. */
  readonly sd: number;
  /** The checkpoint's reliability in this view. */
  readonly reliability: string;
}

/** Of the player and the pitch. */
export interface ReadingContext {
  /** Under 13 years. */
  readonly isYouth: boolean;
  /** From release to contact; null when unknown: links that need it then say nothing. */
  readonly flightSeconds: number | null;
}

/** What the readings say of one fault. */
export interface FaultReadings {
  /** Product of the ratios, held within the limits: P(readings | fault) / P(readings | no fault). */
  readonly ratio: number;
  readonly parts: readonly {
    readonly checkpoint: string;
    readonly ratio: number;
    /** P(true reading past the threshold | reading, sd). */
    readonly pastThreshold: number;
    readonly threshold: number;
  }[];
}

/**
 * Likelihood ratio of a fault from its readings: d = weight·reliability; sens = 0.35 + 0.55 d; fpr = 0.35 − 0.28 d;
 * p = P(past the threshold); LR = (p·sens + (1 − p)(1 − sens)) / (p·fpr + (1 − p)(1 − fpr)); product over the readings.
 * @returns null when no reading speaks of the fault
 * @throws RangeError for an unknown side or reliability, a weight outside 0–1, a negative or missing sd, two readings of
 *   one checkpoint
 */
export function readingRatio(links: readonly CheckpointLink[], readings: readonly SpeakingReading[], rules: ReadingEvidenceRules, context: ReadingContext): FaultReadings | null {
  const byCheckpoint = new Map(readings.map((reading) => [reading.checkpoint, reading]));
  if (byCheckpoint.size < readings.length) throw new RangeError("each checkpoint speaks once: give the median of several swings");
  const parts = links
    .flatMap((link) => {
      const reading = byCheckpoint.get(link.checkpoint);
      const threshold = thresholdOf(link, context);
      return reading && threshold !== null ? [speak(link, reading, threshold, rules)] : [];
    })
    .sort((a, b) => (a.checkpoint < b.checkpoint ? -1 : 1));
  if (parts.length === 0) return null;
  const [least = 0, most = Infinity] = rules.clamp;
  const product = parts.reduce((ratio, part) => ratio * part.ratio, 1);
  return { ratio: Math.min(most, Math.max(least, product)), parts };
}

/** The ratios of all faults that a reading speaks of, as the evidence wants them. */
export function readingEvidence(
  faults: readonly { readonly id: string; readonly checkpoints: readonly CheckpointLink[] }[],
  readings: readonly SpeakingReading[],
  rules: ReadingEvidenceRules,
  context: ReadingContext,
): Record<string, number> {
  const ratios: Record<string, number> = {};
  for (const fault of faults) {
    const found = readingRatio(fault.checkpoints, readings, rules, context);
    if (found) ratios[fault.id] = found.ratio;
  }
  return ratios;
}

function thresholdOf(link: CheckpointLink, context: ReadingContext): number | null {
  if (link.valueOfFlight) return context.flightSeconds === null ? null : 1 - link.valueOfFlight.seconds / context.flightSeconds;
  return context.isYouth ? (link.valueYouth ?? link.value) : link.value;
}

function speak(link: CheckpointLink, reading: SpeakingReading, threshold: number, rules: ReadingEvidenceRules): FaultReadings["parts"][number] {
  const { checkpoint, value, sd } = reading;
  if (link.op !== ">" && link.op !== "<") throw new RangeError(`a link to "${checkpoint}" has no known side ("${link.op}")`);
  if (!(link.weight >= 0 && link.weight <= 1)) throw new RangeError(`a link to "${checkpoint}" has a weight outside 0–1 (${link.weight})`);
  const reliability = rules.reliability[reading.reliability];
  if (reliability === undefined) throw new RangeError(`"${checkpoint}" has no known reliability ("${reading.reliability}")`);
  if (!Number.isFinite(value) || !(sd >= 0)) throw new RangeError(`the reading of "${checkpoint}" needs a value and a standard deviation of 0 or above`);
  const distance = link.op === ">" ? value - threshold : threshold - value;
  const p = distance === 0 ? 0.5 : normalShareBelow(distance / sd);
  const d = link.weight * reliability;
  const sens = rules.sensitivity.base + rules.sensitivity.slope * d;
  const fpr = rules.falsePositive.base + rules.falsePositive.slope * d;
  const ratio = (p * sens + (1 - p) * (1 - sens)) / (p * fpr + (1 - p) * (1 - fpr));
  return { checkpoint, ratio, pastThreshold: p, threshold };
}
