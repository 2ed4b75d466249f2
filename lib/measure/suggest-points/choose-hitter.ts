import { apart, JOINT_NUMBERS, middleOf, NOSE_NUMBER, PAIR_NAMES, torsoOf, type PairName, type SeenBody, type SeenFrame } from "./seen-body";

/** A point that a person placed: it says who is meant. Its name is as everywhere, front and back. */
export interface KnownPlace {
  readonly frameIndex: number;
  readonly point: string;
  readonly x: number;
  readonly y: number;
}

/** The hands are watched from so long before contact to so long after it, in seconds: then nobody else's move as far. */
const SWING = { from: -0.3, to: 0.1 } as const;
/** Steps between frames that lie further apart than this say nothing of the way between. */
const LONGEST_STEP_SECONDS = 0.06;
/** A hand that jumps further than this many torso lengths in a step was lost, not moved. */
const LONGEST_STEP_TORSOS = 1.5;
/** On another number the hitter is taken up again when the hips are no further off than this many torso lengths. */
const SAME_PLACE_TORSOS = 1;

/**
 * Who of several people hits: whoever a coach's points lie on; without any the one whose hands go furthest through the swing, in pixels, so that of
 * two who move alike the nearer counts. Nobody is recognised: only places and ways are looked at.
 * @returns the hitter on every frame on which he or she was seen, by frame index; empty when there is nobody
 */
export function chooseHitter(frames: readonly SeenFrame[], known: readonly KnownPlace[] = []): ReadonlyMap<number, SeenBody> {
  const numbers = [...new Set(frames.flatMap(({ bodies }) => bodies.map(({ body }) => body)))];
  const judged = numbers.map((body) => ({ body, far: farFromKnown(frames, body, known), way: wayOfHands(frames, body) }));
  const isKnown = judged.some(({ far }) => Number.isFinite(far));
  judged.sort((a, b) => (isKnown ? a.far - b.far : b.way - a.way) || a.body - b.body);
  return judged[0] ? throughFrames(frames, judged[0].body) : new Map();
}

/** How far the middle of the hands goes during the swing, in pixels. */
export function wayOfHands(frames: readonly SeenFrame[], body: number): number {
  let [way, before] = [0, null as { readonly seconds: number; readonly seen: SeenBody } | null];
  for (const { seconds, bodies } of frames) {
    const seen = bodies.find((it) => it.body === body);
    if (!seen || seconds < SWING.from || seconds > SWING.to) continue;
    if (before && seconds - before.seconds <= LONGEST_STEP_SECONDS) {
      const step = apart(middleOf(seen, "wr"), middleOf(before.seen, "wr"));
      if (step <= LONGEST_STEP_TORSOS * torsoOf(seen)) way += step;
    }
    before = { seconds, seen };
  }
  return way;
}

/** Mean distance of placed points to the joints of a body in its torso lengths, whichever side; Infinity when none can be compared. */
function farFromKnown(frames: readonly SeenFrame[], body: number, known: readonly KnownPlace[]): number {
  const far: number[] = [];
  for (const { frameIndex, bodies } of frames) {
    const seen = bodies.find((it) => it.body === body);
    if (!seen) continue;
    for (const place of known) {
      if (place.frameIndex !== frameIndex) continue;
      const near = numbersOf(place.point).map((joint) => seen.joints[joint]).flatMap((joint) => (joint ? [apart(joint, place)] : []));
      if (near.length > 0) far.push(Math.min(...near) / torsoOf(seen));
    }
  }
  return far.length > 0 ? far.reduce((sum, it) => sum + it, 0) / far.length : Infinity;
}

function numbersOf(point: string): readonly number[] {
  if (point === "nose") return [NOSE_NUMBER];
  const pair = point.replace(/_[fb]$/, "");
  return (PAIR_NAMES as readonly string[]).includes(pair) ? Object.values(JOINT_NUMBERS[pair as PairName]) : [];
}

/** One person through the frames; one who was lost and found again under another number is the same who stands at the same place. */
function throughFrames(frames: readonly SeenFrame[], body: number): ReadonlyMap<number, SeenBody> {
  const numbered = new Set(frames.flatMap(({ bodies }) => bodies.filter((it) => it.body === body)));
  const found = new Map<number, SeenBody>();
  const follow = (ordered: readonly SeenFrame[]) => {
    let last: SeenBody | null = null;
    for (const { frameIndex, bodies } of ordered) {
      const here: SeenBody | null = found.get(frameIndex) ?? bodies.find((it) => numbered.has(it)) ?? nearest(bodies, last);
      if (!here) continue;
      found.set(frameIndex, here);
      last = here;
    }
  };
  follow(frames);
  follow([...frames].reverse());
  return found;
}

function nearest(bodies: readonly SeenBody[], last: SeenBody | null): SeenBody | null {
  if (!last) return null;
  const hips = middleOf(last, "hip");
  const near = bodies.filter((it) => apart(middleOf(it, "hip"), hips) <= SAME_PLACE_TORSOS * torsoOf(last));
  near.sort((a, b) => apart(middleOf(a, "hip"), hips) - apart(middleOf(b, "hip"), hips));
  return near[0] ?? null;
}
