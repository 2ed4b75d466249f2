/** Frame of each clip, by clip. */
export type Frames = Readonly<Record<string, number>>;

/** What is on the screen, what is on its way there, and what is wanted now. */
export interface Showing {
  readonly shown: Frames;
  readonly onItsWay: Frames | null;
  /** When it was sent for, in milliseconds. */
  readonly sentForMs: number;
}

/** A picture that takes longer than this is given up for what is wanted by now. */
const mostWaitMs = 400;

export const nothingShown: Showing = { shown: {}, onItsWay: null, sentForMs: 0 };

/**
 * One look at clips that move together: all of them change in one go, once every picture of one and the same instant is
 * ready. While an instant is on its way newer wishes wait, and only the newest of them is sent for then: pictures are
 * dropped, none is late, and clips never show different instants.
 */
export function turnShowing(now: Showing, asked: Frames, isReady: (clipId: string, frameIndex: number) => boolean, nowMs: number): Showing {
  const areReady = (frames: Frames) => Object.entries(frames).every(([clipId, frame]) => isReady(clipId, frame));
  if (isSame(asked, now.shown)) return now.onItsWay ? { ...now, onItsWay: null } : now;
  if (areReady(asked)) return { ...now, shown: asked, onItsWay: null };
  const { onItsWay } = now;
  if (!onItsWay || !hasSameClips(onItsWay, asked)) return { ...now, onItsWay: asked, sentForMs: nowMs };
  if (areReady(onItsWay)) return { shown: onItsWay, onItsWay: asked, sentForMs: nowMs };
  return nowMs - now.sentForMs > mostWaitMs && !isSame(onItsWay, asked) ? { ...now, onItsWay: asked, sentForMs: nowMs } : now;
}

export function isSame(a: Frames, b: Frames): boolean {
  return hasSameClips(a, b) && Object.keys(a).every((id) => a[id] === b[id]);
}

function hasSameClips(a: Frames, b: Frames): boolean {
  const ids = Object.keys(a);
  return ids.length === Object.keys(b).length && ids.every((id) => id in b);
}
