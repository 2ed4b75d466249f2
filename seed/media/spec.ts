export const SIDES = ["right", "left"] as const;
export const VIEWS = ["side", "rear", "front"] as const;
export const BODIES = ["child", "teen", "adult"] as const;
export const FRAME_RATES = [60, 120, 240] as const;
export const TASKS = ["tee", "toss"] as const;
export const SCENES = ["cage", "field"] as const;
export const CLOTHES = ["navy", "maroon", "forest", "slate", "sand", "sky"] as const;

/** Faults of the starter library that the motion can show, by their ids there. */
export const FAULT_PARAMETERS = [
  "no-back-hip-load",
  "back-foot-overspin",
  "stuck-on-back-leg",
  "lunge-forward",
  "front-shoulder-opens",
  "front-leg-soft",
  "trunk-fold",
  "lean-back",
  "back-elbow-no-load",
  "lead-arm-bar",
  "casting",
  "hands-drift-forward",
  "barrel-drag",
  "late-start",
] as const;

export type Side = (typeof SIDES)[number];
export type View = (typeof VIEWS)[number];
export type Body = (typeof BODIES)[number];
export type FaultParameter = (typeof FAULT_PARAMETERS)[number];
/** How much of each fault is in the swing, 0 (none) to 1 (plain to see). */
export type FaultAmounts = Partial<Record<FaultParameter, number>>;

/** Clothes and place. What is left out follows from the seed. */
export interface SwingLook {
  readonly clothes?: (typeof CLOTHES)[number];
  readonly scene?: (typeof SCENES)[number];
}

/** Everything that decides a synthetic swing: the same spec gives the same truth and the same pictures. */
export interface SwingSpec {
  readonly side: Side;
  readonly view: View;
  readonly body: Body;
  readonly framesPerSecond: (typeof FRAME_RATES)[number];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly seconds: number;
  /** Decides skin, clothes, place and small differences of size and timing between hitters. */
  readonly seed: number;
  /** Degrees by which the camera stands off the ideal line of its view, turned about the hitter; + = toward the next
   * view in the order side, front, away from the plate, rear. */
  readonly cameraOffDeg: number;
  readonly task: (typeof TASKS)[number];
  readonly look: SwingLook;
  readonly faults: FaultAmounts;
}

const DEFAULTS: SwingSpec = {
  side: "right",
  view: "side",
  body: "teen",
  framesPerSecond: 240,
  widthPx: 1280,
  heightPx: 720,
  seconds: 2,
  seed: 1,
  cameraOffDeg: 0,
  task: "tee",
  look: {},
  faults: {},
};

function within(name: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high)) throw new RangeError(`${name} must be ${low} to ${high}, not ${value}`);
}

function oneOf(name: string, value: unknown, list: readonly unknown[]): void {
  if (!list.includes(value)) throw new RangeError(`${name} must be one of ${list.join(", ")}, not ${String(value)}`);
}

/**
 * A whole spec from the parts that matter to the caller: 1280 × 720, 240 frames a second, two seconds, right-handed teen off
 * a tee from the side, no faults.
 * @throws RangeError when a value is not possible; the sentence names it
 */
export function swingSpec(parts: Partial<SwingSpec> = {}): SwingSpec {
  const spec: SwingSpec = { ...DEFAULTS, ...parts };
  oneOf("side", spec.side, SIDES);
  oneOf("view", spec.view, VIEWS);
  oneOf("body", spec.body, BODIES);
  oneOf("framesPerSecond", spec.framesPerSecond, FRAME_RATES);
  oneOf("task", spec.task, TASKS);
  if (spec.look.clothes !== undefined) oneOf("clothes", spec.look.clothes, CLOTHES);
  if (spec.look.scene !== undefined) oneOf("scene", spec.look.scene, SCENES);
  within("widthPx", spec.widthPx, 160, 3840);
  within("heightPx", spec.heightPx, 160, 2160);
  if (spec.widthPx % 2 !== 0 || spec.heightPx % 2 !== 0) throw new RangeError("widthPx and heightPx must be even");
  within("seconds", spec.seconds, 1.7, 10);
  within("cameraOffDeg", spec.cameraOffDeg, -45, 45);
  if (!Number.isSafeInteger(spec.seed)) throw new RangeError(`seed must be a whole number, not ${spec.seed}`);
  for (const [id, amount] of Object.entries(spec.faults)) {
    oneOf("fault", id, FAULT_PARAMETERS);
    within(id, amount, 0, 1);
  }
  return spec;
}
