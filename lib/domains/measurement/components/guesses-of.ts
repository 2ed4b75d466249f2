import type { EventGuess } from "@/lib/domains/clips/components/event-guesses";
import { clockSecondsOf, contactTickOf, nearestFrame, tickAtClockSeconds } from "@/lib/domains/clips/rules";
import type { SwingPage } from "@/lib/domains/clips/schema";
import { suggestEvents } from "@/lib/measure/suggest-events/suggest-events";
import type { Suggestion } from "@/lib/measure/suggest-events/suggestion";
import { clipInput, swingInput } from "../rules";
import { measurementWords as words } from "./words";

/**
 * Where the events of a swing that nobody has set probably are on one of its clips, from its points as they stand. Computed
 * for the page and kept nowhere. Empty while the real time of the clip is not known.
 */
export function guessesOf(swing: SwingPage, clipId: string): readonly EventGuess[] {
  const own = swing.clips.find(({ clip }) => clip.id === clipId);
  if (!own || own.clip.timeBasis === "unknown" || own.clip.points.length === 0) return [];
  const { clip, camera } = own;
  const zero = contactTickOf(clip.events);
  // Without contact the clock begins at the first frame: contact itself may still be found.
  const seconds = clip.frameTimes.ticks.map((_, frame) => clockSecondsOf(clip, frame, zero));
  const [first, last] = [seconds[0] ?? NaN, seconds[seconds.length - 1] ?? NaN];
  const known = zero === null ? {} : swingInput(swing, clip).events;
  return suggestEvents({ ...clipInput(clip, camera), secondsFromContact: seconds }, swing.side, known).flatMap((it): EventGuess[] => {
    if (it.seconds < first || it.seconds > last) return [];
    const frameIndex = nearestFrame(clip.frameTimes, tickAtClockSeconds(clip, it.seconds, zero));
    return [{ event: it.event, frameIndex, seconds: zero === null ? null : it.seconds, sdSeconds: it.sdSeconds, note: noteOf(it) }];
  });
}

function noteOf({ event, note }: Suggestion): string {
  const rests = words.guess.rests[event];
  return note === null ? rests : `${rests}; ${words.guess.notes[note]}`;
}
