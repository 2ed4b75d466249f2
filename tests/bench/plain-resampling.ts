import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { clipContext, type ClipContext } from "@/lib/measure/clip-context";
import type { ClipInput, EventId, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { findFormula } from "@/lib/measure/formula-registry";
import { normalDraws } from "@/lib/measure/normal-draws";
import type { PointId } from "@/lib/measure/points";
import { prepareSample } from "@/lib/measure/prepare-sample";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { evaluatorOf, groupsOf } from "@/lib/measure/sample";
import type { ClipTracks, Track } from "@/lib/measure/tracks";

/** A checkpoint's mean and SD over the draws; both NaN when no draw gave a value. */
export interface ResampledReading {
  readonly id: string;
  readonly mean: number;
  readonly sd: number;
}

/**
 * The plain way to the same doubt: every point of the whole clip and every event drawn anew from its noise, and every reading taken
 * from scratch on each draw. What can be reused is: the tracks' memory, one row of normal numbers, each draw's body lengths.
 */
export function resampledReadings(definitions: readonly CheckpointDefinition[], clip: ClipInput, swing: SwingInput, draws: number): readonly ResampledReading[] {
  const exact = clipContext(clip, swing, STARTER_RULES);
  const tracks = exact.tracks;
  if (!tracks) return [];
  const formulas = definitions.flatMap(({ formulaId, formulaVersion }) => findFormula(formulaId, formulaVersion) ?? []);
  const sums = formulas.map(() => ({ count: 0, sum: 0, squares: 0 }));
  const placed = Object.values(tracks.byPoint).filter((track) => track !== undefined);
  const perDraw = 2 * placed.reduce((sum, { frames }) => sum + frames.length, 0) + Object.keys(swing.events).length;
  // Read from another place for each draw: drawing as many numbers anew would be most of the work.
  const normals = normalDraws("plain resampling", 2 * perDraw);
  const copies = placed.map((track) => ({ ...track, h: track.h.slice(), v: track.v.slice() }));
  const drawnTracks: ClipTracks = { ...tracks, byPoint: Object.fromEntries(copies.map((copy) => [copy.point, copy])) as Partial<Record<PointId, Track>> };
  for (let draw = 0; draw < draws; draw++) {
    let place = (draw * 7919) % perDraw;
    placed.forEach((track, i) => {
      const [copy, sd] = [copies[i], exact.noise(track.point, false)];
      if (!copy) return;
      for (const frame of track.frames) {
        copy.h[frame] = (track.h[frame] ?? NaN) + sd * (normals[place] ?? 0);
        copy.v[frame] = (track.v[frame] ?? NaN) + sd * (normals[place + 1] ?? 0);
        place += 2;
      }
    });
    const events = Object.fromEntries(Object.entries(swing.events).map(([id, event]) => [id, { ...event, seconds: event.seconds + event.sdSeconds * (normals[place++] ?? 0) }]));
    takeAll(formulas, clipContext(clip, { ...swing, events: events as Partial<Record<EventId, SwingEvent>> }, STARTER_RULES, drawnTracks), sums);
  }
  return formulas.map(({ id }, i) => {
    const { count, sum, squares } = sums[i] ?? { count: 0, sum: 0, squares: 0 };
    const mean = sum / count;
    return { id, mean, sd: Math.sqrt(Math.max(0, squares / count - mean ** 2)) };
  });
}

function takeAll(formulas: readonly NonNullable<ReturnType<typeof findFormula>>[], context: ClipContext, sums: readonly { count: number; sum: number; squares: number }[]): void {
  formulas.forEach((formula, i) => {
    const { sample } = prepareSample(formula, context);
    const own = sums[i];
    if (!sample || !own) return;
    const value = evaluatorOf(formula, sample).valueAt(new Float64Array(groupsOf(sample).length));
    if (!Number.isFinite(value)) return;
    own.count += 1;
    own.sum += value;
    own.squares += value ** 2;
  });
}
