import type { Hitter } from "./skeleton";
import type { SwingSpec } from "./spec";
import { add, along, sub, unit, type Vec3 } from "./vec";

export const BALL_RADIUS_M = 0.0365;

/** The ball of a swing. */
export interface BallFlight {
  /** Where its middle is at a time in seconds from contact; null = not in the picture's world (before a toss). */
  readonly at: (timeSeconds: number) => Vec3 | null;
  readonly contact: Vec3;
  /** Release of the toss in seconds from contact; null off a tee. */
  readonly release: number | null;
}

const GRAVITY: Vec3 = [0, -9.81, 0];

/** The ball: on a tee or tossed from in front, met by the sweet spot at contact, then off with most of the bat's speed. */
export function ballOf(spec: Pick<SwingSpec, "task">, hitter: Hitter): BallFlight {
  const sweetAt = (t: number): Vec3 => {
    const { knob, along: axis } = hitter.poseAt(t).bat;
    return along(knob, axis, 0.82 * hitter.size.bat);
  };
  const h = 0.002;
  const before = sweetAt(-h);
  const sweet = sweetAt(0);
  const batVelocity: Vec3 = [(sweet[0] - before[0]) / h, (sweet[1] - before[1]) / h, (sweet[2] - before[2]) / h];
  const contact = along(sweet, unit([batVelocity[0], 0.1 * batVelocity[0], batVelocity[2] * 0.3]), BALL_RADIUS_M + 0.031);
  const speed = Math.hypot(...batVelocity);
  const leave: Vec3 = along([0, 0, 0], unit([1, 0.2, -0.12]), 1.08 * speed);
  const tossSeconds = 0.62;
  const from = add(contact, [4.6, 0.05, 0.1]);
  const toss: Vec3 = unit(sub(contact, from));
  const pace = Math.hypot(...sub(contact, from)) / tossSeconds;
  const flying = (start: Vec3, velocity: Vec3, t: number): Vec3 => add(along(start, velocity, t), along([0, 0, 0], GRAVITY, t * t * 0.5));
  const isToss = spec.task === "toss";
  const up: Vec3 = [0, (9.81 * tossSeconds) / 2, 0];
  return {
    contact,
    release: isToss ? -tossSeconds : null,
    at: (t) => {
      if (t > 0) return flying(contact, leave, t);
      if (!isToss) return contact;
      if (t < -tossSeconds) return null;
      return flying(from, add(along([0, 0, 0], toss, pace), up), t + tossSeconds);
    },
  };
}
