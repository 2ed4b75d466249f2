import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { flushSync } from "react-dom";
import type { FrameSource, Travel } from "../frame-source-type";
import { isSame, nothingShown, turnShowing, type Frames, type Showing } from "./showing";

export interface ShowingOptions {
  /** The frame wanted of every clip. */
  readonly asked: Frames;
  /** Clips that change in one go; any other changes by itself. */
  readonly together: readonly string[];
  /** Pictures of the clips that are open; one that is not does not keep the others waiting. */
  readonly sources: Readonly<Record<string, FrameSource>>;
  readonly travel: Travel;
}

const lookAgainMs = 100;

/**
 * The frames that are on the screen. A change waits until the pictures of one instant are ready in all clips that move
 * together; it is painted in the same go, so that words and pixels always tell of the same frame. Pictures that are ready are shown with
 * the very paint in which they are asked for, not one later.
 */
export function useShowing(options: ShowingOptions): Frames {
  const [shown, setShown] = useState<Frames>({});
  const optionsRef = useRef(options);
  const groupsRef = useRef(new Map<string, Showing>());
  const requestRef = useRef(0);

  useLayoutEffect(() => {
    optionsRef.current = options;
    const turn = (nowMs: number, show: (all: Frames) => void) => {
      const { asked, together, sources, travel } = optionsRef.current;
      const open = Object.keys(asked).filter((id) => sources[id]);
      const groups = [open.filter((id) => together.includes(id)), ...open.filter((id) => !together.includes(id)).map((id) => [id])].filter((it) => it.length > 0);
      const before = groupsRef.current;
      const seen = Object.assign({}, ...[...before.values()].map((it) => it.shown)) as Frames;
      const after = new Map<string, Showing>();
      let isWaiting = false;
      for (const ids of groups) {
        const key = ids.join(" ");
        const known = before.get(key) ?? { ...nothingShown, shown: pick(seen, ids) };
        const now = turnShowing(known, pick(asked, ids), (id, frame) => isReady(sources[id], frame), nowMs);
        after.set(key, now);
        const sentFor = now.onItsWay ?? now.shown;
        for (const id of ids) sources[id]?.want(sentFor[id] ?? asked[id] ?? 0, travel);
        isWaiting ||= now.onItsWay !== null;
      }
      groupsRef.current = after;
      const all = Object.assign({}, ...[...after.values()].map((it) => it.shown)) as Frames;
      if (!isSame(all, seen)) show(all);
      if (isWaiting) again(lookAgainMs);
    };
    const turnAlone = (nowMs: number) => {
      requestRef.current = 0;
      turn(nowMs, (all) => flushSync(() => setShown(all)));
    };
    const again = (afterMs: number) => {
      if (requestRef.current !== 0) return;
      if (afterMs === 0) requestRef.current = requestAnimationFrame(turnAlone);
      else timer = setTimeout(() => again(0), afterMs);
    };
    let timer: ReturnType<typeof setTimeout> | undefined;
    turn(performance.now(), setShown);
    const stops = Object.values(options.sources).map((source) => source.onReady(() => again(0)));
    return () => {
      clearTimeout(timer);
      for (const stop of stops) stop();
    };
  }, [options]);

  useEffect(() => () => cancelAnimationFrame(requestRef.current), []);
  return shown;
}

/** Ready to be drawn; a frame that can never be keeps nobody waiting. */
function isReady(source: FrameSource | undefined, frame: number): boolean {
  return !source || source.draw(frame, () => undefined) || source.isLost(frame);
}

function pick(frames: Frames, ids: readonly string[]): Frames {
  return Object.fromEntries(ids.flatMap((id) => (frames[id] === undefined ? [] : [[id, frames[id]]])));
}
