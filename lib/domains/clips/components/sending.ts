import type { EventId, MarkShape, PointId } from "../view";
import type { Change } from "./kept";
import { eventNames, pointNames } from "./words";

/** How the page keeps what is done in the view. Each promise is refused when nothing was kept. */
export interface Keeping {
  /** Sets it on this clip, or on another clip of the swing, where it stood before. */
  readonly onSetEvent: (event: EventId, frameIndex: number, onClipId?: string) => Promise<unknown>;
  readonly onClearEvent: (event: EventId) => Promise<unknown>;
  readonly onPlacePoint: (point: { readonly frameIndex: number; readonly point: PointId; readonly x: number; readonly y: number }) => Promise<unknown>;
  readonly onPointUnseen: (point: { readonly frameIndex: number; readonly point: PointId }) => Promise<unknown>;
  /** Forget what a person said of the point on the frame: its place, or that it cannot be seen. */
  readonly onRemovePoint: (point: { readonly frameIndex: number; readonly point: PointId }) => Promise<unknown>;
  /** Gives back the id under which the mark was kept. */
  readonly onAddMark: (mark: { readonly frameIndex: number; readonly shape: MarkShape }) => Promise<string>;
  readonly onRemoveMark: (markId: string) => Promise<unknown>;
}

/**
 * Sends one change to whoever keeps it. `lastingIds` remembers under which id each drawn mark was kept; a mark that is
 * changed is kept anew before the old one is removed, so that a broken line leaves two and never none.
 */
export async function send(change: Change, keeping: Keeping, lastingIds: Map<string, string>): Promise<{ from: string; to: string } | null> {
  switch (change.kind) {
    case "event": {
      const { event, after } = change;
      // A suggestion that returns is what stays when the coach's mark is taken away; it is never kept as a mark.
      if (!after || after.source === "suggested") await keeping.onClearEvent(event);
      else if (after.elsewhere) await keeping.onSetEvent(event, after.elsewhere.frameIndex, after.elsewhere.clipId);
      else if (after.frameIndex !== null) await keeping.onSetEvent(event, after.frameIndex);
      return null;
    }
    case "point": {
      const { frameIndex, point, after } = change;
      if (after === "unseen") await keeping.onPointUnseen({ frameIndex, point });
      else if (after?.source === "coach") await keeping.onPlacePoint({ frameIndex, point, x: after.x, y: after.y });
      else await keeping.onRemovePoint({ frameIndex, point });
      return null;
    }
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

/** What was not kept, why, and how things stand now. */
export function notKept(change: Change, problem: unknown): string {
  const why = problem instanceof Error && problem.message.endsWith(".") ? ` ${problem.message}` : "";
  const what = change.kind === "event" ? eventNames[change.event] : change.kind === "point" ? `The ${pointNames[change.point]}` : "The mark";
  return `${what} was not kept.${why} All stands as it was before; please try again.`;
}
