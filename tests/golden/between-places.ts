import { seededRandom } from "@/lib/core/random";
import { betweenFrames } from "@/lib/measure/between/between-frames";
import { filledTrack } from "@/lib/measure/between/filled-track";
import type { Track } from "@/lib/measure/tracks";
import { POINT_IDS, type PointId } from "@/seed/media/points";
import { VIEWS } from "@/seed/media/spec";
import { filmedHitter, goldenHitters } from "./hitters";
import { placedNoisePx, trueTorsoPx } from "./marked-swing";

/** How far one coordinate of a place worked out between placed frames lies from the truth, in its own SDs. */
export interface BetweenPlace {
  /** Kind of joint: the point's name without front and back. */
  readonly kind: string;
  readonly framesPerSecond: number;
  /** Frames from one placed frame to the next. */
  readonly framesApart: number;
  readonly offInSd: number;
  /** What the curve strays without any noise, and the SD said for that, in torso lengths. */
  readonly strayT: number;
  readonly straySdT: number;
}

/**
 * Places between every second or third placed frame of drawn hitters, placed with a person's noise, beside the true ones.
 * @param hitters how many hitters @param firstSeed of the hitters
 */
export function betweenPlaces(hitters: number, rates: readonly number[], firstSeed?: number): readonly BetweenPlace[] {
  const found: BetweenPlace[] = [];
  for (const spec of goldenHitters(hitters, firstSeed)) {
    for (const view of VIEWS) {
      const filmed = filmedHitter({ ...spec, view, task: "toss" });
      const torsoPx = trueTorsoPx(filmed);
      const sd = placedNoisePx(torsoPx);
      for (const framesPerSecond of rates) {
        const first = Math.floor((filmed.events.stance - 0.1) * framesPerSecond);
        const seconds = Array.from({ length: Math.floor((filmed.events.finish + 0.2) * framesPerSecond) - first }, (_, i) => (first + i + 0.37) / framesPerSecond);
        const truth = seconds.map((time) => filmed.pointsAt(time));
        for (const framesApart of [2, 3]) {
          const clock = { seconds, periodSeconds: 1 / framesPerSecond, contactSeconds: 0 };
          const placed = seconds.flatMap((_, frame) => (frame % framesApart === 0 ? [frame] : []));
          const between = betweenFrames(placed, clock);
          const random = seededRandom(`between ${spec.seed} ${view} ${framesPerSecond} ${framesApart}`);
          for (const point of POINT_IDS) {
            const still = trackOf(point, truth, placed, () => 0);
            const filled = filledTrack(trackOf(point, truth, placed, () => sd * random.normal()), clock, torsoPx);
            for (const { frame, knots, weights } of between) {
              const noise = sd * Math.hypot(...weights);
              const stray = filled.stray[frame] ?? NaN;
              for (const [axis, side] of [["h", "x"], ["v", "y"]] as const) {
                const actual = truth[frame]?.[point][side] ?? NaN;
                const bare = weights.reduce((sum, weight, i) => sum + weight * (still[axis][knots[i] ?? 0] ?? NaN), 0);
                found.push({
                  kind: point.replace(/_[fb]$/, ""), framesPerSecond, framesApart, offInSd: ((filled[axis][frame] ?? NaN) - actual) / Math.hypot(noise, stray),
                  strayT: (bare - actual) / torsoPx, straySdT: stray / torsoPx,
                });
              }
            }
          }
        }
      }
    }
  }
  return found;
}

function trackOf(point: PointId, truth: readonly Readonly<Record<PointId, { readonly x: number; readonly y: number }>>[], placed: readonly number[], noise: () => number): Track {
  const [h, v] = [new Float64Array(truth.length).fill(NaN), new Float64Array(truth.length).fill(NaN)];
  for (const frame of placed) {
    h[frame] = (truth[frame]?.[point].x ?? NaN) + noise();
    v[frame] = (truth[frame]?.[point].y ?? NaN) + noise();
  }
  return { point, frames: placed, h, v, suggestedFrames: new Set(), framesOutside: [] };
}

/** Share of places within 1.96 of their SDs, for each kind of joint, rate and hole. */
export function heldBetween(places: readonly BetweenPlace[]): readonly { readonly key: string; readonly count: number; readonly held: number; readonly strayRmsT: number; readonly straySdT: number }[] {
  const groups = new Map<string, BetweenPlace[]>();
  for (const place of places) {
    const key = `${place.kind}, ${place.framesPerSecond} a second, every ${place.framesApart === 2 ? "second" : "third"} frame placed`;
    const own = groups.get(key);
    if (own) own.push(place);
    else groups.set(key, [place]);
  }
  const rms = (values: readonly number[]) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
  return [...groups].map(([key, own]) => ({
    key, count: own.length, held: own.filter(({ offInSd }) => Math.abs(offInSd) <= 1.96).length / own.length,
    strayRmsT: rms(own.map(({ strayT }) => strayT)), straySdT: rms(own.map(({ straySdT }) => straySdT)),
  }));
}
