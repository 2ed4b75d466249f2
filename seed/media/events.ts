import { handsOf, type Hitter } from "./skeleton";
import { distance } from "./vec";

/** True times of a swing's events in seconds from contact. */
export interface SwingEvents {
  readonly stance: number;
  readonly load: number;
  readonly toe: number;
  readonly plant: number;
  readonly launch: number;
  readonly contact: 0;
  readonly extension: number;
  readonly finish: number;
}

const STEP = 0.0005;

/** Speed of the end of the barrel in m/s. */
export function tipSpeed(hitter: Hitter, timeSeconds: number): number {
  const h = 0.0005;
  return distance(hitter.poseAt(timeSeconds + h).bat.tip, hitter.poseAt(timeSeconds - h).bat.tip) / (2 * h);
}

/**
 * The events of a hitter. Stance (last quiet moment), load (hips furthest back, or where they would be), toe (touches), plant (heel
 * down) and contact are keys of the motion; launch (last time before contact with the barrel's end at 15 % of its greatest speed),
 * extension (hands furthest from the chest within 0.12 s) and finish (start of the first 50 ms under that speed) are found on it.
 */
export function eventsOf(hitter: Hitter): SwingEvents {
  const { times } = hitter;
  let peak = 0;
  for (let t = -0.1; t <= 0; t += STEP) peak = Math.max(peak, tipSpeed(hitter, t));
  const slow = 0.15 * peak;
  let launch = 0;
  while (launch > times.load && tipSpeed(hitter, launch) > slow) launch -= STEP;
  let extension = 0;
  let furthest = 0;
  for (let t = 0; t <= 0.12; t += STEP) {
    const pose = hitter.poseAt(t);
    const reachM = distance(handsOf(pose), pose.chest.centre);
    if (reachM > furthest) [furthest, extension] = [reachM, t];
  }
  let finish = 0;
  let quietSince: number | null = null;
  for (let t = 0; t <= 0.6; t += 2 * STEP) {
    if (tipSpeed(hitter, t) >= slow) quietSince = null;
    else quietSince ??= t;
    if (quietSince !== null && t - quietSince >= 0.05) {
      finish = quietSince;
      break;
    }
  }
  const { stance, load, toe, plant } = times;
  return { stance, load, toe, plant, launch, contact: 0, extension, finish };
}
