import type { View } from "@/lib/measure/clip-input";
import checkpointFile from "@/seed/library/checkpoints.json";
import { VIEWS } from "@/seed/media/spec";
import { filmedHitter, goldenHitters } from "./hitters";

/** What a degree of camera off its line does to a checkpoint in one view, over hitters and angles; in its unit for one degree. */
export interface CameraSlope {
  readonly id: string;
  readonly view: View;
  readonly cases: number;
  /** Root mean square of (off-line truth - square truth) / degrees. */
  readonly rms: number;
  /** 95th percentile of its size over 1.96. */
  readonly p95: number;
  /** Mean with the sign of the angle: what could be corrected instead of doubted. */
  readonly mean: number;
  /** Root mean square within thirds of the largest angle: grows when the effect does not grow in line with the angle. */
  readonly rmsByThird: readonly number[];
}

const SHARES = [-1, -0.8, -0.6, -0.4, -0.2, 0.2, 0.4, 0.6, 0.8, 1] as const;

/** Slopes of all checkpoints that a camera's place can change, over drawn hitters at angles up to each checkpoint's own limit. */
export function cameraSlopes(hitterCount: number): readonly CameraSlope[] {
  const found: CameraSlope[] = [];
  for (const { id, views, maxCameraOffDeg: most } of checkpointFile.checkpoints) {
    if (most === null) continue;
    for (const view of VIEWS.filter((one) => views.measured.includes(one))) {
      const slopes: { readonly share: number; readonly slope: number }[] = [];
      for (const spec of goldenHitters(hitterCount)) {
        const square = filmedHitter({ ...spec, view, cameraOffDeg: 0 }).truth.of(id);
        for (const share of SHARES) {
          const off = filmedHitter({ ...spec, view, cameraOffDeg: share * most }).truth.of(id);
          if (square.value === null || off.value === null || square.isCensored || off.isCensored) continue;
          slopes.push({ share: Math.abs(share), slope: (off.value - square.value) / (share * most) });
        }
      }
      const rmsOf = (list: typeof slopes) => Math.sqrt(list.reduce((sum, { slope }) => sum + slope ** 2, 0) / list.length);
      const sizes = slopes.map(({ slope }) => Math.abs(slope)).sort((a, b) => a - b);
      const third = (low: number, high: number) => rmsOf(slopes.filter(({ share }) => share > low && share <= high));
      found.push({
        id, view, cases: slopes.length, rms: rmsOf(slopes), p95: (sizes[Math.floor(0.95 * sizes.length)] ?? NaN) / 1.96,
        mean: slopes.reduce((sum, { slope }) => sum + slope, 0) / slopes.length, rmsByThird: [third(0, 0.3), third(0.3, 0.7), third(0.7, 1)],
      });
    }
  }
  return found;
}
