/** Frame of each clip, by clip. */
export type Frames = Readonly<Record<string, number>>;

/** What is on the screen, what is on its way there, and what is wanted now. */
export interface Showing {
  readonly shown: Frames;
  readonly onItsWay: Frames | null;
  /** When it was sent for, in milliseconds. */
  readonly sentForMs: number;
  /** The instants that were asked for since the one that is shown, the newest last. */
  readonly missed: readonly Frames[];
}

/** A picture that takes longer than this is given up for what is wanted by now. */
const mostWaitMs = 400;
/** Instants further back than so many are too old to be shown. */
const mostMissed = 24;

export const nothingShown: Showing = { shown: {}, onItsWay: null, sentForMs: 0, missed: [] };

/**
 * One look at clips that move together: all of them change in one go, once every picture of one and the same instant is
 * ready. While an instant is on its way newer wishes wait, and only the newest of them is sent for then: pictures are
 * dropped, none is late, and clips never show different instants. Where what is wanted now is not there yet, the newest
 * instant is shown that was wanted before it and is.
 */
export function turnShowing(now: Showing, asked: Frames, isReady: (clipId: string, frameIndex: number) => boolean, nowMs: number): Showing {
  const areReady = (frames: Frames) => Object.entries(frames).every(([clipId, frame]) => isReady(clipId, frame));
  if (isSame(asked, now.shown)) return now.onItsWay || now.missed.length > 0 ? { ...now, onItsWay: null, missed: [] } : now;
  if (areReady(asked)) return { ...now, shown: asked, onItsWay: null, missed: [] };
  const last = now.missed.at(-1);
  const missed = last && isSame(last, asked) ? now.missed : [...now.missed.filter((it) => hasSameClips(it, asked)), asked].slice(-mostMissed);
  const newest = missed.findLastIndex(areReady);
  const seen = newest < 0 ? { ...now, missed } : { ...now, shown: missed[newest] ?? now.shown, missed: missed.slice(newest + 1) };
  const { onItsWay } = now;
  const isThere = onItsWay !== null && !seen.missed.some((it) => isSame(it, onItsWay));
  if (!onItsWay || !hasSameClips(onItsWay, asked) || isThere) return { ...seen, onItsWay: asked, sentForMs: nowMs };
  return nowMs - now.sentForMs > mostWaitMs && !isSame(onItsWay, asked) ? { ...seen, onItsWay: asked, sentForMs: nowMs } : seen;
}

export function isSame(a: Frames, b: Frames): boolean {
  return hasSameClips(a, b) && Object.keys(a).every((id) => a[id] === b[id]);
}

function hasSameClips(a: Frames, b: Frames): boolean {
  const ids = Object.keys(a);
  return ids.length === Object.keys(b).length && ids.every((id) => id in b);
}
