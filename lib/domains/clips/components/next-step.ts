import { medianIntervalSeconds } from "@/lib/core/frame-times";
import { contactTickOf, realSecondsBetween } from "../rules";
import type { ClipView, EventView } from "../view";

/** A clip that begins later than this before contact shows no load, and perhaps no toe. */
const leastBeforeSeconds = 0.4;
/** A clip that ends sooner than this after contact shows no extension. */
const leastAfterSeconds = 0.1;

/** What keeps a clip from being read as a whole, and what to do next, in one sentence; null when nothing stands in the way. */
export function nextStep(clip: Pick<ClipView, "frameTimes" | "realSecondsPerFileSecond" | "timeBasis">, events: readonly EventView[]): string | null {
  const { ticks } = clip.frameTimes;
  if (ticks.length < 2 || Number.isNaN(medianIntervalSeconds(clip.frameTimes))) return "This clip has one frame: draw on it, and film the swing again to read it.";
  if (clip.timeBasis === "unknown") return "Nobody has said how fast this was filmed, so the times are those of the file: say it below under “How it was filmed”.";
  const contact = events.find((it) => it.event === "contact");
  const zero = contactTickOf(events);
  if (!contact || zero === null) return "Step to the frame where the bat meets the ball and press C: every time is counted from there.";
  if (contact.source === "suggested") return "Contact is only suggested: step to the frame where the bat meets the ball and press C.";
  const placed = events.filter((it) => it.event !== "contact" && it.source === "coach");
  const before = -realSecondsBetween(clip, zero, ticks[0] ?? zero);
  const after = realSecondsBetween(clip, zero, ticks[ticks.length - 1] ?? zero);
  const short =
    before < leastBeforeSeconds ? `The clip begins ${before.toFixed(2)} s before contact` : after < leastAfterSeconds ? `The clip ends ${after.toFixed(2)} s after contact` : null;
  if (placed.length === 0) return short ? `${short}: set the events that it does show, and leave the others.` : "Set the other events, first plant and launch: points are asked for on their frames.";
  return short ? `${short}: what lies outside it cannot be read, so film the next swing a little longer.` : null;
}
