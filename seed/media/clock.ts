import type { SwingSpec } from "./spec";

/** The frames of a clip against contact. */
export interface SwingClock {
  readonly frameCount: number;
  /** The frame on which bat meets ball; contact falls exactly on it. */
  readonly contactFrame: number;
  readonly contactAtSeconds: number;
}

/** Contact comes 0.7 s before the end, so that stance and finish are in the clip. */
export function clockOf(spec: Pick<SwingSpec, "framesPerSecond" | "seconds">): SwingClock {
  const frameCount = Math.round(spec.seconds * spec.framesPerSecond);
  const contactFrame = frameCount - Math.round(0.7 * spec.framesPerSecond);
  return { frameCount, contactFrame, contactAtSeconds: contactFrame / spec.framesPerSecond };
}

/** Time of a frame in seconds from contact. */
export function timeOfFrame(spec: Pick<SwingSpec, "framesPerSecond" | "seconds">, frameIndex: number): number {
  return (frameIndex - clockOf(spec).contactFrame) / spec.framesPerSecond;
}
