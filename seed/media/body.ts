import { seededRandom } from "@/lib/core/random";
import type { Body, SwingSpec } from "./spec";

/** Lengths of a hitter in metres, joint to joint. */
export interface BodySize {
  readonly heightM: number;
  readonly trunk: number;
  readonly hipHalf: number;
  readonly shoulderHalf: number;
  readonly upperArm: number;
  readonly forearm: number;
  readonly thigh: number;
  readonly shin: number;
  /** Ankle joint over the ground with the foot flat. */
  readonly ankleHeight: number;
  readonly footBack: number;
  readonly footAhead: number;
  /** Middle of the head over the middle of the shoulders. */
  readonly neck: number;
  readonly headRadius: number;
  readonly bat: number;
  /** Thickness of limbs and trunk against an adult's. */
  readonly girth: number;
}

type Shares = Omit<BodySize, "heightM">;

/** Shares of standing height (rounded from common growth tables: a child's head is larger, legs and arms shorter). */
const SHARES: Record<Body, Shares & { readonly heightM: number }> = {
  adult: {
    heightM: 1.8, trunk: 0.286, hipHalf: 0.05, shoulderHalf: 0.104, upperArm: 0.166, forearm: 0.145, thigh: 0.244, shin: 0.24,
    ankleHeight: 0.045, footBack: 0.036, footAhead: 0.106, neck: 0.115, headRadius: 0.06, bat: 0.468, girth: 0.556,
  },
  teen: {
    heightM: 1.66, trunk: 0.288, hipHalf: 0.05, shoulderHalf: 0.101, upperArm: 0.164, forearm: 0.143, thigh: 0.24, shin: 0.236,
    ankleHeight: 0.046, footBack: 0.037, footAhead: 0.108, neck: 0.121, headRadius: 0.065, bat: 0.485, girth: 0.535,
  },
  child: {
    heightM: 1.36, trunk: 0.298, hipHalf: 0.051, shoulderHalf: 0.1, upperArm: 0.155, forearm: 0.137, thigh: 0.226, shin: 0.221,
    ankleHeight: 0.048, footBack: 0.039, footAhead: 0.112, neck: 0.136, headRadius: 0.08, bat: 0.515, girth: 0.56,
  },
};

/** The hitter's size: the body's shares of a height that differs by up to 4 % with the seed. */
export function bodySize(spec: Pick<SwingSpec, "body" | "seed">): BodySize {
  const shares = SHARES[spec.body];
  const random = seededRandom(`size ${spec.seed}`);
  const heightM = shares.heightM * (0.96 + 0.08 * random.uniform());
  const girth = shares.girth * heightM * (0.94 + 0.14 * random.uniform());
  return {
    heightM,
    trunk: shares.trunk * heightM,
    hipHalf: shares.hipHalf * heightM,
    shoulderHalf: shares.shoulderHalf * heightM,
    upperArm: shares.upperArm * heightM,
    forearm: shares.forearm * heightM,
    thigh: shares.thigh * heightM,
    shin: shares.shin * heightM,
    ankleHeight: shares.ankleHeight * heightM,
    footBack: shares.footBack * heightM,
    footAhead: shares.footAhead * heightM,
    neck: shares.neck * heightM,
    headRadius: shares.headRadius * heightM,
    bat: shares.bat * heightM,
    girth,
  };
}
