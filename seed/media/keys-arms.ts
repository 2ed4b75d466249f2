import { monotoneCurve, type Key } from "./curve";
import type { KeyTimes } from "./timing";
import type { FaultParameter, SwingSpec } from "./spec";

type Curve = (t: number) => number;

/**
 * Hands, elbows and bat over time. The hands are given from the middle of the shoulders in arm lengths along the chest's own
 * axes: out to the front shoulder, up the trunk, ahead of the chest. Elbow directions along the same axes. Bat in degrees.
 */
export interface ArmCurves {
  readonly handsAcross: Curve;
  readonly handsUp: Curve;
  readonly handsAhead: Curve;
  readonly frontElbow: readonly [Curve, Curve, Curve];
  readonly backElbow: readonly [Curve, Curve, Curve];
  /** The barrel's direction: yaw as `facing` (0 = plate, 90 = pitcher, growing through the swing). */
  readonly batYaw: Curve;
  readonly batHeight: Curve;
}

/** The barrel's small, slow circling while the hitter waits; it dies away toward the stance event. */
function waiting(stance: number, amountDeg: number, hz: number): Curve {
  return (t) => {
    const k = Math.max(0, Math.min(1, (stance - t) / 0.3));
    return amountDeg * k * k * (3 - 2 * k) * Math.sin(2 * Math.PI * hz * (t - stance));
  };
}

/** Keys of the arms and the bat, bent by the faults that live there. */
export function armCurves(times: KeyTimes, fault: (id: FaultParameter) => number, body: SwingSpec["body"]): ArmCurves {
  const { stance, load, plant, launch, finish } = times;
  const cast = fault("casting");
  const drift = fault("hands-drift-forward");
  const bar = fault("lead-arm-bar");
  const drag = fault("barrel-drag");
  const flat = fault("back-elbow-no-load");
  const keyed = (...keys: Key[]) => monotoneCurve(keys);
  const late = Math.max(launch, -0.185);
  const first = Math.min(plant, launch - 0.03);
  const slot = Math.min(late + 0.075, -0.075);
  const withSway = (curve: Curve, sway: Curve): Curve => (t) => curve(t) + sway(t);
  const slow = body === "child" ? 1.15 : 1;
  return {
    handsAcross: keyed(
      [stance, -0.3],
      [load, -0.43 - 0.1 * bar + 0.08 * drift],
      [first, -0.5 - 0.42 * bar + 0.5 * drift + 0.28 * cast],
      [late, -0.47 - 0.38 * bar + 0.42 * drift + 0.4 * cast],
      [slot, -0.24 + 0.12 * drift + 0.22 * cast],
      [-0.04, -0.2],
      [0, -0.2],
      [0.065, -0.1],
      [0.15, 0.2],
      [finish, 0.42],
    ),
    handsUp: keyed(
      [stance, -0.02],
      [load, -0.02 - 0.12 * flat],
      [first, 0.0 - 0.14 * flat - 0.1 * bar - 0.7 * cast],
      [late, -0.1 - 0.8 * cast],
      [slot, -0.42 - 0.42 * cast],
      [-0.04, -0.68 - 0.05 * cast],
      [0, -0.64],
      [0.065, -0.3],
      [0.15, -0.1],
      [finish, 0.06],
    ),
    handsAhead: keyed(
      [stance, 0.42],
      [load, 0.42],
      [first, 0.42 + 0.12 * bar],
      [late, 0.44 + 0.1 * cast],
      [slot, 0.5 + 0.2 * cast],
      [-0.04, 0.6 + 0.1 * cast],
      [0, 0.65],
      [0.065, 0.94],
      [0.15, 0.8],
      [finish, 0.38],
    ),
    frontElbow: [
      keyed([stance, 0.3], [launch, 0.35], [0, 0.3], [0.1, 0.5], [finish, 0.8]),
      keyed([stance, -1], [launch, -1], [0, -0.8], [0.1, -0.9], [finish, -0.5]),
      keyed([stance, 0.35], [launch, 0.5], [0, 0.5], [0.1, 0.3], [finish, 0.5]),
    ],
    backElbow: [
      keyed([stance, -0.75], [load, -1 + 0.6 * flat], [first, -1 + 0.6 * flat], [slot, -0.55], [0, -0.35], [0.1, -0.5], [finish, -0.2]),
      keyed([stance, -0.85], [load, -0.3 - 1.0 * flat], [first, -0.34 - 1.0 * flat], [slot, -1], [0, -1], [0.1, -0.9], [finish, -0.9]),
      keyed([stance, 0.1], [load, -0.3 + 0.75 * flat], [first, -0.32 + 0.8 * flat], [slot, 0.15], [0, 0.1], [0.1, 0.2], [finish, 0.6]),
    ],
    batYaw: withSway(keyed(
      [stance, -148],
      [load, -140],
      [first, -136 + 2 * drag],
      [launch + 0.012, -132 + 4 * drag],
      [-0.1 * slow, -110 + 28 * drag + 10 * cast],
      [-0.06 * slow, -84 + 12 * drag + 14 * cast],
      [-0.03 * slow, -51 - 3 * drag + 12 * cast],
      [0, 4 - 41 * drag],
      [0.022 * slow, 51 - 42 * drag],
      [0.055 * slow, 104 - 30 * drag],
      [0.11, 156 - 6 * drag],
      [0.18, 214],
      [finish, 262],
      [finish + 0.4, 267],
    ), waiting(stance, 6, 1.1)),
    batHeight: withSway(keyed(
      [stance, 56],
      [load, 50],
      [first, 46],
      [launch + 0.012, 42],
      [-0.1 * slow, 25 - 22 * cast],
      [-0.06 * slow, 3],
      [-0.03 * slow, -15],
      [0, -24],
      [0.022 * slow, -19],
      [0.055 * slow, -2],
      [0.11, 20],
      [0.18, 28],
      [finish, -14],
      [finish + 0.4, -21],
    ), waiting(stance, 3, 0.8)),
  };
}
