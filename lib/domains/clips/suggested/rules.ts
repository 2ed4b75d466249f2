import { medianIntervalSeconds } from "@/lib/core/frame-times";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { EventId } from "@/lib/measure/clip-input";
import type { PointId } from "@/lib/measure/points";
import { chooseHitter } from "@/lib/measure/suggest-points/choose-hitter";
import { framesToLookAt, type FramesToLookAt } from "@/lib/measure/suggest-points/frames-to-look-at";
import { frontAndBack } from "@/lib/measure/suggest-points/front-and-back";
import type { SeenBody, SeenFrame } from "@/lib/measure/suggest-points/seen-body";
import { contactTickOf, eventSecondsOf, realSecondsBetween } from "../rules";
import type { ClipView } from "../view";
import type { NotSuggested } from "./schema";

/** Below it the model itself says that it does not see the point: it is not suggested. */
const LEAST_CONFIDENCE = 0.5;
/** A hitter who is seen on fewer frames than this share was not found. */
const LEAST_SEEN = 0.25;

/** By what front and back are told. A suggestion made by another one is worth nothing. */
export function basisOf({ view, side, isMirrored }: Pick<ClipView, "view" | "side" | "isMirrored">): string {
  return `${view} ${side} ${isMirrored ? "mirrored" : "as filmed"}`;
}

/** The frames to look at with their real seconds from contact. */
export interface FramesOfClip extends FramesToLookAt {
  readonly seconds: readonly number[];
}

/** Which frames of a clip the model is to look at; or why none. */
export function framesOfClip(clip: ClipView, wanted: readonly CheckpointDefinition[]): FramesOfClip | { readonly why: NotSuggested } {
  const zero = contactTickOf(clip.events);
  if (clip.timeBasis === "unknown") return { why: "time-unknown" };
  if (zero === null) return { why: "no-contact" };
  const seconds = clip.frameTimes.ticks.map((tick) => realSecondsBetween(clip, zero, tick));
  const periodSeconds = medianIntervalSeconds(clip.frameTimes) * clip.realSecondsPerFileSecond;
  if (!(periodSeconds > 0)) return { why: "time-unknown" };
  const events: Partial<Record<EventId, number>> = {};
  for (const event of clip.events) {
    const at = eventSecondsOf(clip, event, zero);
    if (at !== null && event.event !== "release") events[event.event] = at;
  }
  const chosen = framesToLookAt({ view: clip.view, seconds, periodSeconds, events }, wanted);
  return { ...chosen, seconds: chosen.frames.map((frame) => seconds[frame] ?? 0) };
}

/** One suggested point, in pixels of the upright picture. */
export interface SuggestedPoint {
  readonly frameIndex: number;
  readonly point: PointId;
  readonly x: number;
  readonly y: number;
  readonly confidence: number;
}

/** What the model said of one frame. */
export interface SuggestedFrameFacts {
  readonly frameIndex: number;
  /** How sure it was of the hitter; null when it saw none there. */
  readonly presence: number | null;
  readonly exchanged: readonly string[];
}

export interface Suggested {
  readonly frames: readonly SuggestedFrameFacts[];
  readonly points: readonly SuggestedPoint[];
}

/** People on the looked-at frames become suggested points of the hitter; null when no hitter is found. @param looked size of the pictures that the model saw */
export function suggestedFrom(clip: ClipView, looked: { readonly width: number; readonly height: number }, frames: readonly SeenFrame[]): Suggested | null {
  const [scaleX, scaleY] = [clip.widthPx / looked.width, clip.heightPx / looked.height];
  const inPicture = frames.map((frame) => ({ ...frame, bodies: frame.bodies.map((body) => scaled(body, scaleX, scaleY)) }));
  const hitter = chooseHitter(inPicture, clip.points.filter(({ source }) => source === "coach"));
  if (hitter.size === 0 || hitter.size < LEAST_SEEN * frames.length) return null;
  const seen = inPicture.flatMap(({ frameIndex, seconds }) => {
    const body = hitter.get(frameIndex);
    return body ? [{ frameIndex, seconds, body }] : [];
  });
  const told = frontAndBack(seen, { view: clip.view, side: clip.side, mirrored: clip.isMirrored });
  const exchanged = new Map(told.map((it) => [it.frameIndex, it.exchanged]));
  return {
    frames: frames.map(({ frameIndex }) => ({ frameIndex, presence: hitter.get(frameIndex)?.presence ?? null, exchanged: exchanged.get(frameIndex) ?? [] })),
    points: told.flatMap(({ frameIndex, points }) =>
      (Object.entries(points) as [PointId, { x: number; y: number; confidence: number }][]).flatMap(([point, { x, y, confidence }]) =>
        confidence >= LEAST_CONFIDENCE && x >= 0 && y >= 0 && x <= clip.widthPx && y <= clip.heightPx ? [{ frameIndex, point, x, y, confidence }] : [],
      ),
    ),
  };
}

function scaled(body: SeenBody, scaleX: number, scaleY: number): SeenBody {
  return { ...body, joints: body.joints.map(({ x, y, confidence }) => ({ x: x * scaleX, y: y * scaleY, confidence })) };
}

