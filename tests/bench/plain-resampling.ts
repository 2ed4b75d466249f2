import { clipContext } from "@/lib/measure/clip-context";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { normalDraws } from "@/lib/measure/normal-draws";
import type { PointId } from "@/lib/measure/points";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import type { SwingEvents } from "@/seed/media/events";
import type { Moment, SeenSwing } from "@/seed/media/readings/seen-swing";
import { TrueReadingsOf } from "@/seed/media/readings/true-readings";

/** A checkpoint's mean and SD over the draws; both NaN when no draw gave a value. */
export interface ResampledReading {
  readonly id: string;
  readonly mean: number;
  readonly sd: number;
}

interface DrawnTrack {
  readonly h: Float64Array;
  readonly v: Float64Array;
}

/**
 * The plain way to the same doubt: every point of the whole clip and every event drawn anew from its noise, and every reading taken
 * from scratch on each draw, by the plain formulas of the truth, frame by frame. The clip's frames are evenly spaced, all points placed.
 * What can be reused is: the tracks' memory, one row of normal numbers, each draw's body lengths.
 */
export function resampledReadings(ids: readonly string[], clip: ClipInput, swing: SwingInput, draws: number): readonly ResampledReading[] {
  const { tracks, noise } = clipContext(clip, swing, STARTER_RULES);
  if (!tracks || clip.view === null) return [];
  const { seconds: clipTimes, periodSeconds: stepSeconds } = tracks;
  const placed = Object.values(tracks.byPoint).filter((track) => track !== undefined);
  const marks = Object.entries(swing.events);
  const perDraw = 2 * placed.length * clipTimes.length + marks.length;
  // Read from another place for each draw: drawing as many numbers anew would be most of the work.
  const normals = normalDraws("plain resampling", 2 * perDraw);
  const drawn = new Map<PointId, DrawnTrack>(placed.map((track) => [track.point, { h: track.h.slice(), v: track.v.slice() }]));
  const at = momentsOf(drawn, clipTimes[0] ?? NaN, stepSeconds, clipTimes.length);
  const sums = ids.map(() => ({ count: 0, sum: 0, squares: 0 }));
  for (let draw = 0; draw < draws; draw++) {
    let place = (draw * 7919) % perDraw;
    for (const track of placed) {
      const [own, sd] = [drawn.get(track.point), noise(track.point, false)];
      if (!own) continue;
      for (let frame = 0; frame < clipTimes.length; frame++) {
        own.h[frame] = (track.h[frame] ?? NaN) + sd * (normals[place++] ?? 0);
        own.v[frame] = (track.v[frame] ?? NaN) + sd * (normals[place++] ?? 0);
      }
    }
    const events = Object.fromEntries(marks.map(([id, { seconds, sdSeconds }]) => [id, seconds + sdSeconds * (normals[place++] ?? 0)]));
    const seen: SeenSwing = { view: clip.view, events: events as unknown as SwingEvents, releaseSeconds: events.release ?? null, at, clipTimes, stepSeconds };
    const readings = new TrueReadingsOf(seen);
    ids.forEach((id, i) => {
      const [value, own] = [readings.of(id).value, sums[i]];
      if (value === null || !own || !Number.isFinite(value)) return;
      own.count += 1;
      own.sum += value;
      own.squares += value ** 2;
    });
  }
  return ids.map((id, i) => {
    const { count, sum, squares } = sums[i] ?? { count: 0, sum: 0, squares: 0 };
    return { id, mean: sum / count, sd: Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2)) };
  });
}

/** Points at any time, on a straight line between the two frames beside it. */
function momentsOf(drawn: ReadonlyMap<PointId, DrawnTrack>, firstSeconds: number, stepSeconds: number, count: number): (timeSeconds: number) => Moment {
  return (time) => {
    const place = Math.max(0, Math.min(count - 1.001, (time - firstSeconds) / stepSeconds));
    const frame = Math.floor(place);
    const share = place - frame;
    return (point) => {
      const track = drawn.get(point);
      const along = (row: Float64Array | undefined) => (1 - share) * (row?.[frame] ?? NaN) + share * (row?.[frame + 1] ?? NaN);
      return { h: along(track?.h), v: along(track?.v) };
    };
  };
}
