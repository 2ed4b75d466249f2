import { clockSecondsOf, contactTickOf, eventSecondsOf, nearestFrame, tickAtClockSeconds } from "../../rules";
import type { ClipView, EventId } from "../../view";
import { matchedStretches, straight, toCommon, toOwn, type Stretches } from "./stretches";

/** Why a clip cannot stand on the common clock. */
export type NotLined = "no-contact" | "time-unknown";

/** One clip as the common clock sees it. */
export interface LinedClip {
  readonly id: string;
  readonly clip: ClipView;
  readonly frameCount: number;
  /** Tick of contact; null when the clip cannot be lined up and counts from its first frame. */
  readonly zeroTick: number | null;
  readonly notLined: NotLined | null;
  /** Its own real seconds from contact against the seconds of the common clock; alike unless times are stretched to match. */
  readonly stretches: Stretches;
}

/** A clip on the clock by itself, its times as they are. */
export function linedClip(clip: ClipView): LinedClip {
  const contact = contactTickOf(clip.events);
  const notLined = contact === null ? "no-contact" : clip.timeBasis === "unknown" ? "time-unknown" : null;
  return { id: clip.id, clip, frameCount: clip.frameTimes.ticks.length, zeroTick: notLined ? null : contact, notLined, stretches: straight };
}

/** The clips of a page on one clock; when stretched, the events of each fall on those of the first that can be lined up. */
export function lineUp(clips: readonly ClipView[], isStretched: boolean): readonly LinedClip[] {
  const lined = clips.map(linedClip);
  const first = lined.find((it) => !it.notLined);
  if (!isStretched || !first) return lined;
  return lined.map((it) => (it === first || it.notLined ? it : { ...it, stretches: matchedStretches(eventTimes(it), eventTimes(first)) }));
}

/** Own real seconds of every event that falls on the clip, in the order of time. */
export function eventTimes(lined: LinedClip): readonly { readonly event: EventId; readonly seconds: number }[] {
  return lined.clip.events
    .flatMap((it) => {
      const seconds = it.frameIndex === null ? null : eventSecondsOf(lined.clip, it, lined.zeroTick);
      return seconds === null ? [] : [{ event: it.event, seconds }];
    })
    .sort((a, b) => a.seconds - b.seconds);
}

/** Own real seconds of a frame: from contact, or from the first frame when the clip is not lined up. */
export function ownSeconds(lined: LinedClip, frameIndex: number): number {
  return clockSecondsOf(lined.clip, frameIndex, lined.zeroTick);
}

/** Where a frame stands on the common clock. */
export function commonSeconds(lined: LinedClip, frameIndex: number): number {
  return toCommon(lined.stretches, ownSeconds(lined, frameIndex));
}

/** The own frame nearest in real time to an instant of the common clock; the ends stand for all that lies beyond. */
export function frameAt(lined: LinedClip, seconds: number): number {
  return nearestFrame(lined.clip.frameTimes, tickAtClockSeconds(lined.clip, toOwn(lined.stretches, seconds), lined.zeroTick));
}

/** First and last instant of a clip on the common clock. */
export function reachOf(lined: LinedClip): readonly [number, number] {
  return [commonSeconds(lined, 0), commonSeconds(lined, lined.frameCount - 1)];
}

/** Whether an instant lies before or after the film: then its first or last frame stands for it. */
export function isBeyond(lined: LinedClip, seconds: number): boolean {
  const [first, last] = reachOf(lined);
  const half = lined.frameCount > 1 ? (last - first) / (lined.frameCount - 1) / 2 : 0;
  return seconds < first - half - 1e-9 || seconds > last + half + 1e-9;
}
