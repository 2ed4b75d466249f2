import { medianIntervalSeconds } from "@/lib/core/frame-times";
import { MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import { intervalError, momentOnFrame } from "@/lib/measure/time/interval-error";
import { realSecondsFrom } from "@/lib/measure/time/real-seconds";
import { likelySlowMotion, type LikelySlowMotion, type TellingId, type TimedStretch } from "@/lib/measure/time/slow-motion";
import { contactTickOf } from "../rules";
import type { ClipView, EventId } from "../view";

const BEGINS: readonly (readonly [TellingId, EventId])[] = [["plant-to-contact-time", "plant"], ["launch-to-contact-time", "launch"]];

/** The stretches that tell a wrong clock, from what a coach marked on this clip, by its present clock. */
export function toldStretches(clip: Pick<ClipView, "events" | "frameTimes" | "realSecondsPerFileSecond">): readonly TimedStretch[] {
  const zero = contactTickOf(clip.events.filter((it) => it.source === "coach" && !it.elsewhere));
  const { seconds } = zero === null ? { seconds: null } : realSecondsFrom(clip.frameTimes, clip.realSecondsPerFileSecond, zero);
  if (!seconds) return [];
  const frameOf = (event: EventId) => clip.events.find((it) => it.event === event && it.source === "coach" && !it.elsewhere)?.frameIndex ?? -1;
  const contact = momentOnFrame(seconds, frameOf("contact"));
  if (!contact) return [];
  return BEGINS.flatMap(([id, event]) => {
    const begin = momentOnFrame(seconds, frameOf(event));
    const error = begin && intervalError({ ...begin, sdSeconds: Math.hypot(begin.sdSeconds, MARKED_SD_SECONDS[event]) }, contact);
    return begin && error ? [{ id, seconds: contact.seconds - begin.seconds, sdSeconds: error.sdSeconds }] : [];
  });
}

/** Whether the clip's clock cannot be right, and the likely slow motion to ask about; null when there is nothing to ask. */
export function slowMotionOf(clip: Pick<ClipView, "events" | "frameTimes" | "realSecondsPerFileSecond" | "facts">): LikelySlowMotion | null {
  const fileFps = 1 / medianIntervalSeconds(clip.frameTimes);
  const { realSecondsPerFileSecond, facts } = clip;
  return likelySlowMotion(toldStretches(clip), { realSecondsPerFileSecond, fileFps: Number.isFinite(fileFps) ? fileFps : null, task: taskOf(facts.task) });
}

const TASKS = ["dry", "tee", "toss", "machine", "live", "game"] as const;
const taskOf = (text: string | null) => TASKS.find((it) => it === text) ?? null;
