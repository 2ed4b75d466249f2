import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { isKnownFormula } from "@/lib/measure/formula-registry";
import { readClip } from "@/lib/measure/read-clip";
import type { Quantiles, Reading } from "@/lib/measure/reading";
import checkpointFile from "@/seed/library/checkpoints.json";
import type { TrueReading } from "@/seed/media/readings/true-reading";
import type { SwingSpec } from "@/seed/media/spec";
import { filmedHitter } from "./hitters";
import type { NoiseKind } from "./marked-noise";
import { markedSwing, type Marking } from "./marked-swing";

/** The checkpoints whose formula has code, in the library's own shape and order. */
export const DEFINITIONS: readonly CheckpointDefinition[] = (checkpointFile.checkpoints as unknown as readonly CheckpointDefinition[]).filter((one) =>
  isKnownFormula(one.formulaId, one.formulaVersion));

/** One clip: which hitter before which camera, marked how. */
export interface MarkedCase {
  readonly spec: SwingSpec;
  readonly marking: Marking;
}

/** One reading beside what is true: as this camera sees it, and as a camera on the line would. */
export interface HeldReading {
  readonly id: string;
  readonly spec: SwingSpec;
  readonly framesPerSecond: number;
  readonly noise: NoiseKind;
  readonly value: number;
  readonly sd: number | null;
  readonly sdCamera: number;
  readonly quantiles: Quantiles | null;
  readonly isCensored: boolean;
  /** More than half of the variance comes from the points. */
  readonly isPointNoise: boolean;
  readonly truth: TrueReading;
  readonly squareTruth: TrueReading;
}

/** Readings of cases, and those that are there on one side only: truth and reading do not agree on whether there is one. */
export interface HeldReadings {
  readonly held: readonly HeldReading[];
  readonly missing: readonly { readonly id: string; readonly say: string }[];
  readonly tooMany: readonly { readonly id: string; readonly say: string }[];
}

/** Whether a checkpoint may be read at all in this view, at this rate, with the camera this far off its line. */
export function isWithinLimits({ minFps, maxCameraOffDeg, views }: CheckpointDefinition, spec: Pick<SwingSpec, "view" | "cameraOffDeg">, framesPerSecond: number): boolean {
  return views.measured.includes(spec.view) && framesPerSecond >= minFps && Math.abs(spec.cameraOffDeg) <= (maxCameraOffDeg ?? Infinity);
}

/** Reads every case; each checkpoint within its own limits. */
export function heldReadings(cases: readonly MarkedCase[], definitions: readonly CheckpointDefinition[] = DEFINITIONS): HeldReadings {
  const held: HeldReading[] = [];
  const missing: { id: string; say: string }[] = [];
  const tooMany: { id: string; say: string }[] = [];
  for (const { spec, marking } of cases) {
    const filmed = filmedHitter(spec);
    const square = filmedHitter({ ...spec, cameraOffDeg: 0 });
    const readable = definitions.filter((definition) => isWithinLimits(definition, spec, marking.framesPerSecond));
    const { clip, swing } = markedSwing(filmed, marking);
    for (const reading of readClip(readable, clip, swing)) {
      const { checkpointId: id, value, reasons } = reading;
      const [truth, squareTruth] = [filmed.truth.of(id), square.truth.of(id)];
      if (value === null) {
        if (truth.value !== null) missing.push({ id, say: reasons.map(({ say }) => say).join("; ") });
      } else if (truth.value === null || squareTruth.value === null) tooMany.push({ id, say: truth.say ?? squareTruth.say ?? "" });
      else held.push({ ...partsOf(reading, value), spec, framesPerSecond: marking.framesPerSecond, noise: marking.noise ?? "assumed", truth, squareTruth });
    }
  }
  return { held, missing, tooMany };
}

function partsOf(reading: Reading, value: number): Pick<HeldReading, "id" | "value" | "sd" | "sdCamera" | "quantiles" | "isCensored" | "isPointNoise"> {
  const { checkpointId: id, sd, sdCamera, quantiles, doubt } = reading;
  const isPointNoise = doubt !== null && doubt.points ** 2 > doubt.scale ** 2 + (doubt.time ?? 0) ** 2;
  return { id, value, sd, sdCamera, quantiles, isCensored: reading.censoredWords !== null && reading.censoredWords !== undefined, isPointNoise };
}
