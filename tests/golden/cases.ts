import { VIEWS, type SwingSpec } from "@/seed/media/spec";
import type { MarkedCase } from "./held-readings";
import { goldenHitters } from "./hitters";
import { NOISE_KINDS, type NoiseKind } from "./marked-noise";

/** How often each hitter is marked before one camera, by frames a second. */
export type MarkingsPerCamera = Readonly<Record<SwingSpec["framesPerSecond"], number>>;

const SIZES = [[1280, 720], [1920, 1080], [960, 540]] as const;
/** Degrees off the line: two of three within the six degrees that turns and directions allow. */
const OFF_DEG: Readonly<Record<SwingSpec["view"], readonly (readonly number[])[]>> = {
  side: [[0, -6, 14], [3, 6, -9], [-3, 5, -15], [-5, 2, 10], [4, -2, 15]],
  front: [[3, -8], [-6, 0], [5, -4], [-2, 15], [6, -12]],
  rear: [[-3, 9], [6, 0], [-5, 4], [2, -15], [-6, 11]],
};

/** The noise of a case: one of three is what readings do not assume. */
function noiseOf(index: number): NoiseKind {
  return index % 3 === 2 ? (NOISE_KINDS[1 + (Math.floor(index / 3) % 3)] ?? "assumed") : "assumed";
}

/**
 * Marked clips of `hitters` hitters: every view, several cameras each, three rates, either hand, one in three mirrored, one in
 * four with uneven times, contact anywhere between frames, events missed as a person misses them, points on every frame or so many
 * frames apart.
 */
export function markedCases(hitters: number, markings: Readonly<Record<SwingSpec["view"], MarkingsPerCamera>>, firstSeed?: number, framesApart = 1): readonly MarkedCase[] {
  const cases: MarkedCase[] = [];
  goldenHitters(hitters, firstSeed).forEach((hitter, i) => {
    const [widthPx, heightPx] = SIZES[Math.floor(i / 2) % SIZES.length] ?? SIZES[0];
    for (const view of VIEWS) {
      for (const cameraOffDeg of OFF_DEG[view][i % OFF_DEG[view].length] ?? []) {
        for (const framesPerSecond of [60, 120, 240] as const) {
          for (let k = 0; k < markings[view][framesPerSecond]; k++) {
            const n = cases.length;
            cases.push({
              spec: { ...hitter, view, cameraOffDeg, widthPx, heightPx },
              marking: {
                framesPerSecond, contactPhase: (0.13 + 0.37 * i + 0.29 * k + framesPerSecond / 1000) % 1, isMirrored: (n + k) % 3 === 1, isUneven: (n + 2 * k) % 4 === 1,
                noiseSeed: `${hitter.seed} ${view} ${cameraOffDeg} ${framesPerSecond} ${k}`, noise: noiseOf(n), areEventsMissed: true, habit: "every-frame", framesApart,
              },
            });
          }
        }
      }
    }
  });
  return cases;
}
