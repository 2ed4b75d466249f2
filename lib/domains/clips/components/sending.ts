import { FOLLOWED_POINTS, type FollowedPoint } from "@/lib/measure/following/bat-course";
import type { PointPair } from "../points/schema";
import type { Spot } from "../rules";
import type { EventWas, PointWas } from "../schema";
import type { EventId, EventView, MarkShape, PointId } from "../view";
import type { Change } from "./kept";
import { swappedPairs } from "./points/point-batch";
import type { PointKnown } from "./points/point-known";
import { ToldProblem } from "./told-problem";
import { eventNames, pointNames } from "./words";

/** A point on a frame, and what a person had said of it when the change was made. */
export interface PointSaid {
  readonly frameIndex: number;
  readonly point: PointId;
  readonly was: PointWas;
}

/** An end of the bat on a frame, followed there or forgotten. */
export interface FollowedSaid {
  readonly frameIndex: number;
  readonly point: FollowedPoint;
  readonly was: PointWas;
  readonly place: (Spot & { readonly followedSdPx: number }) | null;
}

/** An event with where a person had set it when the change was made; without a clip on this one. */
export interface EventSaid {
  readonly event: EventId;
  readonly was: EventWas | { readonly frameIndex: number };
}

/** Somebody changed the same thing since it was looked at; the message says who and what. */
export class Overtaken extends ToldProblem {}

/** How the page keeps what is done in the view. Each promise is refused when nothing was kept, as Overtaken when somebody was faster. */
export interface Keeping {
  /** Sets it on this clip, or on another clip of the swing, where it stood before. */
  readonly onSetEvent: (event: EventSaid & { readonly frameIndex: number; readonly onClipId?: string }) => Promise<unknown>;
  readonly onClearEvent: (event: EventSaid) => Promise<unknown>;
  readonly onPlacePoint: (point: PointSaid & { readonly x: number; readonly y: number }) => Promise<unknown>;
  readonly onPointUnseen: (point: PointSaid) => Promise<unknown>;
  /** Forget what a person said of the point on the frame: its place, or that it cannot be seen. */
  readonly onRemovePoint: (point: PointSaid) => Promise<unknown>;
  /** Exchanges front and back of some pairs on a frame. */
  readonly onSwapPoints: (swap: { readonly frameIndex: number; readonly pairs: readonly PointPair[]; readonly were: readonly Pick<PointSaid, "point" | "was">[] }) => Promise<unknown>;
  /** Places several points of a frame together, or forgets them (null). */
  readonly onPlacePoints: (several: { readonly frameIndex: number; readonly points: readonly (Pick<PointSaid, "point" | "was"> & { readonly place: Spot | null })[] }) => Promise<unknown>;
  /** Takes what was followed through the pictures on several frames together, or forgets it (null). */
  readonly onPlaceFollowed: (followed: { readonly places: readonly FollowedSaid[] }) => Promise<unknown>;
  /** Gives back the id under which the mark was kept. */
  readonly onAddMark: (mark: { readonly frameIndex: number; readonly shape: MarkShape }) => Promise<string>;
  readonly onRemoveMark: (markId: string) => Promise<unknown>;
  /** What stands now must be fetched. */
  readonly onOvertaken: () => void;
}

/**
 * Sends one change to whoever keeps it. `lastingIds` remembers under which id each drawn mark was kept; a mark that is
 * changed is kept anew before the old one is removed, so that a broken line leaves two and never none.
 */
export async function send(change: Change, keeping: Keeping, lastingIds: Map<string, string>): Promise<{ from: string; to: string } | null> {
  switch (change.kind) {
    case "event": {
      const { event, after } = change;
      const said = { event, was: eventWas(change.before) };
      // A suggestion that returns is what stays when the coach's mark is taken away; it is never kept as a mark.
      if (!after || after.source === "suggested") await keeping.onClearEvent(said);
      else if (after.elsewhere) await keeping.onSetEvent({ ...said, frameIndex: after.elsewhere.frameIndex, onClipId: after.elsewhere.clipId });
      else if (after.frameIndex !== null) await keeping.onSetEvent({ ...said, frameIndex: after.frameIndex });
      return null;
    }
    case "point": {
      const { frameIndex, point, after } = change;
      const said = { frameIndex, point, was: pointWas(change.before) };
      const followed = followedOf(after);
      if (after === "unseen") await keeping.onPointUnseen(said);
      // A followed place that was moved by hand, and is taken back to.
      else if (followed && isFollowedPoint(point)) await keeping.onPlaceFollowed({ places: [{ ...said, point, place: followed }] });
      else if (after?.source === "coach") await keeping.onPlacePoint({ ...said, x: after.x, y: after.y });
      else await keeping.onRemovePoint(said);
      return null;
    }
    case "points": {
      const { frameIndex, steps } = change;
      // Exchanged once more all is as it was, suggestions included.
      if (change.by === "swap") await keeping.onSwapPoints({ frameIndex, pairs: swappedPairs(change), were: steps.map(({ point, before }) => ({ point, was: pointWas(before) })) });
      else await keeping.onPlacePoints({ frameIndex, points: steps.map(({ point, before, after }) => ({ point, was: pointWas(before), place: placeOf(after) })) });
      return null;
    }
    case "followed":
      await keeping.onPlaceFollowed({ places: change.steps.map(({ frameIndex, point, before, after }) => ({ frameIndex, point, was: pointWas(before), place: followedOf(after) })) });
      return null;
    case "mark": {
      const lasting = lastingIds.get(change.id) ?? change.id;
      if (!change.after) {
        await keeping.onRemoveMark(lasting);
        return null;
      }
      const { frameIndex, shape } = change.after;
      const id = await keeping.onAddMark({ frameIndex, shape });
      lastingIds.set(change.id, id);
      if (change.before) await keeping.onRemoveMark(lasting);
      return { from: change.id, to: id };
    }
  }
}

function placeOf(known: PointKnown): Spot | null {
  return known && known !== "unseen" && known.source === "coach" ? { x: known.x, y: known.y } : null;
}

function followedOf(known: PointKnown): FollowedSaid["place"] {
  const place = placeOf(known);
  const sd = known && known !== "unseen" ? known.followedSdPx : undefined;
  return place && sd !== undefined ? { ...place, followedSdPx: sd } : null;
}

const isFollowedPoint = (point: PointId): point is FollowedPoint => (FOLLOWED_POINTS as readonly PointId[]).includes(point);

/** A suggestion is nothing that a person said. */
function eventWas(before: EventView | null): EventSaid["was"] {
  if (before?.source !== "coach") return null;
  if (before.elsewhere) return { clipId: before.elsewhere.clipId, frameIndex: before.elsewhere.frameIndex };
  return before.frameIndex === null ? undefined : { frameIndex: before.frameIndex };
}

function pointWas(before: PointKnown): PointWas {
  return before === "unseen" ? before : placeOf(before);
}

/** What was not kept, why, and how things stand now. */
export function notKept(change: Change, problem: unknown): string {
  const what = nameOfChange(change);
  if (problem instanceof Overtaken) return `${what} was not kept as you had it. ${problem.message} That stands now.`;
  const why = problem instanceof ToldProblem ? ` ${problem.message}` : "";
  return `${what} was not kept.${why} All stands as it was before; please try again.`;
}

function nameOfChange(change: Change): string {
  return change.kind === "event" ? eventNames[change.event] : change.kind === "point" ? `The ${pointNames[change.point]}` : change.kind === "points" ? "The change of several points" : change.kind === "followed" ? "What was followed" : "The mark";
}
