import type { Side, View } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { swingPositionOf } from "@/lib/measure/swing-coordinates";
import { JOINT_NUMBERS, NOSE_NUMBER, PAIR_NAMES, torsoOf, type PairName, type SeenBody, type SeenJoint } from "./seen-body";

/** The hitter on one frame. */
export interface HitterFrame {
  readonly frameIndex: number;
  /** Real seconds from contact. */
  readonly seconds: number;
  readonly body: Pick<SeenBody, "joints">;
}

/** How the clip shows the swing. `mirrored` is a fact of the file. */
export interface HowSeen {
  readonly view: View;
  readonly side: Side;
  readonly mirrored: boolean;
}

/** The hitter's points on one frame, front and back as the swing is told, in pixels of the same picture. */
export interface HitterPoints {
  readonly frameIndex: number;
  readonly points: Readonly<Partial<Record<PointId, SeenJoint>>>;
  /** Groups whose front and back the model had exchanged. */
  readonly exchanged: readonly GroupName[];
}

/** Pairs that the model exchanges together. Ears are left as they are: under a helmet nothing tells them apart. */
const GROUPS = { shoulders: ["sh"], arms: ["el", "wr"], hips: ["hip"], legs: ["kn", "an", "heel", "toe"] } as const satisfies Record<string, readonly PairName[]>;
export type GroupName = keyof typeof GROUPS;
const GROUP_NAMES = Object.keys(GROUPS) as readonly GroupName[];

/** What it costs to say that the model has the sides of a group wrong on a frame, in torso lengths: without a reason it is believed. */
const DISBELIEF = 0.02;
/** A point that jumps further is lost, and how much further says nothing. */
const LONGEST_JUMP = 1;
/** A pair that lies further apart says no more than this. */
const MOST_APART = 0.5;
/** In the side view shoulders and hips lie in their order until they turn; from before and behind they do once they have turned. Seconds from contact. */
const TURNS = { shoulders: { before: -0.15, after: -0.02 }, hips: { before: -0.2, after: -0.08 } } as const;

/**
 * Front or back, from the person's left and right as the model took them. A right-handed hitter's front is the left side of the body; in a mirrored
 * file the model takes each side for the other. Then the sides are put right over all frames together: on each frame a group stays as the model said
 * or is exchanged, so that points move least from frame to frame and lie as a hitter's must (the front foot is the pitcher's side's; the trunk turns
 * open). The cheapest choice over the whole stretch is found exactly (Viterbi).
 * @param frames in the order of time
 */
export function frontAndBack(frames: readonly HitterFrame[], how: HowSeen): readonly HitterPoints[] {
  const told = frames.map(({ body }) => toldSides(body, how));
  const torsos = frames.map(({ body }) => torsoOf(body));
  const wrong = new Map(GROUP_NAMES.map((group) => [group, exchangedOn(GROUPS[group], frames.map((frame, i) => ({ told: told[i] ?? {}, torsoPx: torsos[i] ?? NaN, lean: orderedBy(group, frame.seconds, told[i] ?? {}, how) })))]));
  return frames.map(({ frameIndex }, i) => {
    const exchanged = GROUP_NAMES.filter((group) => wrong.get(group)?.[i]);
    const points = exchanged.reduce<Told>((now, group) => swapped(now, GROUPS[group]), told[i] ?? {});
    return { frameIndex, points, exchanged };
  });
}

type Told = Readonly<Partial<Record<PointId, SeenJoint>>>;

/** The joints by the names of points, the sides as the model has them. */
export function toldSides({ joints }: Pick<SeenBody, "joints">, { side, mirrored }: HowSeen): Told {
  const isLeftFront = (side === "right") !== mirrored;
  const points: Partial<Record<PointId, SeenJoint>> = {};
  for (const pair of PAIR_NAMES) {
    const { left, right } = JOINT_NUMBERS[pair];
    const [front, back] = isLeftFront ? [joints[left], joints[right]] : [joints[right], joints[left]];
    if (front) points[`${pair}_f`] = front;
    if (back) points[`${pair}_b`] = back;
  }
  const nose = joints[NOSE_NUMBER];
  return nose ? { nose, ...points } : points;
}

