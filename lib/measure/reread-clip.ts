import { LENGTH_RULES, pointsOf, type LengthId } from "@/lib/measure/body-lengths";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { clipContext, type ClipContext } from "@/lib/measure/clip-context";
import type { ClipInput, EventId, PlacedPoint, SwingInput } from "@/lib/measure/clip-input";
import { exchangedPairs } from "@/lib/measure/exchanged-sides";
import type { Expression, Moment } from "@/lib/measure/formula";
import { findFormula, isKnownFormula } from "@/lib/measure/formula-registry";
import { mixesOf, type PlaceId, type PointId } from "@/lib/measure/points";
import { readInContext } from "@/lib/measure/read-checkpoint";
import type { Reading } from "@/lib/measure/reading";
import { checkRules, STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";
import { retrack, secondsOf } from "@/lib/measure/tracks";

/** Frames further from an event than this many intervals, beside the event's own doubt, never serve its value. */
const NEAR_INTERVALS = 8;
/** Seconds around a window in which its bounds, its smoothing and its filter may look. */
const AROUND_WINDOW_SECONDS = 0.35;

/** A clip that is being worked on: its readings now, and again after one point was moved. */
export interface ClipReader {
  readonly readings: readonly Reading[];
  /**
   * The readings when one point of one frame lies elsewhere (null = taken away): only those it can change are worked out anew.
   * The result is that of readClip on the changed clip. The reader itself stays as it is, so that a drag can be given up.
   */
  readonly moved: (point: PointId, frame: number, place: PlacedPoint | null) => ClipReader;
}

/**
 * Reads all checkpoints of a clip as readClip does, ready to read again quickly while a point is dragged.
 * @throws RangeError for rules that cannot be
 */
export function openReader(definitions: readonly CheckpointDefinition[], clip: ClipInput, swing: SwingInput, options: { readonly rules?: ReadingRules } = {}): ClipReader {
  const rules = options.rules ?? STARTER_RULES;
  checkRules(rules);
  const known = definitions.filter(({ formulaId, formulaVersion }) => isKnownFormula(formulaId, formulaVersion));
  const context = clipContext(clip, swing, rules);
  return readerOf(known, context, known.map((definition) => readInContext(definition, context)));
}

function readerOf(definitions: readonly CheckpointDefinition[], context: ClipContext, readings: readonly Reading[]): ClipReader {
  return {
    readings,
    moved: (point, frame, place) => {
      const clip = withPoint(context.clip, point, frame, place);
      const next = clipContext(clip, context.swing, context.rules, context.tracks && retrack(context.tracks, point, clip, context.swing.side));
      const changedLengths = (Object.keys(LENGTH_RULES) as LengthId[]).filter((id) => pointsOf(LENGTH_RULES[id]).includes(point) && !isSameLength(id, context, next));
      const isNoisier = context.noise("hip_f", false) !== next.noise("hip_f", false) || context.frameCorrelation() !== next.frameCorrelation() ||
        exchangedPairs(context).join() !== exchangedPairs(next).join();
      const isChanged = (definition: CheckpointDefinition) => isNoisier || !context.tracks || touches(definition, point, frame, next, changedLengths);
      return readerOf(definitions, next, definitions.map((definition, i) => {
        const before = readings[i];
        return before && !isChanged(definition) ? before : readInContext(definition, next);
      }));
    },
  };
}

function withPoint(clip: ClipInput, point: PointId, frame: number, place: PlacedPoint | null): ClipInput {
  const { [point]: _, ...others } = clip.points[frame] ?? {};
  return { ...clip, points: { ...clip.points, [frame]: place ? { ...others, [point]: place } : others } };
}

function isSameLength(id: LengthId, before: ClipContext, after: ClipContext): boolean {
  const [a, b] = [before.length(id), after.length(id)];
  return a?.value === b?.value && a?.sd === b?.sd && a?.isRough === b?.isRough && a?.hasSuggested === b?.hasSuggested && a?.frames.length === b?.frames.length;
}

/** Whether a moved point can change a checkpoint's reading: rather once too often than once too seldom. */
function touches(definition: CheckpointDefinition, point: PointId, frame: number, context: ClipContext, changedLengths: readonly LengthId[]): boolean {
  const formula = findFormula(definition.formulaId, definition.formulaVersion);
  if (!formula) return true;
  const rules = definition.nullWhen.flatMap(({ left, right }) => [left, right]).filter((side) => typeof side === "string");
  if (rules.some((rule) => rule.includes(point) || changedLengths.some((id) => new RegExp(`\\b${id}\\b`).test(rule)))) return true;
  return [formula, ...Object.values(formula.named)].some((expression) => expressionTouches(expression, point, frame, context, changedLengths));
}

function expressionTouches(expression: Expression, point: PointId, frame: number, { tracks, swing }: ClipContext, changedLengths: readonly LengthId[]): boolean {
  if (expression.lengths?.some((id) => changedLengths.includes(id))) return true;
  if (Object.values(expression.resting ?? {}).some((points) => points.includes(point))) return true;
  if (!tracks) return true;
  const time = secondsOf(tracks, frame);
  const isOf = (place: PlaceId) => mixesOf(place).some((mix) => Object.hasOwn(mix, point));
  const near = NEAR_INTERVALS * tracks.periodSeconds;
  for (const [place, moment] of Object.values(expression.reads)) {
    if (!isOf(place)) continue;
    const { seconds, sd } = timeOf(moment, swing);
    if (!(Math.abs(time - seconds) > near + 2 * sd)) return true;
  }
  const { window } = expression;
  if (!window || !Object.values(window.tracks).some(isOf)) return false;
  const at = Object.fromEntries(Object.entries(swing.events).map(([id, event]) => [id, event.seconds])) as Record<EventId, number>;
  const [from, to] = [window.from(at, tracks.periodSeconds), window.to(at, tracks.periodSeconds)];
  return !(time < from - AROUND_WINDOW_SECONDS - near || time > to + AROUND_WINDOW_SECONDS + near);
}

function timeOf(moment: Moment, swing: SwingInput): { seconds: number; sd: number } {
  const parts = typeof moment === "string" ? [[moment, 1] as const] : (Object.entries(moment) as [EventId, number][]);
  return parts.reduce((sum, [id, weight]) => ({ seconds: sum.seconds + weight * (swing.events[id]?.seconds ?? NaN), sd: sum.sd + (swing.events[id]?.sdSeconds ?? 0) }), { seconds: 0, sd: 0 });
}
