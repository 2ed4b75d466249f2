import type { ClipContext } from "@/lib/measure/clip-context";
import type { PointId } from "@/lib/measure/points";
import { framesWithAll } from "@/lib/measure/stance-frames";
import { framesBefore, secondsOf } from "@/lib/measure/tracks";

/** Pairs of which the front one is plainly nearer the pitcher when the front foot lands, seen from the side. */
const AHEAD_AT_PLANT = ["hip", "kn", "an", "heel", "toe"] as const;
/** Pairs of which the back one has plainly come round toward the plate, seen from front or rear. */
const ROUND_AFTER_CONTACT = ["hip", "sh"] as const;
type Pair = (typeof AHEAD_AT_PLANT)[number] | (typeof ROUND_AFTER_CONTACT)[number];

const NAMES: Readonly<Record<Pair, string>> = { hip: "hips", sh: "shoulders", kn: "knees", an: "ankles", heel: "heels", toe: "toes" };

/** After contact the turn is looked at this long, seconds. */
const AFTER_CONTACT_SECONDS = [0.04, 0.15] as const;
/** So far the wrong way round, in torso lengths and in SDs, is no noise. */
const PLAIN = { torsos: 0.12, sds: 5 } as const;

const FOUND = new WeakMap<ClipContext, readonly Pair[]>();

/**
 * Pairs of points whose front and back lie the wrong way round: from the side when the front foot lands, from front or
 * rear just after contact. All of them together = the side of the swing or the mirroring of the file is not as noted.
 */
export function exchangedPairs(context: ClipContext): readonly Pair[] {
  const known = FOUND.get(context);
  if (known) return known;
  const { clip, swing, tracks } = context;
  const { plant, contact } = swing.events;
  const found = !tracks ? [] :
    clip.view === "side" ? (plant ? AHEAD_AT_PLANT.filter((pair) => isWrongWay(pair, 1, plant.seconds - 1.5 * tracks.periodSeconds, plant.seconds + 1.5 * tracks.periodSeconds, context)) : []) :
    contact ? ROUND_AFTER_CONTACT.filter((pair) => isWrongWay(pair, -1, contact.seconds + AFTER_CONTACT_SECONDS[0], contact.seconds + AFTER_CONTACT_SECONDS[1], context)) : [];
  FOUND.set(context, found);
  return found;
}

/** Whether front less back, times the sign it should have, is plainly below 0 on every frame of a stretch that has both. */
function isWrongWay(pair: Pair, sign: 1 | -1, fromSeconds: number, toSeconds: number, { tracks, noise, length }: ClipContext): boolean {
  const [front, back] = [`${pair}_f`, `${pair}_b`] as [PointId, PointId];
  if (!tracks) return false;
  const least = Math.max(PLAIN.torsos * (length("T")?.value ?? 0), PLAIN.sds * Math.SQRT2 * noise(front, false));
  const both = framesWithAll(tracks, [front, back]);
  const frames = [];
  for (let i = framesBefore({ frames: both }, tracks, fromSeconds); i < both.length && secondsOf(tracks, both[i] ?? 0) <= toSeconds; i++) frames.push(both[i] ?? 0);
  const ahead = (frame: number) => sign * ((tracks.byPoint[front]?.h[frame] ?? NaN) - (tracks.byPoint[back]?.h[frame] ?? NaN));
  return frames.length > 0 && frames.every((frame) => ahead(frame) < -least);
}

/**
 * Why a reading of these points cannot be trusted, as a sentence; null when nothing is exchanged that it reads. Two pairs
 * or more speak of the whole clip.
 */
export function exchangedSidesProblem(points: readonly PointId[], context: ClipContext): string | null {
  const pairs = exchangedPairs(context);
  if (points.length === 0) return null;
  if (pairs.length > 1) return "front and back are exchanged: is the side of the swing right, and whether the file is mirrored?";
  const own = pairs.find((pair) => points.includes(`${pair}_f` as PointId) || points.includes(`${pair}_b` as PointId));
  return own ? `front and back are exchanged at the ${NAMES[own]}` : null;
}
