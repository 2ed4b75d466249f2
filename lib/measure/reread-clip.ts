import { BETWEEN_REACH_INTERVALS } from "@/lib/measure/between/between-frames";
import { isFollowed } from "@/lib/measure/between/followed-frames";
import { LENGTH_RULES, pointsOf, type LengthId } from "@/lib/measure/body-lengths";
import type { CheckpointDefinition, NullRule } from "@/lib/measure/checkpoint-definition";
import { clipContext, contextAfterMove, type ClipContext } from "@/lib/measure/clip-context";
import type { ClipInput, EventId, PlacedPoint, SwingInput } from "@/lib/measure/clip-input";
import { MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import { exchangedPairs } from "@/lib/measure/exchanged-sides";
import type { Expression, Formula, Moment } from "@/lib/measure/formula";
import { findFormula, isKnownFormula } from "@/lib/measure/formula-registry";
import { nullRuleHolds } from "@/lib/measure/null-rule";
import { ruleLooksAt } from "@/lib/measure/null-rule-looks-at";
import { mixesOf, POINT_IDS, type PlaceId, type PointId } from "@/lib/measure/points";
import { lookAroundSeconds } from "@/lib/measure/prepare-window";
import { readInContext } from "@/lib/measure/read-checkpoint";
import type { Reading } from "@/lib/measure/reading";
import { checkRules, STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";
import { secondsOf } from "@/lib/measure/tracks";

/** Frames further from an event than this many intervals, beside the event's own doubt, never serve its value. */
const NEAR_INTERVALS = 8;

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
      const next = contextAfterMove(context, clip, point, frame);
      const changedLengths = LENGTHS_OF[point].filter((id) => !isSameLength(id, context, next));
      const isNoisier = context.noise("hip_f", false) !== next.noise("hip_f", false) || context.frameCorrelation() !== next.frameCorrelation() || context.framesApart() !== next.framesApart() ||
        exchangedPairs(context).join() !== exchangedPairs(next).join() || isStrayOther(context, next);
      const reach = Math.max(betweenReachSeconds(point, frame, context), betweenReachSeconds(point, frame, next));
      const isChanged = (definition: CheckpointDefinition) => isNoisier || !context.tracks || touches(definition, point, frame, context, next, changedLengths, reach);
      return readerOf(definitions, next, definitions.map((definition, i) => {
        const before = readings[i];
        return before && !isChanged(definition) ? before : readInContext(definition, next);
      }));
    },
  };
}

/** The lengths that each point makes. */
const LENGTHS_OF = Object.fromEntries(
  POINT_IDS.map((point) => [point, (Object.keys(LENGTH_RULES) as LengthId[]).filter((id) => pointsOf(LENGTH_RULES[id]).includes(point))]),
) as unknown as Readonly<Record<PointId, readonly LengthId[]>>;

/** Whether what is worked out between placed frames strays otherwise: it goes by the torso's length. */
function isStrayOther(before: ClipContext, after: ClipContext): boolean {
  const torso = ({ torsoForNoise: { px, roughPx } }: ClipContext) => px ?? roughPx;
  return torso(before) !== torso(after) && [before, after].some(({ tracks, filled }) => tracks !== filled);
}

/** How far from a moved point what is worked out between placed frames may be other, seconds; 0 where it has no hole beside it. */
function betweenReachSeconds(point: PointId, frame: number, { tracks, filled }: ClipContext): number {
  const [track, row] = [tracks?.byPoint[point], filled?.byPoint[point]?.h];
  if (!tracks || !track || !row) return 0;
  // What a followed place is off hangs on the frames from which it was followed, however far they are.
  if (isFollowed(track)) return Infinity;
  const reach = BETWEEN_REACH_INTERVALS * tracks.periodSeconds;
  for (let i = frame - BETWEEN_REACH_INTERVALS; i <= frame + BETWEEN_REACH_INTERVALS; i++) if (i in row && Number.isNaN(track.h[i])) return reach;
  return 0;
}

function withPoint(clip: ClipInput, point: PointId, frame: number, place: PlacedPoint | null): ClipInput {
  const { [point]: _, ...others } = clip.points[frame] ?? {};
  return { ...clip, points: { ...clip.points, [frame]: place ? { ...others, [point]: place } : others } };
}

