import { clockSecondsOf, contactTickOf } from "../rules";
import type { ClipView, EventView, MarkView } from "../view";

/** One frame that carries marks. */
export interface MarkedFrame {
  readonly frameIndex: number;
  /** Seconds from contact, or from the first frame where contact is not set. */
  readonly clockSeconds: number;
  readonly marks: readonly MarkView[];
}

/** The frames other than the one shown that carry marks, in the order of time. */
export function markedFrames(clip: ClipView, events: readonly EventView[], marks: readonly MarkView[], shown: number): readonly MarkedFrame[] {
  const zero = contactTickOf(events);
  const frames = [...new Set(marks.map((it) => it.frameIndex))].filter((it) => it !== shown).sort((one, other) => one - other);
  return frames.map((frameIndex) => ({ frameIndex, clockSeconds: clockSecondsOf(clip, frameIndex, zero), marks: marks.filter((it) => it.frameIndex === frameIndex) }));
}
