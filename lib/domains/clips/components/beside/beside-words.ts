import { sayClock } from "../../rules";
import type { ClipBeside } from "../../view";
import { isBeyond, ownSeconds, type LinedClip } from "./lined-clip";
import type { Anchors, TorsoScale } from "./laid-over";

/** The time of the frame that is shown, as it stands in the corner of its picture. */
export function timeWords(lined: LinedClip, frameIndex: number): string {
  return lined.notLined ? `${sayClock(ownSeconds(lined, frameIndex))} s from its start` : `${sayClock(ownSeconds(lined, frameIndex))} s`;
}

/** What a picture is, for who cannot see it. */
export function pictureWords(caption: string, lined: LinedClip, frameIndex: number): string {
  return `${caption}: frame ${frameIndex + 1} of ${lined.frameCount}, ${sayClock(ownSeconds(lined, frameIndex))} seconds from ${lined.notLined ? "its first frame" : "contact"}`;
}

/** Said where the clock stands outside a film. */
export function beyondWords(lined: LinedClip, clock: number | null): string | null {
  if (clock === null || lined.notLined || !isBeyond(lined, clock)) return null;
  return clock < 0 ? "the film begins here" : "the film ends here";
}

export const notLinedWords = {
  "no-contact": "Contact is not set on it, so it is stepped by itself.",
  "time-unknown": "How fast it was filmed is not known, so it is stepped by itself.",
} as const;

const captionsOf = (clips: readonly ClipBeside[], ids: readonly string[]) => ids.map((id) => `‘${clips.find(({ clip }) => clip.id === id)?.caption ?? ""}’`).join(" and ");

/** By what the pictures are made equally large, or what is missing and what is done instead. */
export function scaleWords(torso: TorsoScale, clips: readonly ClipBeside[]): string {
  if (torso.at === "stance") return "As large as makes the torso equally long at the stance.";
  if (torso.at === "contact") return "As large as makes the torso equally long at contact.";
  if (torso.at === "frames") return "As large as makes the torso equally long, over all frames that show it.";
  return `Shoulders and hips are not placed on ${captionsOf(clips, torso.missing)}: the pictures are shown equally high instead.`;
}

/** What lies on what, or what is missing and what is done instead. */
export function anchorWords(anchors: Anchors, clips: readonly ClipBeside[]): string {
  const when = anchors.at === "stance" ? "as at the stance" : "as at contact";
  if (anchors.by === "hips") return `Hips on hips, ${when}.`;
  if (anchors.by === "back-foot") return `Back foot on back foot, ${when}.`;
  if (anchors.by === "tapped") return "Where you tapped lies on where you tapped.";
  return `The place is not known at the stance or at contact on ${captionsOf(clips, anchors.missing)}: the middles of the pictures lie on one another. Tap a place instead.`;
}

/** Said as long as times are stretched. */
export const stretchedWords = "Stretched to match: the events fall together, so how long things took cannot be seen. The seconds in each picture are its own.";
