import { centralDifference } from "@/lib/measure/signals/central-difference";
import { crossingOfTracks } from "@/lib/measure/suggest-events/crossing-of-tracks";
import type { MovingBody } from "@/lib/measure/suggest-events/moving-body";
import { isCovered } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

const SOUND_METRES_PER_SECOND = 343;

/**
 * Contact: where the ball's two straight tracks cross; else the loudest onset in the sound less its way to the camera;
 * else the time of the tip's largest unfiltered speed, a `guess` (no filter may run across a contact that is not known).
 * Source: phases, event contact.
 */
export function suggestContact(body: MovingBody): Found | null {
  return fromBall(body) ?? fromSound(body) ?? fromTip(body);
}

function fromBall({ facts, tracks, noise }: MovingBody): Found | null {
  const crossing = crossingOfTracks(facts.ball ?? [], tracks.periodSeconds, noise("tip", false));
  return crossing && { ...crossing, note: null };
}

function fromSound({ facts }: MovingBody): Found | null {
  const { soundOnsetSeconds: onset, cameraDistanceM: distance } = facts;
  if (onset == null || !Number.isFinite(onset) || !distance || !(distance.value >= 0 && distance.value < Infinity && distance.sd >= 0)) return null;
  const sdSeconds = Math.hypot(0.002, distance.sd / SOUND_METRES_PER_SECOND);
  return { seconds: onset - distance.value / SOUND_METRES_PER_SECOND, sdSeconds, note: null, source: "sound" };
}

function fromTip({ tracks }: MovingBody): Found | null {
  const tip = tracks.byPoint.tip;
  if (!tip || !isCovered(tip.h, [...tracks.seconds.keys()], tracks)) return null;
  const times = tip.frames.map((frame) => tracks.seconds[frame] ?? NaN);
  const [along, up] = [tip.h, tip.v].map((values) => centralDifference(tip.frames.map((frame) => values[frame] ?? NaN), times));
  let [best, most] = [-1, 0];
  for (let i = 1; i < times.length - 1; i++) {
    const speed = Math.hypot(along?.[i] ?? NaN, up?.[i] ?? NaN);
    if (speed > most) [best, most] = [i, speed];
  }
  const seconds = times[best];
  return seconds === undefined ? null : { seconds, sdSeconds: Math.hypot(1.5 * tracks.periodSeconds, 0.004), note: "guess" };
}
