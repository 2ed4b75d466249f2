import type { View } from "@/lib/measure/clip-input";
import type { PointNoise } from "@/lib/measure/body-lengths";
import { median, percentile } from "@/lib/measure/order-statistics";
import type { PointId } from "@/lib/measure/points";
import type { NoiseModel } from "@/lib/measure/reading-rules";
import { widerInView } from "@/lib/measure/suggest-points/weak-suggestions";
import { framesWithAll } from "@/lib/measure/stance-frames";
import type { ClipTracks, Track } from "@/lib/measure/tracks";

/**
 * The noise of points in a clip, from the model in torso lengths and pixels.
 * @param torsoPx torso length in pixels
 * @param view from where suggested points were seen; null = as the library says
 */
export function pointNoise(model: NoiseModel, torsoPx: number, view: View | null = null): PointNoise {
  const placed = Math.max(model.placed.T * torsoPx, model.placed.px);
  return (point, isSuggested) => {
    const name = point.replace(/_[fb]$/, "");
    const share = isSuggested ? model.suggested[name] : null;
    return share == null ? placed : Math.max(share * widerInView(name, view) * torsoPx, placed);
  };
}

/** Torso over leg (thigh and shank), over arm (upper and fore), over bat: body proportions, for noise only. */
const TORSO_PER = { leg: 0.588, arm: 0.867, bat: 0.6 } as const;

const TORSO_POINTS: readonly PointId[] = ["sh_f", "sh_b", "hip_f", "hip_b"];

/** Whether a point's places can change torsoForNoisePx: any point may where the torso itself is nowhere placed whole. */
export function saysTorsoForNoise(point: PointId, tracks: ClipTracks): boolean {
  return TORSO_POINTS.includes(point) || framesWithAll(tracks, TORSO_POINTS).length === 0;
}

/**
 * About how long the torso is in this picture, for the size of the noise only, never as a scale: the torso wherever it
 * is placed, else what legs, arms or the bat say; 0 when nothing says it (then the pixel floor holds).
 */
export function torsoForNoisePx(tracks: ClipTracks): number {
  const { sh_f: shF, sh_b: shB, hip_f: hipF, hip_b: hipB } = tracks.byPoint;
  if (shF && shB && hipF && hipB) {
    const along = (axis: "h" | "v", frame: number) => (shF[axis][frame] ?? NaN) + (shB[axis][frame] ?? NaN) - (hipF[axis][frame] ?? NaN) - (hipB[axis][frame] ?? NaN);
    const torso = framesWithAll(tracks, TORSO_POINTS).map((frame) => Math.hypot(along("h", frame), along("v", frame)) / 2);
    if (torso.length > 0) return median(torso);
  }
  const leg = chain("hip_f", "kn_f", "an_f") || chain("hip_b", "kn_b", "an_b");
  if (leg > 0) return leg * TORSO_PER.leg;
  const arm = chain("sh_f", "el_f", "wr_f") || chain("sh_b", "el_b", "wr_b");
  if (arm > 0) return arm * TORSO_PER.arm;
  return chain("knob", "tip") * TORSO_PER.bat;

  function chain(...points: PointId[]): number {
    const frames = framesWithAll(tracks, points);
    const lengths = frames.map((frame) => points.slice(1).reduce((sum, point, i) => sum + between(tracks.byPoint[points[i] ?? point], tracks.byPoint[point], frame), 0));
    return frames.length > 0 ? percentile(lengths, 0.95) : 0;
  }
}

function between(a: Track | undefined, b: Track | undefined, frame: number): number {
  if (!a || !b) return NaN;
  return Math.hypot((a.h[frame] ?? NaN) - (b.h[frame] ?? NaN), (a.v[frame] ?? NaN) - (b.v[frame] ?? NaN));
}
