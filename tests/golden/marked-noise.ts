import type { Random } from "@/lib/core/random";

/**
 * What the noise of points is like: `assumed` = as readings assume, normal and independent; `heavy-tailed` = Student's t
 * with 3 degrees of freedom; `correlated` = each frame's error keeps 0.6 of the frame before; `both`. The SD is the same.
 */
export const NOISE_KINDS = ["assumed", "heavy-tailed", "correlated", "both"] as const;
export type NoiseKind = (typeof NOISE_KINDS)[number];

const KEPT = 0.6;

/** Student's t with 3 degrees of freedom, scaled to an SD of 1. */
function studentT3(random: Random): number {
  const chiSquared = random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2;
  return random.normal() / Math.sqrt(chiSquared);
}

/** A row of errors with SD 1, one for each call, for one coordinate of one point from frame to frame. */
export function errorsOf(kind: NoiseKind, random: Random): () => number {
  const next = kind === "heavy-tailed" || kind === "both" ? () => studentT3(random) : () => random.normal();
  if (kind === "assumed" || kind === "heavy-tailed") return next;
  let error = next();
  return () => {
    const now = error;
    error = KEPT * error + Math.sqrt(1 - KEPT ** 2) * next();
    return now;
  };
}
