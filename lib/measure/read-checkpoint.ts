import { cameraLineReason, frameRateReason, stillCameraReason } from "@/lib/measure/camera-checks";
import type { CheckpointDefinition, NamedDefinition } from "@/lib/measure/checkpoint-definition";
import { clipContext, type ClipContext } from "@/lib/measure/clip-context";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { estimate } from "@/lib/measure/estimate";
import type { Estimate } from "@/lib/measure/estimate-parts";
import { orderProblem } from "@/lib/measure/event-times";
import { exchangedSidesProblem } from "@/lib/measure/exchanged-sides";
import type { Expression, Formula } from "@/lib/measure/formula";
import { findFormula } from "@/lib/measure/formula-registry";
import { nullRuleHolds, sentenceOf } from "@/lib/measure/null-rule";
import { prepareSample } from "@/lib/measure/prepare-sample";
import type { InputsUsed, NamedReading, Reading } from "@/lib/measure/reading";
import { checkRules, STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";
import { lookAtWindow } from "@/lib/measure/look-at-window";
import { evaluatorOf, type Sample } from "@/lib/measure/sample";
import { effectOf, reasonOf, sortReasons, type TrustReason } from "@/lib/measure/trust-reasons";
import { bandInForce, chancesOf, chancesWhenCensored, deviationOf, okWidth, sizeOf, valueWord, verdictOf } from "@/lib/measure/verdict";

const NOTHING: InputsUsed = { frames: [], points: [], events: [], scaleFrameIndexes: [] };

/**
 * Reads one checkpoint on one clip of a swing. What is unknown gives value null with its reasons, never an exception.
 * @throws RangeError for a checkpoint whose formula is not known here, or for rules that cannot be
 */
export function readCheckpoint(definition: CheckpointDefinition, clip: ClipInput, swing: SwingInput, rules: ReadingRules = STARTER_RULES): Reading {
  checkRules(rules);
  return readInContext(definition, clipContext(clip, swing, rules));
}

/** As readCheckpoint, with what the clip's readings share already worked out. */
export function readInContext(definition: CheckpointDefinition, context: ClipContext): Reading {
  const formula = findFormula(definition.formulaId, definition.formulaVersion);
  if (!formula) throw new RangeError(`no formula ${definition.formulaId} version ${definition.formulaVersion} is known`);
  const before = reasonsBeforeReading(definition, context);
  const isOff = before.some(({ id }) => effectOf(id) === "null");
  const main = isOff ? null : attempt(definition, formula, definition.stillCamera, context);
  const reasons = [...before, ...(main?.reasons ?? [])];
  const found = main?.estimate ?? null;
  const named = definition.named.map((one) => readNamed(one, definition, formula, before, found, context));
  return assemble(definition, formula, context, found, reasons, named, main?.inputsUsed ?? NOTHING);
}

/** Reasons that hold before any point is read: kind of swing, view, own rules, camera, frames a second. */
function reasonsBeforeReading(definition: CheckpointDefinition, context: ClipContext): TrustReason[] {
  const { clip, swing, rules } = context;
  const reasons: (TrustReason | null)[] = [];
  if (swing.swingKind === "running-slap" && !rules.slap.on.includes(definition.id)) reasons.push(reasonOf("slap", rules.slap.say));
  if (definition.scope === "clip") {
    if (clip.view === null) reasons.push(reasonOf("view-not-declared"));
    else if (!definition.views.measured.includes(clip.view)) reasons.push(reasonOf("view-not-measured"));
    reasons.push(cameraLineReason(definition, clip));
  }
  for (const rule of definition.nullWhen) if (nullRuleHolds(rule, definition, context)) reasons.push(reasonOf("rule", sentenceOf(rule, definition, context)));
  const fps = framesPerSecond(definition, context);
  if (fps !== null) reasons.push(frameRateReason(definition, fps));
  return reasons.filter((reason) => reason !== null);
}

/** Captured rate of this clip, or for event times of the slowest clip that gave one; null when nothing is filmed yet. */
function framesPerSecond(definition: CheckpointDefinition, { clip, swing, tracks }: ClipContext): number | null {
  const own = clip.captureFps ?? (tracks ? 1 / tracks.periodSeconds : NaN);
  if (definition.scope === "clip") return clip.secondsFromContact === null && clip.captureFps === null ? null : own;
  const marked = definition.events.flatMap((id) => swing.events[id] ?? []);
  if (marked.length === 0) return null;
  return Math.min(...marked.map(({ framePeriodSeconds: period }) => (period == null ? own : 1 / period)));
}

interface Attempt {
  readonly estimate: Estimate | null;
  readonly reasons: readonly TrustReason[];
  readonly inputsUsed: InputsUsed;
}

function attempt(definition: CheckpointDefinition, expression: Expression, isStillNeeded: boolean, context: ClipContext): Attempt {
  const { sample, reasons, inputsUsed, isCut } = prepareSample(expression, context);
  const own = [...reasons];
  const moved = stillCameraReason(isStillNeeded, expression, context.clip);
  if (moved) own.push(moved);
  const disorder = orderProblem(context.swing.events, inputsUsed.events);
  if (disorder) own.push(reasonOf("rule", disorder));
  const exchanged = exchangedSidesProblem([...inputsUsed.points, ...(sample?.window?.points ?? []).map(({ point }) => point)], context);
  if (exchanged) own.push(reasonOf("rule", exchanged));
  if (!sample || moved || disorder || exchanged) return { estimate: null, reasons: own, inputsUsed };
  const evaluator = evaluatorOf(expression, sample);
  const look = lookAtWindow(expression, sample, evaluator, definition, isCut, context);
  if (look.reason) return { estimate: null, reasons: [...own, look.reason], inputsUsed };
  const { censor } = definition;
  const found = estimate(definition.estimate, expression, sample, { draws: context.rules.draws, seed: seedOf(definition, sample), censor, foldsAt: expression.foldsAt }, evaluator);
  const result = found && (found.isCensored || Number.isFinite(found.sd)) ? found : null;
  if (!result) own.push(reasonOf("points-missing", sample.window ? "nothing in this stretch to read it from" : "two of its points lie on each other"));
  return { estimate: result, reasons: own, inputsUsed: { ...inputsUsed, frames: [...inputsUsed.frames, ...look.frames] } };
}

/** The same inputs give the same draws; so does a point that was dragged, so that its reading's doubt moves smoothly. */
function seedOf({ formulaId, formulaVersion }: CheckpointDefinition, { inputs, window }: Sample): string {
  return `${formulaId}@${formulaVersion} ${[...inputs, ...(window?.points ?? [])].map(({ point }) => point).join(" ")}`;
}

function readNamed(
  named: NamedDefinition, definition: CheckpointDefinition, formula: Formula, before: readonly TrustReason[], main: Estimate | null, context: ClipContext,
): NamedReading {
  const { id, name, unit } = named;
  const unknown = (reasons: readonly TrustReason[]): NamedReading => ({ id, name, unit, value: null, sd: null, word: null, isInsideLimit: null, reasons: sortReasons(reasons.filter((reason) => effectOf(reason.id) === "null")) });
  const expression = Object.hasOwn(formula.named, id) ? formula.named[id] : undefined;
  if (!expression) throw new RangeError(`formula ${formula.id} version ${formula.version} has no value named ${id}`);
  if (before.some((reason) => effectOf(reason.id) === "null")) return unknown(before);
  if (expression.lacks) return unknown([reasonOf("rule", expression.lacks)]);
  const { estimate: own, reasons } = attempt(definition, expression, named.stillCamera ?? definition.stillCamera, context);
  if (!own) return unknown([...before, ...reasons]);
  const all = sortReasons([...before, ...reasons]);
  if (expression.word) {
    return { ...unknown([]), word: main ? expression.word(own.value, main) : null, reasons: all };
  }
  const isGrey = all.some((reason) => effectOf(reason.id) === "grey");
  const hasLimit = !isGrey && (named.okMin !== undefined || named.okMax !== undefined);
  const isInsideLimit = hasLimit ? own.value >= (named.okMin ?? -Infinity) && own.value <= (named.okMax ?? Infinity) : null;
  return { id, name, unit, value: own.value, sd: own.sd, word: null, isInsideLimit, reasons: all };
}

function assemble(
  definition: CheckpointDefinition, formula: Formula, context: ClipContext, found: Estimate | null, reasons: TrustReason[],
  named: readonly NamedReading[], inputsUsed: InputsUsed,
): Reading {
  const { rules, swing, clip } = context;
  const band = bandInForce(definition, swing, rules);
  const off = clip.cameraOffDeg;
  const isCameraCounted = found && !found.isCensored && definition.maxCameraOffDeg !== null && off !== null && Number.isFinite(off);
  // An angle that is itself in doubt adds as much as one that is so much larger.
  const sdCamera = isCameraCounted ? formula.cameraSdPerDeg * Math.hypot(off, clip.cameraOffSdDeg ?? 0) : 0;
  const sdWhole = found ? Math.hypot(found.sd, sdCamera) : 0;
  if (found && band && sdWhole > okWidth(band)) reasons.push(reasonOf("wide"));
  const isGrey = found !== null && reasons.some(({ id }) => effectOf(id) === "grey");
  const isJudged = found !== null && band !== null && !isGrey && !definition.ownBaselineOnly &&
    !(swing.swingKind === "running-slap" && rules.slap.ownBaselineOnly.includes(definition.id));
  const certain = isJudged && found.isCensored && definition.censor ? chancesWhenCensored(definition.censor) : null;
  const chances = certain ?? (isJudged ? chancesOf(found, sdCamera, band, formula.foldsAt, definition.formulaId) : null);
  const deviation = isJudged ? deviationOf(found.value, band) : null;
  return {
    checkpointId: definition.id, formulaId: definition.formulaId, formulaVersion: definition.formulaVersion, unit: definition.unit,
    value: found?.value ?? null, sd: found && !found.isCensored ? found.sd : null, doubt: found && !found.isCensored ? found.doubt : null, sdCamera,
    censoredWords: found?.isCensored ? (definition.censor?.say ?? null) : null, quantiles: found?.quantiles ?? null,
    word: found && !found.isCensored ? valueWord(definition.words, found.value, band) : null,
    probabilities: chances,
    verdict: chances && band ? verdictOf(chances, sdWhole, band, rules.verdict) : null,
    size: deviation && band ? sizeOf(deviation.distance, sdWhole, okWidth(band), rules.size) : null,
    deviation: deviation?.side ?? null,
    named, reasons: sortReasons(found ? reasons : reasons.filter(({ id }) => effectOf(id) === "null")), isGrey, band, inputsUsed,
  };
}