function isSameLength(id: LengthId, before: ClipContext, after: ClipContext): boolean {
  const [a, b] = [before.length(id), after.length(id)];
  return a?.value === b?.value && a?.sd === b?.sd && a?.isRough === b?.isRough && a?.hasSuggested === b?.hasSuggested && a?.frames.length === b?.frames.length;
}

/** An expression with the points that can serve each of its places. */
interface PointsLookedAt {
  readonly expression: Expression;
  readonly placesOf: ReadonlyMap<PlaceId, ReadonlySet<string>>;
}

const LOOKED_AT = new WeakMap<Formula, readonly PointsLookedAt[]>();

function lookedAtBy(formula: Formula): readonly PointsLookedAt[] {
  const known = LOOKED_AT.get(formula);
  if (known) return known;
  const expressions = [formula, ...Object.values(formula.named)].map((expression) => {
    const places = [...Object.values(expression.reads).map(([place]) => place), ...Object.values(expression.window?.tracks ?? {})];
    return { expression, placesOf: new Map(places.map((place) => [place, new Set(mixesOf(place).flatMap((mix) => Object.keys(mix)))])) };
  });
  LOOKED_AT.set(formula, expressions);
  return expressions;
}

/** Whether a moved point can change a checkpoint's reading: rather once too often than once too seldom. */
function touches(definition: CheckpointDefinition, point: PointId, frame: number, before: ClipContext, context: ClipContext, changedLengths: readonly LengthId[], reachSeconds: number): boolean {
  const formula = findFormula(definition.formulaId, definition.formulaVersion);
  if (!formula) return true;
  const mayChange = (rule: NullRule) => {
    const { points, lengths } = ruleLooksAt(rule);
    if (!points.has(point) && !changedLengths.some((id) => lengths.has(id))) return false;
    // A rule that held neither before nor after removed nothing; one about the formula's own symbols is asked with the reading.
    return formula.symbols !== undefined || nullRuleHolds(rule, definition, before) || nullRuleHolds(rule, definition, context);
  };
  if (definition.nullWhen.some(mayChange)) return true;
  return lookedAtBy(formula).some(({ expression, placesOf }) => expressionTouches(expression, placesOf, point, frame, context, changedLengths, reachSeconds));
}

function expressionTouches(
  expression: Expression, placesOf: ReadonlyMap<PlaceId, ReadonlySet<string>>, point: PointId, frame: number, { tracks, swing }: ClipContext, changedLengths: readonly LengthId[], reachSeconds: number,
): boolean {
  if (expression.lengths?.some((id) => changedLengths.includes(id))) return true;
  if (Object.values(expression.resting ?? {}).some((points) => points.includes(point))) return true;
  if (!tracks) return true;
  const time = secondsOf(tracks, frame);
  const isOf = (place: PlaceId) => placesOf.get(place)?.has(point) ?? true;
  const near = NEAR_INTERVALS * tracks.periodSeconds;
  for (const [place, moment] of Object.values(expression.reads)) {
    if (!isOf(place)) continue;
    const { seconds, sd } = timeOf(moment, swing);
    if (reachSeconds === Infinity || !(Math.abs(time - seconds) > near + 2 * sd)) return true;
  }
  const { window } = expression;
  if (!window || !Object.values(window.tracks).some(isOf)) return false;
  const at = Object.fromEntries(Object.entries(swing.events).map(([id, event]) => [id, event.seconds])) as Record<EventId, number>;
  const [from, to] = [window.from(at, tracks.periodSeconds), window.to(at, tracks.periodSeconds)];
  const doubts = (expression.events ?? []).map((id) => Math.hypot(MARKED_SD_SECONDS[id], tracks.periodSeconds, swing.events[id]?.sdSeconds || 0));
  const around = lookAroundSeconds(window, Math.max(0, ...doubts), tracks.periodSeconds) + 2 * tracks.periodSeconds + reachSeconds;
  return !(time < from - around || time > to + around);
}

function timeOf(moment: Moment, swing: SwingInput): { seconds: number; sd: number } {
  const parts = typeof moment === "string" ? [[moment, 1] as const] : (Object.entries(moment) as [EventId, number][]);
  return parts.reduce((sum, [id, weight]) => ({ seconds: sum.seconds + weight * (swing.events[id]?.seconds ?? NaN), sd: sum.sd + (swing.events[id]?.sdSeconds ?? 0) }), { seconds: 0, sd: 0 });
}
