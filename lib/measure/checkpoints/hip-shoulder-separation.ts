import { defineFormula, expression } from "@/lib/measure/formula";
import type { FormulaScales } from "@/lib/measure/formula-scales";
import type { WindowView } from "@/lib/measure/window-read";
import { largestIn } from "@/lib/measure/windows/extremes";
import { LARGEST_YAW_DEG, clampedYawDeg } from "@/lib/measure/yaw";

type Widths = WindowView<"hipBack" | "hipFront" | "shoulderBack" | "shoulderFront">;

const hipsDeg = ({ at }: Widths, i: number, { length }: FormulaScales) => clampedYawDeg((at.hipBack.h[i] ?? NaN) - (at.hipFront.h[i] ?? NaN), length.Wh);
const shouldersDeg = ({ at }: Widths, i: number, { length }: FormulaScales) => clampedYawDeg((at.shoulderBack.h[i] ?? NaN) - (at.shoulderFront.h[i] ?? NaN), length.Ws);

/** Turn of the hips less that of the shoulders, degrees; NaN where one of them is beyond 70. */
function stretchDeg(window: Widths, i: number, scales: FormulaScales): number {
  const hips = hipsDeg(window, i, scales);
  const shoulders = shouldersDeg(window, i, scales);
  return Math.abs(hips) > LARGEST_YAW_DEG || Math.abs(shoulders) > LARGEST_YAW_DEG ? NaN : hips - shoulders;
}

const window = {
  from: ({ plant, launch }: FormulaScales["seconds"]) => Math.min(plant, launch),
  to: ({ launch }: FormulaScales["seconds"]) => launch + 0.03,
  tracks: { hipBack: "hip_b", hipFront: "hip_f", shoulderBack: "sh_b", shoulderFront: "sh_f" },
  axes: "h",
  isUsable: (view: Widths, i: number, scales: FormulaScales) => !Number.isNaN(stretchDeg(view, i, scales)),
} as const;

/**
 * Largest turn of the hips ahead of the shoulders from landing (launch when it is earlier) until 0.03 s after launch, degrees;
 * positive = hips ahead. Frames turned beyond 70 degrees count as frames without the points.
 * Camera: the two turns move together; the rest measured on drawn hitters (tests/golden/camera-slopes.ts).
 */
export default defineFormula({
  id: "hip-shoulder-separation",
  version: 1,
  reads: {},
  window,
  events: ["plant", "launch"],
  lengths: ["Ws", "Wh"],
  cameraSdPerDeg: 0.17,
  value: (_, scales, view) => largestIn(view, (i) => stretchDeg(view, i, scales)),
  named: {
    /** When the stretch is largest, seconds from contact. */
    "time-of-largest": expression({
      reads: {},
      window,
      events: ["plant", "launch", "contact"],
      lengths: ["Ws", "Wh"],
      value: (_, scales, view) => {
        largestIn(view, (i) => stretchDeg(view, i, scales));
        return (view.seconds[view.decidedBy] ?? NaN) - scales.seconds.contact;
      },
    }),
  },
});