function swapped(points: Told, pairs: readonly PairName[]): Told {
  const now: Partial<Record<PointId, SeenJoint>> = { ...points };
  for (const pair of pairs) [now[`${pair}_f`], now[`${pair}_b`]] = [points[`${pair}_b`], points[`${pair}_f`]];
  return now;
}

/** How far a pair lies in the order in which it must lie, in pixels; positive is right, 0 says nothing. */
function orderedBy(group: GroupName, seconds: number, points: Told, how: HowSeen): number {
  const along = (pair: PairName, axis: "h" | "v"): number => {
    const [front, back] = [points[`${pair}_f`], points[`${pair}_b`]];
    if (!front || !back) return 0;
    const frame = { view: how.view, side: how.side, mirrored: how.mirrored };
    return swingPositionOf({ x: front.x, y: front.y }, frame)[axis] - swingPositionOf({ x: back.x, y: back.y }, frame)[axis];
  };
  if (how.view === "side") {
    if (group === "legs") return along("an", "h");
    if (group === "shoulders" || group === "hips") return seconds < TURNS[group].before ? along(group === "hips" ? "hip" : "sh", "h") : 0;
    return 0;
  }
  // Seen along the line to the pitcher the foot that is further away stands higher in the picture.
  if (group === "legs") return how.view === "rear" ? along("an", "v") : -along("an", "v");
  if (group === "shoulders" || group === "hips") return seconds > TURNS[group].after ? -along(group === "hips" ? "hip" : "sh", "h") : 0;
  return 0;
}

interface GroupFrame {
  readonly told: Told;
  readonly torsoPx: number;
  /** How far the group lies in its order, in pixels. */
  readonly lean: number;
}

/** On which frames a group is exchanged: the cheapest of all ways through the frames. */
export function exchangedOn(pairs: readonly PairName[], frames: readonly GroupFrame[]): readonly boolean[] {
  const cost = (frame: GroupFrame, isSwapped: boolean): number => {
    const lean = Math.max(-MOST_APART, Math.min(MOST_APART, frame.lean / frame.torsoPx || 0));
    return isSwapped ? DISBELIEF + lean : -lean;
  };
  let best = [false, true].map((isSwapped) => ({ cost: frames[0] ? cost(frames[0], isSwapped) : 0, way: [isSwapped] }));
  for (let i = 1; i < frames.length; i++) {
    const [before, now] = [frames[i - 1], frames[i]];
    if (!before || !now) continue;
    const [same, other] = [jump(before, now, pairs, false), jump(before, now, pairs, true)];
    best = [false, true].map((isSwapped) => {
      const from = best.map((it, wasSwapped) => ({ ...it, cost: it.cost + (Boolean(wasSwapped) === isSwapped ? same : other) }));
      const cheapest = from.reduce((a, b) => (b.cost < a.cost ? b : a));
      return { cost: cheapest.cost + cost(now, isSwapped), way: [...cheapest.way, isSwapped] };
    });
  }
  return frames.length === 0 ? [] : best.reduce((a, b) => (b.cost < a.cost ? b : a)).way;
}

/** How far the points of a group go from one frame to the next, mean in torso lengths, kept as they are or exchanged on one of the two. */
function jump(before: GroupFrame, now: GroupFrame, pairs: readonly PairName[], isExchanged: boolean): number {
  const ways = pairs.flatMap((pair) => [`${pair}_f`, `${pair}_b`] as const).map((point): number => {
    const other = point.endsWith("_f") ? (point.replace(/_f$/, "_b") as PointId) : (point.replace(/_b$/, "_f") as PointId);
    const [a, b] = [before.told[point], now.told[isExchanged ? other : point]];
    return a && b ? Math.min(LONGEST_JUMP, Math.hypot(a.x - b.x, a.y - b.y) / now.torsoPx) : 0;
  });
  const sum = ways.reduce((total, it) => total + (Number.isFinite(it) ? it : 0), 0);
  return (2 * sum) / Math.max(1, ways.length);
}
