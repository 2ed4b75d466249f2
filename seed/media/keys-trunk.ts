import { monotoneCurve, type Key } from "./curve";
import type { KeyTimes } from "./timing";
import type { FaultParameter } from "./spec";

/** Trunk and head over time, degrees. */
export interface TrunkCurves {
  /** Upper body toward the catcher. */
  readonly lean: (t: number) => number;
  /** Upper body toward the plate. */
  readonly bend: (t: number) => number;
  readonly shoulderYaw: (t: number) => number;
  /** Front shoulder above the back one. */
  readonly shoulderTilt: (t: number) => number;
  readonly headYaw: (t: number) => number;
  readonly headDown: (t: number) => number;
}

/** Keys of trunk, shoulders and head, bent by the faults that live there. */
export function trunkCurves(times: KeyTimes, fault: (id: FaultParameter) => number): TrunkCurves {
  const { stance, load, plant, launch, finish } = times;
  const lunge = fault("lunge-forward");
  const stuck = fault("stuck-on-back-leg");
  const back = fault("lean-back");
  const soft = fault("front-leg-soft");
  const fold = fault("trunk-fold");
  const opens = Math.max(fault("front-shoulder-opens"), fault("back-foot-overspin"));
  const keyed = (...keys: Key[]) => monotoneCurve(keys);
  const early = Math.min(launch, plant + 0.035);
  const middle = Math.max(launch + 0.07, -0.09);
  return {
    lean: keyed(
      [stance, 1],
      [load, 2],
      [plant, 6 - 26 * lunge + 4 * stuck],
      [0, 12 - 24 * lunge + 25 * stuck + 27 * back - 15 * soft - 27 * fold],
      [0.14, 10 - 22 * lunge + 25 * stuck + 24 * back - 10 * soft - 22 * fold],
      [finish, 5 - 18 * lunge + 18 * stuck + 17 * back - 6 * soft - 16 * fold],
    ),
    bend: keyed([stance, 19], [load, 21], [plant, 21], [0, 22 + 32 * fold], [0.12, 16 + 30 * fold], [finish, 6 + 24 * fold]),
    shoulderYaw: keyed(
      [stance, -7],
      [load, -16],
      [Math.min(plant, early - 0.01), -18 + 42 * opens],
      [early, -15 + 56 * opens],
      [middle, 22 + 32 * opens],
      [0, 68 + 10 * opens],
      [0.08, 98 + 8 * opens],
      [finish, 128],
      [finish + 0.4, 124],
    ),
    shoulderTilt: keyed([stance, -2], [load, -5], [plant, -3], [-0.05, 8], [0, 9], [0.1, 6], [finish, 4]),
    headYaw: keyed([stance, 74], [plant, 72], [Math.max(plant + 0.02, -0.08), 58 + 14 * opens], [0, 46 + 24 * opens], [0.07, 48 + 24 * opens], [finish, 92], [finish + 0.4, 95]),
    headDown: keyed([stance, 4], [plant, 9], [-0.06, 24], [0, 31 - 10 * opens], [0.07, 30 - 10 * opens], [finish, 4]),
  };
}
