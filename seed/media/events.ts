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

const STEP = 0.001;

/** Speed of the end of the barrel in m/s between each two of a row of times one millisecond apart, and the middle times. */
function tipSpeeds(hitter: Hitter, from: number, to: number): { readonly time: number; readonly speed: number }[] {
  const count = Math.round((to - from) / STEP);
  const tips = Array.from({ length: count + 1 }, (_, i) => hitter.poseAt(from + i * STEP).bat.tip);
  return tips.slice(1).map((tip, i) => ({ time: from + (i + 0.5) * STEP, speed: distance(tip, tips[i] ?? tip) / STEP }));
}

/**
 * The events of a hitter. Stance (last quiet moment), load (hips furthest back, or where they would be), toe (touches), plant (heel
 * down) and contact are keys of the motion; launch (last time before contact with the barrel's end at 15 % of its greatest speed),
 * extension (hands furthest from the chest within 0.12 s) and finish (start of the first 50 ms under that speed) are found on it.
 */
export function eventsOf(hitter: Hitter): SwingEvents {
  const { times } = hitter;
  const before = tipSpeeds(hitter, times.load, 0);
  const slow = 0.15 * Math.max(...before.map(({ speed }) => speed));
  let launch = times.load;
  for (let i = before.length - 2; i >= 0; i--) {
    const [here, next] = [before[i], before[i + 1]];
    if (!here || !next || here.speed > slow) continue;
    launch = here.time + (STEP * (slow - here.speed)) / (next.speed - here.speed);
    break;
  }
  const reaches = Array.from({ length: 121 }, (_, i) => {
    const pose = hitter.poseAt(i * STEP);
    return distance(handsOf(pose), pose.chest.centre);
  });
  const extension = reaches.indexOf(Math.max(...reaches)) * STEP;
  let finish = 0;
  let quietSince: number | null = null;
  for (const { time, speed } of tipSpeeds(hitter, 0, 0.6)) {
    if (speed >= slow) quietSince = null;
    else quietSince ??= time;
    if (quietSince !== null && time - quietSince >= 0.05) {
      finish = quietSince;
      break;
    }
  }
  const { stance, load, toe, plant } = times;
  return { stance, load, toe, plant, launch, contact: 0, extension, finish };
}
