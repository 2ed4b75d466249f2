import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { ClipInput } from "@/lib/measure/clip-input";
import type { Expression } from "@/lib/measure/formula";
import { reasonOf, type TrustReason } from "@/lib/measure/trust-reasons";

/** Files say 239.7 or 59.9 for what a camera calls 240 or 60. */
const RATE_TOLERANCE = 0.02;

/** A camera that moved takes away every difference of places across frames; a zoom also every body length. */
export function stillCameraReason(isStillNeeded: boolean, expression: Expression, clip: ClipInput): TrustReason | null {
  if (isStillNeeded && (clip.cameraMoved || clip.stabilised || clip.cameraZoomed)) return reasonOf("camera-moved");
  const comparesFrames = expression.comparesFrames || (expression.lengths?.length ?? 0) > 0 || Object.keys(expression.resting ?? {}).length > 0;
  return clip.cameraZoomed && comparesFrames ? reasonOf("camera-moved", "the camera zoomed during the clip") : null;
}

/** Where the camera stood: nothing for readings made of event times. */
export function cameraLineReason(definition: CheckpointDefinition, clip: ClipInput): TrustReason | null {
  const { maxCameraOffDeg: most } = definition;
  if (most === null) return null;
  if (clip.cameraOffDeg === null || !Number.isFinite(clip.cameraOffDeg)) return reasonOf("camera-unknown");
  const off = Math.abs(clip.cameraOffDeg);
  return off > most ? reasonOf("camera-off-line", `the camera stood ${Math.round(off)} degrees off the line; this needs ${most} or less`) : null;
}

/**
 * Whether it was filmed at enough frames a second.
 * @param fps captured frames a second; for readings of event times those of the slowest clip that gave an event; NaN = not known
 */
export function frameRateReason(definition: CheckpointDefinition, fps: number): TrustReason | null {
  if (fps >= definition.minFps * (1 - RATE_TOLERANCE)) return null;
  const filmed = Number.isFinite(fps) ? `filmed at ${Math.round(fps)} frames a second` : "frames a second not known";
  return reasonOf("slow-frames", `${filmed}; this needs ${definition.minFps}`);
}
