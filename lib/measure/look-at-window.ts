import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { ClipContext } from "@/lib/measure/clip-context";
import type { Expression } from "@/lib/measure/formula";
import { nullRuleHolds } from "@/lib/measure/null-rule";
import { LEAST_COVERAGE } from "@/lib/measure/prepare-window";
import type { UsedFrame } from "@/lib/measure/reading";
import { groupsBesideWindow, type Evaluator, type Sample } from "@/lib/measure/sample";
import { reasonOf, type TrustReason } from "@/lib/measure/trust-reasons";
import { LARGEST_GAP } from "@/lib/measure/signals/pieces";

/** What stands against reading a window, and the frame that decided its value. */
export interface WindowLook {
  readonly reason: TrustReason | null;
  readonly frames: readonly UsedFrame[];
}

/**
 * Looks at a window once, on the estimates: holes, frames that cannot be used, an end cut off, the checkpoint's own rules.
 * @param evaluator of the points as placed
 */
export function lookAtWindow(expression: Expression, sample: Sample, evaluator: Evaluator, definition: CheckpointDefinition, isCut: boolean, context: ClipContext): WindowLook {
  const { window } = sample;
  if (!window) return { reason: null, frames: [] };
  const value = evaluator.valueAt(new Float64Array(groupsBesideWindow(sample).length));
  const { first, last, decidedBy } = evaluator.window;
  const isDecided = decidedBy >= 0 && Number.isFinite(value);
  const at = (reason: TrustReason | null): WindowLook => {
    const sampleIndex = isDecided ? decidedBy : Math.round((first + last) / 2);
    const frameIndex = window.firstFrame + sampleIndex;
    return { reason, frames: !(sampleIndex in window.seconds) ? [] : [{ frameIndex, at: "window", points: window.points.map(({ point }) => point) }] };
  };
  if (usableShare(expression, evaluator) < LEAST_COVERAGE) return at(reasonOf("window-thin", "turned too far to be seen on more than a fifth of the frames"));
  const isCrossing = definition.estimate === "crossing";
  // What crosses before the clip ends is known; what has not crossed yet, or is largest, is not.
  if (isCut && !(isCrossing && isDecided)) return at(reasonOf("cut-off"));
  if (isCrossing && largestHole(evaluator, isDecided ? decidedBy : last) > LARGEST_GAP) return at(reasonOf("gap"));
  return at(ownRule(expression, evaluator, definition, context));
}

function usableShare({ window }: Expression, { window: view, scales }: Evaluator): number {
  if (!window?.isUsable) return 1;
  let usable = 0;
  for (let i = view.first; i <= view.last; i++) if (window.isUsable(view, i, scales)) usable++;
  return usable / (view.last - view.first + 1);
}

/** Longest stretch in frame intervals between samples with all tracks, from the window's start to a sample. */
function largestHole({ window: { seconds, first, at, framePeriodSeconds } }: Evaluator, until: number): number {
  const tracks = Object.values(at);
  let [longest, before] = [0, first];
  for (let i = first; i <= until; i++) {
    if (tracks.some((track) => Number.isNaN(track.h[i]) || Number.isNaN(track.v[i]))) continue;
    longest = Math.max(longest, ((seconds[i] ?? NaN) - (seconds[before] ?? NaN)) / framePeriodSeconds);
    before = i;
  }
  const end = ((seconds[Math.max(first, until)] ?? NaN) - (seconds[before] ?? NaN)) / framePeriodSeconds;
  return Math.max(longest, end) - 1e-6;
}

/** The first of the checkpoint's rules about its own symbols that holds. */
function ownRule({ symbols }: Expression, { scales, window }: Evaluator, definition: CheckpointDefinition, context: ClipContext): TrustReason | null {
  if (!symbols) return null;
  const known = { values: symbols(scales, window), seconds: window.seconds };
  const rule = definition.nullWhen.find((one) => one.fact === undefined && nullRuleHolds(one, definition, context, known));
  return rule ? reasonOf("rule", rule.say) : null;
}
