import { contactOf, movingPlace, type MovingBody, type MovingPlace } from "@/lib/measure/suggest-events/moving-body";
import { eventSd, framesBetween, isCovered, passingSeconds, slopeAround } from "@/lib/measure/suggest-events/runs";
import type { Found } from "@/lib/measure/suggest-events/suggestion";

/** Share of the tip's peak speed before contact below which the barrel is not yet, or no longer, swung. */
export const SLOW_SHARE = 0.15;
const WINDOW_SECONDS = 0.35;
/**
 * How far the moment in the picture may lie from that in space, where the barrel first moves in depth, and what a 20 Hz
 * filter can tell apart (1 / (2 pi 20 Hz) = 0.008 s) together: judgement from drawn swings, of which the two lie 11 ms
 * apart in the middle. The library's rule leaves it out.
 */
const PICTURE_SECONDS = 0.01;

/** The tip filtered at 20 Hz up to contact and its largest speed in the 0.35 s before; null where it is not placed on 80 % of those frames. */
export function tipBeforeContact(body: MovingBody): { readonly tip: MovingPlace; readonly frames: readonly number[]; readonly peak: number } | null {
  const contact = contactOf(body);
  const tip = movingPlace(body, { tip: 1 }, 20, "before");
  if (contact === null || !tip) return null;
  const frames = framesBetween(body.tracks, contact - WINDOW_SECONDS, contact);
  if (!isCovered(tip.speed, frames, body.tracks)) return null;
  const peak = Math.max(...frames.map((frame) => tip.speed[frame] ?? NaN).filter(Number.isFinite));
  return peak > 0 ? { tip, frames, peak } : null;
}

/**
 * Launch: after the last frame before contact with the tip, filtered at 20 Hz, at 15 % of its peak speed or less: when
 * it passes that speed. Only where the tip is placed by hand on every frame of the 0.35 s before contact.
 * Source: phases, event launch.
 */
export function suggestLaunch(body: MovingBody): Found | null {
  const { tracks } = body;
  const found = tipBeforeContact(body);
  const track = tracks.byPoint.tip;
  const contact = contactOf(body);
  if (!found || !track || contact === null || (tracks.seconds[0] ?? NaN) > contact - WINDOW_SECONDS + tracks.periodSeconds) return null;
  const { tip, frames, peak } = found;
  if (!frames.every((frame) => Number.isFinite(track.h[frame]) && !track.suggestedFrames.has(frame) && Number.isFinite(tip.speed[frame]))) return null;
  const limit = SLOW_SHARE * peak;
  const last = [...frames].reverse().find((frame) => (tip.speed[frame] ?? NaN) <= limit);
  if (last === undefined || last === frames.at(-1)) return null;
  const slope = Math.abs(slopeAround(tip.speed, last, tracks));
  const sdSeconds = eventSd(tracks.periodSeconds, [tip.speedSd / slope, (SLOW_SHARE * tip.speedSd) / slope, PICTURE_SECONDS], 0.004, Infinity);
  return Number.isFinite(sdSeconds) ? { seconds: passingSeconds(tip.speed, last + 1, limit, tracks), sdSeconds, note: null } : null;
}
