import { mixed } from "@/lib/measure/body-lengths";
import { normalDraws } from "@/lib/measure/normal-draws";
import { framesWithAll } from "@/lib/measure/stance-frames";
import { contactOf, rawSd, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, framesBetween, isCovered } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

const HANDS = { wr_f: 0.5, wr_b: 0.5 } as const;
const SHOULDERS = { sh_f: 0.5, sh_b: 0.5 } as const;
const DRAWS = 200;

/**
 * Extension: the frame of the largest distance between hands and the middle of the shoulders within 0.12 s after
 * contact, raw points; its SD from seeded draws of the points, at least P/sqrt(12), at most 0.03 s.
 * Source: phases, event extension.
 */
export function suggestExtension(body: MovingBody): Found | null {
  const { tracks } = body;
  const contact = contactOf(body);
  if (contact === null) return null;
  const frames = framesBetween(tracks, contact, contact + 0.12);
  if (!((tracks.seconds.at(-1) ?? NaN) >= contact + 0.12 - tracks.periodSeconds)) return null;
  const reach = new Float64Array(tracks.seconds.length).fill(NaN);
  const along = frames.map((frame) => (["h", "v"] as const).map((axis) => mixed(HANDS, axis, frame, tracks) - mixed(SHOULDERS, axis, frame, tracks)));
  frames.forEach((frame, i) => (reach[frame] = Math.hypot(along[i]?.[0] ?? NaN, along[i]?.[1] ?? NaN)));
  if (!isCovered(reach, frames, tracks)) return null;
  const furthest = (distance: (i: number) => number) => {
    let [best, most] = [-1, -Infinity];
    for (let i = 0; i < frames.length; i++) if (distance(i) > most) [best, most] = [i, distance(i)];
    return tracks.seconds[frames[best] ?? -1] ?? NaN;
  };
  // The estimate carries the noise already: frames of it differ from the truth's by twice the variance.
  const sd = Math.SQRT2 * Math.hypot(...[HANDS, SHOULDERS].map((mix) => rawSd(body, mix, framesWithAll(tracks, Object.keys(mix) as (keyof typeof mix)[]))));
  const normals = normalDraws(`extension ${frames.length}`, 2 * DRAWS * frames.length);
  const drawn = Array.from({ length: DRAWS }, (_, draw) =>
    furthest((i) => {
      const from = 2 * (draw * frames.length + i);
      return Math.hypot((along[i]?.[0] ?? NaN) + sd * (normals[from] ?? 0), (along[i]?.[1] ?? NaN) + sd * (normals[from + 1] ?? 0));
    }));
  const seconds = furthest((i) => reach[frames[i] ?? -1] ?? NaN);
  // The estimate carries the noise once and the draws twice, so they are spread about it, not about their own mean.
  const spread = Math.sqrt(drawn.reduce((sum, time) => sum + (time - seconds) ** 2, 0) / DRAWS);
  return { seconds, sdSeconds: eventSd(tracks.periodSeconds, [spread], 0, 0.03), note: null };
}
