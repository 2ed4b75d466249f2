import { bendAt } from "@/lib/measure/between/spline-weights";
import type { PointId } from "@/lib/measure/points";

/**
 * How far a point's true path strays from the curve through its placed frames where it does not bend much, in torso lengths for a
 * hole of 25 ms, as an SD. Measured on drawn hitters (tests/bench/between.ts).
 */
const STRAYS_PER_25_MS: Readonly<Record<string, number>> = {
  nose: 0.0003, ear: 0.0003, helmet: 0.0003, sh: 0.0005, hip: 0.0003, el: 0.0015, wr: 0.0018, kn: 0.0006, an: 0.0006, heel: 0.0007, toe: 0.0003,
  knob: 0.002, tip: 0.005,
};
/** It grows with the hole's length by this power: between a parabola's and a cubic's. */
const GROWTH = 2.5;
/** Share of the bow between two placed frames that the curve may miss. Measured likewise: a half when a swing is fastest. */
const MISSED_OF_BOW = 0.5;

/** How much more it strays where no frame is placed on the far side of one of the hole's ends: above all on either side of contact. Measured likewise. */
const ONE_SIDED = 2;

/** The piece of the curve in which a frame lies. */
export interface CurvePiece {
  /** Real seconds of its knots, and the one that begins it. */
  readonly times: readonly number[];
  readonly left: number;
}

/**
 * SD in pixels of one coordinate that a point worked out between placed frames has beside the noise of those: a part that grows
 * with the hole, and a share of how far the path bows there, both largest in its middle.
 * @param atSeconds time of the frame @param torsoPx torso length @param valuesOf each coordinate at a knot
 */
export function strayPx(point: PointId, { times, left }: CurvePiece, atSeconds: number, torsoPx: number, valuesOf: readonly ((knot: number) => number)[]): number {
  const [start, end] = [times[left] ?? NaN, times[left + 1] ?? NaN];
  const span = end - start;
  const share = (atSeconds - start) / span;
  const middle = 4 * share * (1 - share);
  const plain = (STRAYS_PER_25_MS[point.replace(/_[fb]$/, "")] ?? NaN) * torsoPx * (span / 0.025) ** GROWTH;
  const bow = Math.max(...valuesOf.map((valueOf) => bendAt(times, left, valueOf))) * (span * span) / 8;
  return (times.length < 4 ? ONE_SIDED : 1) * middle * Math.hypot(plain, MISSED_OF_BOW * bow);
}
