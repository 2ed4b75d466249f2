import type { ClipView, EventId } from "@/lib/domains/clips/view";
import type { Reading } from "@/lib/measure/reading";

/** A frame to look at for a reading: at an event, or the frame of a window that decided it. */
export interface TakenAt {
  readonly event: EventId | "window";
  readonly frameIndex: number;
}

/** The frames of a clip at which a reading was taken, in the order of time; none when its events lie outside the clip. */
export function takenAt(reading: Reading, events: ClipView["events"]): readonly TakenAt[] {
  const { frames, events: used } = reading.inputsUsed;
  const wanted = new Set<EventId | "window">([...used, ...frames.map(({ at }) => at)]);
  const found = [...wanted].flatMap((event) => {
    const frameIndex = events.find((it) => it.event === event)?.frameIndex ?? frames.find(({ at }) => at === event)?.frameIndex;
    return frameIndex == null ? [] : [{ event, frameIndex }];
  });
  return found.sort((a, b) => a.frameIndex - b.frameIndex);
}
