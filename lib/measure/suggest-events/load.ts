import { movingPlace, type MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, framesBetween, isCovered } from "@/lib/measure/suggest-events/runs";
import { secondDifference } from "@/lib/measure/signals/central-difference";
import type { Found } from "@/lib/measure/suggest-events/suggestion";
import type { ClipTracks } from "@/lib/measure/tracks";

/**
 * SD of the time of a least value from its breadth: the stretch around it that lies within two SDs of it, taken as even.
 * (The library's rule leaves it out; a noisy least value wanders over the whole of a flat bottom.)
 */
function breadthSd(values: Float64Array, lowest: number, sd: number, frames: readonly number[], tracks: ClipTracks): number {
  const limit = (values[lowest] ?? NaN) + 2 * sd;
  const at = frames.indexOf(lowest);
  let [first, last] = [at, at];
  while ((values[frames[first - 1] ?? -1] ?? Infinity) <= limit) first--;
  while ((values[frames[last + 1] ?? -1] ?? Infinity) <= limit) last++;
  return ((tracks.seconds[frames[last] ?? -1] ?? NaN) - (tracks.seconds[frames[first] ?? -1] ?? NaN)) / Math.sqrt(12);
}

/**
 * Load: when the middle of the hips, filtered at 10 Hz, is furthest from the pitcher between stance and toe touch, by a
 * parabola through the smallest frame and its neighbours. Never further back than at the stance: the stance, `no shift
 * back`. Source: phases, event load.
 */
export function suggestLoad(body: MovingBody): Found | null {
  const { tracks, events } = body;
  const { stance, toe } = events;
  const hips = movingPlace(body, { hip_f: 0.5, hip_b: 0.5 }, 10, "before");
  if (!stance || !toe || stance.note === "starts late" || !hips || !(stance.seconds < toe.seconds)) return null;
  const frames = framesBetween(tracks, stance.seconds, toe.seconds);
  if (!isCovered(hips.h, frames, tracks)) return null;
  const known = frames.filter((frame) => Number.isFinite(hips.h[frame]));
  const lowest = known.reduce((a, b) => ((hips.h[b] ?? NaN) < (hips.h[a] ?? NaN) ? b : a), known[0] ?? 0);
  if (lowest === known[0]) return { seconds: stance.seconds, sdSeconds: stance.sdSeconds, note: "no shift back" };
  const three = [lowest - 1, lowest, lowest + 1];
  const times = three.map((frame) => (tracks.seconds[frame] ?? NaN) - (tracks.seconds[lowest] ?? NaN));
  const bend = secondDifference(three.map((frame) => hips.h[frame] ?? NaN), times)[1] ?? NaN;
  const rise = (hips.h[lowest + 1] ?? NaN) - (hips.h[lowest] ?? NaN);
  const ahead = times[2] ?? NaN;
  const vertex = bend > 0 ? -(rise / ahead - (bend * ahead) / 2) / bend : 0;
  const shift = Number.isFinite(vertex) ? Math.max(times[0] ?? 0, Math.min(ahead, vertex)) : 0;
  const seconds = Math.min(toe.seconds, Math.max(stance.seconds, (tracks.seconds[lowest] ?? NaN) + shift));
  return { seconds, sdSeconds: eventSd(tracks.periodSeconds, [hips.speedSd / Math.abs(bend), breadthSd(hips.h, lowest, hips.sd, known, tracks)], 0.015, 0.08), note: null };
}
