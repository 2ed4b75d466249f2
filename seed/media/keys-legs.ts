import { monotoneCurve, type Key } from "./curve";
import type { KeyTimes } from "./timing";
import type { FaultParameter } from "./spec";

/** Pelvis and feet over time. Lengths are shares of the leg (thigh and shin); angles in degrees. */
export interface LegCurves {
  readonly hipX: (t: number) => number;
  /** Over the height of the ankles. */
  readonly hipY: (t: number) => number;
  readonly hipZ: (t: number) => number;
  readonly hipYaw: (t: number) => number;
  /** Ankle of the front foot as if flat. */
  readonly frontX: (t: number) => number;
  readonly frontLift: (t: number) => number;
  readonly frontYaw: (t: number) => number;
  /** Heel up about the toe. */
  readonly frontPitch: (t: number) => number;
  readonly frontKneeYaw: (t: number) => number;
  /** The back toe's way toward the pitcher. */
  readonly backSlide: (t: number) => number;
  readonly backYaw: (t: number) => number;
  readonly backPitch: (t: number) => number;
  readonly backKneeYaw: (t: number) => number;
}

/** Where the ankles stand when the front foot has landed, in legs from the middle. */
export const BACK_ANKLE = -0.44;
export const FRONT_ANKLE = 0.46;

/** Keys of pelvis, legs and feet, bent by the faults that live there. */
export function legCurves(times: KeyTimes, fault: (id: FaultParameter) => number): LegCurves {
  const { stance, load, toe, plant, launch, finish } = times;
  const lunge = fault("lunge-forward");
  const stuck = fault("stuck-on-back-leg");
  const soft = fault("front-leg-soft");
  const noLoad = fault("no-back-hip-load");
  const spin = fault("back-foot-overspin");
  const fold = fault("trunk-fold");
  const lift = (load + toe) / 2;
  const keyed = (...keys: Key[]) => monotoneCurve(keys);
  const go = Math.min(plant, launch - 0.03);
  const drop = Math.min(launch + 0.075, -0.05);
  return {
    hipX: keyed(
      [stance - 0.6, -0.112],
      [stance, -0.12],
      [load, -0.2 + 0.115 * noLoad + 0.1 * lunge],
      [toe, -0.115 + 0.055 * noLoad + 0.2 * lunge - 0.03 * stuck],
      [plant, -0.06 + 0.03 * noLoad + 0.26 * lunge - 0.08 * stuck],
      [Math.max(plant + 0.03, -0.075), 0.045 + 0.28 * lunge - 0.19 * stuck - 0.15 * soft - 0.08 * spin - 0.08 * fold],
      [0, 0.105 + 0.35 * lunge - 0.285 * stuck - 0.15 * soft - 0.1 * spin - 0.12 * fold],
      [finish, 0.15 + 0.31 * lunge - 0.3 * stuck - 0.12 * soft - 0.1 * spin - 0.1 * fold],
    ),
    hipY: keyed(
      [stance, 0.905],
      [load, 0.9],
      [toe, 0.856 - 0.03 * lunge],
      [plant, 0.835 - 0.03 * lunge],
      [-0.055, 0.872 - 0.06 * lunge - 0.06 * soft - 0.02 * spin - 0.08 * stuck],
      [0, 0.925 - 0.13 * lunge - 0.145 * soft - 0.19 * stuck - 0.075 * spin],
      [finish, 0.935 - 0.12 * lunge - 0.12 * soft - 0.14 * stuck - 0.07 * spin],
    ),
    hipZ: keyed([stance, -0.1], [plant, -0.11], [0, -0.055 - 0.09 * fold], [finish, -0.03 - 0.06 * fold]),
    hipYaw: keyed(
      [stance, 0],
      [load, -12 + 12 * noLoad],
      [plant, 17 + 24 * noLoad - 8 * spin],
      [Math.max(plant + 0.04, -0.1), 44 + 6 * noLoad - 14 * spin],
      [0, 76 - 22 * stuck],
      [0.12, 90 - 20 * stuck],
      [finish, 98 - 20 * stuck],
    ),
    frontX: keyed([stance + 0.18, 0.24], [lift - 0.08, 0.22], [toe, FRONT_ANKLE - 0.012], [plant, FRONT_ANKLE]),
    frontLift: keyed([stance + 0.2, 0], [load, 0.085], [lift, 0.1], [toe, 0]),
    frontYaw: keyed([stance, 6], [load, -4], [toe, 26], [plant, 34], [0, 42 + 20 * soft], [finish, 56 + 10 * soft]),
    frontPitch: keyed([stance + 0.12, 0], [load, 22], [toe, 17], [plant, 0]),
    frontKneeYaw: keyed([stance, 20], [load, 0], [plant, 56 + 8 * soft], [0, 62 + 26 * soft + 18 * lunge], [finish, 70 + 14 * soft]),
    backSlide: keyed([go, 0], [0, 0.09 - 0.07 * stuck - 0.07 * spin + 0.1 * lunge], [finish, 0.13 - 0.1 * stuck - 0.1 * spin + 0.14 * lunge]),
    backYaw: keyed(
      [stance, -2],
      [go, 4 + 26 * spin],
      [launch + 0.03, 12 + 48 * spin],
      [drop + 0.01, 32 + 42 * spin - 18 * stuck],
      [0, 62 + 16 * spin - 30 * stuck],
      [finish, 84 - 30 * stuck],
    ),
    backPitch: keyed(
      [go, 0],
      [launch + 0.04, 5 * (1 - stuck) * (1 - spin)],
      [0, 37 - 31 * stuck - 30 * spin],
      [finish, 56 - 46 * stuck - 44 * spin],
    ),
    backKneeYaw: keyed([stance, -12], [load, 0], [go, 18 + 16 * spin], [-0.05, 50 + 14 * spin], [0, 64], [finish, 80 - 20 * stuck]),
  };
}
