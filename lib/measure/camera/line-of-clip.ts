import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import type { CameraLine } from "./camera-line";
import { combineLines } from "./combine-lines";
import type { PlanePoint } from "./homography";
import { plateLine } from "./plate-line";
import { widthsLine } from "./widths-line";

/** Where a clip's camera stood, as far as the picture tells it. */
export interface ClipLine {
  readonly line: CameraLine | null;
  /** Plate and body do not fit together: a corner, a point or the view is mistaken. */
  readonly areAtOdds: boolean;
  /** Why there is no line, or why the plate gave none; null when all is well. */
  readonly reason: string | null;
}

/** The camera's line from home plate and the body at the stance together; with corners that make no plate there is none. */
export function lineOfClip(clip: ClipInput, swing: SwingInput, corners: readonly PlanePoint[] | null): ClipLine {
  const body = widthsLine(clip, swing);
  if (corners === null) return { line: body.line, areAtOdds: false, reason: body.reason };
  const { view, widthPx } = clip;
  if (view === null || widthPx === undefined) return { line: null, areAtOdds: false, reason: "the view or the size of the picture is not known" };
  const plate = plateLine(corners, hipsColumn(clip, swing), { view, widthPx, side: swing.side, mirrored: clip.mirrored });
  if (!plate.line) return { line: null, areAtOdds: false, reason: plate.reason };
  const { line, areAtOdds } = combineLines(plate.line, body.line) ?? { line: plate.line, areAtOdds: false };
  return { line, areAtOdds, reason: null };
}

/** Pixel column of the middle of the hips on the frame nearest to the stance (else on the first) that has both; null when none has. */
function hipsColumn({ points, secondsFromContact }: ClipInput, { events }: SwingInput): number | null {
  const stance = events.stance?.seconds ?? -Infinity;
  let best: { far: number; x: number } | null = null;
  for (const [key, { hip_f: front, hip_b: back }] of Object.entries(points)) {
    if (!front || !back) continue;
    const at = secondsFromContact?.[Number(key)] ?? Number(key);
    const far = stance === -Infinity ? at : Math.abs(at - stance);
    if (Number.isFinite(front.x + back.x) && (!best || far < best.far)) best = { far, x: (front.x + back.x) / 2 };
  }
  return best?.x ?? null;
}
