import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { readClip } from "@/lib/measure/read-clip";
import checkpointFile from "@/seed/library/checkpoints.json";
import { TRUE_READING_IDS } from "@/seed/media/readings";
import { BODIES, FRAME_RATES, SIDES, swingSpec, type FaultAmounts, type SwingSpec } from "@/seed/media/spec";
import { truthOf, type SwingTruth } from "@/seed/media/truth";
import { markedSwing, type MarkedSwing, type Marking } from "./marked-swing";

/** The checkpoints that have a true reading, in the library's own shape. */
export const DEFINITIONS: readonly CheckpointDefinition[] = TRUE_READING_IDS.map((id) => {
  const found = (checkpointFile.checkpoints as unknown as readonly CheckpointDefinition[]).find((one) => one.id === id);
  if (!found) throw new Error(`${id} is not in the library`);
  return found;
});

const FAULTS: readonly FaultAmounts[] = [
  {}, { "no-back-hip-load": 0.7 }, { "stuck-on-back-leg": 1 }, { "lunge-forward": 0.8 }, {}, { "front-leg-soft": 1 }, { "trunk-fold": 0.9 },
  { "lean-back": 0.8 }, { "lead-arm-bar": 0.6 }, { casting: 1 }, { "hands-drift-forward": 0.9 }, { "barrel-drag": 0.8 }, { "late-start": 0.7 },
];
const CAMERAS_OFF_DEG = [0, 3, -6, 10, -15, 6, -3, 15, 0, -10];
const SIZES = [[1280, 720], [1920, 1080], [640, 360]] as const;
/** How often each hitter is marked at each rate. */
const MARKINGS: Readonly<Record<number, number>> = { 60: 1, 120: 2, 240: 4 };

/** The hitters over which the readings are held to the truth: every body and side, most faults, several cameras. */
export function goldenSpecs(count: number): readonly SwingSpec[] {
  return Array.from({ length: count }, (_, i) => {
    const [widthPx, heightPx] = SIZES[Math.floor(i / 3) % SIZES.length] ?? SIZES[0];
    return swingSpec({
      side: SIDES[i % 2], body: BODIES[i % 3], seed: 100 + i, faults: FAULTS[i % FAULTS.length], cameraOffDeg: CAMERAS_OFF_DEG[i % CAMERAS_OFF_DEG.length],
      task: "toss", widthPx, heightPx, framesPerSecond: 60,
    });
  });
}

/** One reading beside what is true: as this camera sees it, and as a camera on the line would. */
export interface HeldReading {
  readonly id: string;
  readonly value: number;
  readonly sd: number;
  readonly sdCamera: number;
  readonly truth: number;
  readonly squareTruth: number;
}

type Habits = Pick<Marking, "areEventsMissed" | "habit" | "isBatMarkedAcross">;

/** Whether a checkpoint may be read at all at this rate with the camera this far off its line. */
export function isWithinLimits({ minFps, maxCameraOffDeg }: CheckpointDefinition, framesPerSecond: number, cameraOffDeg: number): boolean {
  return framesPerSecond >= minFps && Math.abs(cameraOffDeg) <= (maxCameraOffDeg ?? Infinity);
}

/**
 * Reads every hitter as often as MARKINGS says, contact anywhere between frames; each checkpoint within its own limits.
 * @throws Error when a reading is missing there: a gap would make the coverage look better than it is
 */
export function heldReadings(specs: readonly SwingSpec[], habits: Habits = {}): readonly HeldReading[] {
  return specs.flatMap((spec, i) => {
    const truth = knownTruth(spec);
    const square = knownTruth({ ...spec, cameraOffDeg: 0 });
    return FRAME_RATES.flatMap((framesPerSecond) => {
      const readable = DEFINITIONS.filter((definition) => isWithinLimits(definition, framesPerSecond, spec.cameraOffDeg));
      return Array.from({ length: MARKINGS[framesPerSecond] ?? 0 }, (_, k) => {
        const contactPhase = (0.13 + 0.37 * i + 0.29 * k + framesPerSecond / 1000) % 1;
        const isMirrored = (i + k) % 2 === 1;
        const marked = markedSwing(truth, { framesPerSecond, contactPhase, isMirrored, noiseSeed: `${spec.seed} ${framesPerSecond} ${k}`, ...habits });
        return held(readable, truth, square, marked);
      }).flat();
    });
  });
}

function held(readable: readonly CheckpointDefinition[], truth: SwingTruth, square: SwingTruth, { clip, swing }: MarkedSwing): readonly HeldReading[] {
  return readClip(readable, clip, swing).map(({ checkpointId, value, sd, sdCamera, reasons }) => {
    if (value === null || sd === null) throw new Error(`${checkpointId} has no reading: ${reasons.map(({ say }) => say).join("; ")}`);
    return { id: checkpointId, value, sd, sdCamera, truth: trueValue(truth, checkpointId), squareTruth: trueValue(square, checkpointId) };
  });
}

/** The true value of a checkpoint in the picture of its truth's own camera. */
export function trueValue({ readings }: SwingTruth, checkpointId: string): number {
  const id = TRUE_READING_IDS.find((one) => one === checkpointId);
  if (!id || !readings) throw new Error(`no true value of ${checkpointId}`);
  return readings[id];
}

const TRUTHS = new Map<string, SwingTruth>();

/** The truth of a spec, worked out once. */
export function knownTruth(spec: SwingSpec): SwingTruth {
  const key = JSON.stringify(spec);
  const truth = TRUTHS.get(key) ?? truthOf(spec);
  TRUTHS.set(key, truth);
  return truth;
}

/** How well a checkpoint's stated doubt holds. Coverage is a share; bias in SDs; the SD in the checkpoint's unit. */
export interface Coverage {
  readonly id: string;
  readonly cases: number;
  readonly coverage: number;
  readonly biasInSd: number;
  readonly medianSd: number;
  /** Against the truth of a camera on the line, the camera's part counted in. */
  readonly coverageOfSquare: number;
}

const Z95 = 1.96;

/** Sums readings up by checkpoint, in the library's order. */
export function coverageByCheckpoint(readings: readonly HeldReading[]): readonly Coverage[] {
  return TRUE_READING_IDS.map((id) => {
    const own = readings.filter((reading) => reading.id === id);
    const mean = (of: (reading: HeldReading) => number) => own.reduce((sum, reading) => sum + of(reading), 0) / own.length;
    const sds = own.map(({ sd }) => sd).sort((a, b) => a - b);
    return {
      id,
      cases: own.length,
      coverage: mean(({ value, sd, truth }) => (Math.abs(value - truth) <= Z95 * sd ? 1 : 0)),
      biasInSd: mean(({ value, sd, truth }) => (value - truth) / sd),
      medianSd: sds[sds.length >> 1] ?? NaN,
      coverageOfSquare: mean(({ value, sd, sdCamera, squareTruth }) => (Math.abs(value - squareTruth) <= Z95 * Math.hypot(sd, sdCamera) ? 1 : 0)),
    };
  });
}
