import { FOLLOWED_POINTS, type BatEnds, type FollowedPoint } from "@/lib/measure/following/bat-course";
import { MOST_FRAMES_APART } from "@/lib/measure/following/follow-bat";
import type { PointView, UnseenPointView } from "../../view";

/** A stretch between two frames on which ends of the bat are placed by hand. */
export interface BatHole {
  readonly from: number;
  readonly to: number;
  /** The ends that are placed on both of its frames and not on all between. */
  readonly points: readonly FollowedPoint[];
}

/** The ends of the bat as a person placed them, by frame: what was followed before is nothing to follow from. */
export function batByHand(points: readonly PointView[]): ReadonlyMap<number, BatEnds> {
  const byFrame = new Map<number, Partial<Record<FollowedPoint, { x: number; y: number }>>>();
  for (const { frameIndex, point, x, y, source, followedSdPx } of points) {
    if (source !== "coach" || followedSdPx !== undefined || !isFollowedPoint(point)) continue;
    const own = byFrame.get(frameIndex) ?? {};
    byFrame.set(frameIndex, own);
    own[point] = { x, y };
  }
  return byFrame;
}

const isFollowedPoint = (point: PointView["point"]): point is FollowedPoint => (FOLLOWED_POINTS as readonly string[]).includes(point);

/**
 * The stretches around a frame over which the bat can be followed: between the placed frames on either side of it, else those that begin or
 * end on it. Never across contact, where the ball throws the bat off its way, nor over more frames than are held.
 * @param contactTick null = contact is not known @param ticks of the clip's frames
 */
export function batHolesAt(points: readonly PointView[], unseen: readonly UnseenPointView[], frameIndex: number, ticks: readonly number[], contactTick: number | null): readonly BatHole[] {
  const bat = batByHand(points);
  const isSaid = new Set([...points.filter(({ source }) => source === "coach"), ...unseen].map((it) => `${it.frameIndex} ${it.point}`));
  const holes: { from: number; to: number; points: FollowedPoint[] }[] = [];
  for (const point of FOLLOWED_POINTS) {
    const placed = [...bat.keys()].filter((frame) => bat.get(frame)?.[point]).sort((a, b) => a - b);
    const stretches = placed.slice(1).map((to, i) => ({ from: placed[i] ?? to, to }));
    const isOpen = ({ from, to }: { from: number; to: number }) => {
      for (let frame = from + 1; frame < to; frame++) if (!isSaid.has(`${frame} ${point}`)) return to - from <= MOST_FRAMES_APART && !isAcross(from, to);
      return false;
    };
    const own = stretches.find((it) => it.from <= frameIndex && frameIndex < it.to && isOpen(it)) ?? stretches.find((it) => it.from < frameIndex && frameIndex <= it.to && isOpen(it));
    if (!own) continue;
    const same = holes.find(({ from, to }) => from === own.from && to === own.to);
    if (same) same.points.push(point);
    else holes.push({ ...own, points: [point] });
  }
  return holes;

  function isAcross(from: number, to: number): boolean {
    if (contactTick === null) return false;
    // A tenth of an interval, as elsewhere: a frame at contact belongs to both sides.
    const slack = ((ticks[to] ?? NaN) - (ticks[from] ?? NaN)) / (to - from) / 10;
    return (ticks[from] ?? NaN) < contactTick - slack && (ticks[to] ?? NaN) > contactTick + slack;
  }
}
