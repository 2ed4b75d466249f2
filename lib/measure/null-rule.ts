import { angleDeg } from "@/lib/measure/angles";
import { LENGTH_RULES, mixed, type LengthId } from "@/lib/measure/body-lengths";
import type { CheckpointDefinition, NullRule } from "@/lib/measure/checkpoint-definition";
import type { ClipContext } from "@/lib/measure/clip-context";
import { parseRuleExpression, partsOf, type RuleExpression } from "@/lib/measure/null-rule-expression";
import { EVENT_OF_SYMBOL, TURNS } from "@/lib/measure/null-rule-symbols";
import { isPlaceId, isPointId, mixesOf, type PointId } from "@/lib/measure/points";
import type { SwingPosition } from "@/lib/measure/swing-coordinates";
import { secondsOf } from "@/lib/measure/tracks";
import { pointAtContact, pointAtEvent } from "@/lib/measure/value-at-event";
import { clampedYawDeg, yawOf } from "@/lib/measure/yaw";

/** What a checkpoint's own symbols are worth: numbers, or one number for each of the samples at these seconds. */
export interface KnownSymbols {
  readonly values: Readonly<Record<string, number | Float64Array>>;
  readonly seconds: Float64Array;
}

const PARSED = new Map<string, RuleExpression>();

/**
 * Whether a rule holds for this clip and swing: on the estimates, at the times it names; with over "window" on any frame
 * of the window. A rule whose inputs are unknown does not hold, nor one about symbols that are not given. @throws RangeError for a rule that checkNullRule refuses
 */
export function nullRuleHolds(rule: NullRule, definition: Pick<CheckpointDefinition, "window">, context: ClipContext, symbols?: KnownSymbols): boolean {
  if (rule.fact !== undefined) return factHolds(rule, context);
  const holdsOn = (frame: number | null) =>
    compare(numberOf(rule.left, context, frame, definition, symbols), rule.op, numberOf(rule.right, context, frame, definition, symbols));
  // What counts the window's frames is the same on each of them.
  const isOfWholeWindow = [rule.left, rule.right].every((side) => typeof side !== "string" || !/\b[uvw]\(|\bangle\(/.test(side));
  if (rule.over !== "window" || isOfWholeWindow) return holdsOn(null);
  return windowFrames(definition, context).some(holdsOn);
}

function factHolds(rule: NullRule, { clip, swing }: ClipContext): boolean {
  if (rule.fact === "swing-reading") return compare(swing.swingReadings?.[rule.checkpoint ?? ""] ?? NaN, rule.op, numberOrNaN(rule.right));
  const name = rule.fact ?? "";
  const facts = [swing, clip].find((own) => Object.hasOwn(own, name)) as Readonly<Record<string, unknown>> | undefined;
  const fact = name === "points" || name === "events" ? null : facts?.[name];
  if (fact === null || fact === undefined) return false;
  return rule.is ? rule.is.map(String).includes(String(fact)) : fact === true;
}

const numberOrNaN = (side: string | number | undefined) => (typeof side === "number" ? side : NaN);

function compare(left: number, op: string | undefined, right: number): boolean {
  switch (op) {
    case "<": return left < right;
    case "<=": return left <= right;
    case ">": return left > right;
    case ">=": return left >= right;
    case "=": return left === right;
    default: throw new RangeError(`there is no comparison "${op ?? ""}"`);
  }
}

function numberOf(side: string | number | undefined, context: ClipContext, frame: number | null, definition: Pick<CheckpointDefinition, "window">, symbols?: KnownSymbols): number {
  if (typeof side !== "string") return side ?? NaN;
  const parsed = PARSED.get(side) ?? parseRuleExpression(side);
  PARSED.set(side, parsed);
  return valueOf(parsed, context, frame, definition, symbols);
}

function valueOf(node: RuleExpression, context: ClipContext, frame: number | null, definition: Pick<CheckpointDefinition, "window">, symbols?: KnownSymbols): number {
  const value = (inner: RuleExpression) => valueOf(inner, context, frame, definition, symbols);
  if (node.kind === "number") return node.value;
  if (node.kind === "name") return symbolNumber(node.name, symbols) ?? namedNumber(node.name, context);
  if (node.kind === "binary") {
    const [left, right] = [value(node.left), value(node.right)];
    return node.op === "+" ? left + right : node.op === "-" ? left - right : node.op === "*" ? left * right : left / right;
  }
  const { name, args } = node;
  const names = args.map((arg) => (arg.kind === "name" ? arg.name : ""));
  const at = (index: number) => positionOf(names[index] ?? "", null, context, frame);
  const time = args[1] ? value(args[1]) : null;
  switch (name) {
    case "u": case "w": return positionOf(names[0] ?? "", time, context, frame).h;
    case "v": return positionOf(names[0] ?? "", time, context, frame).v;
    case "psi_s": case "psi_p": {
      const [back, front, width] = TURNS[name];
      return turnDeg(back, front, width, args[0] ? value(args[0]) : NaN, context);
    }
    case "angle": return angleDeg(at(0), at(1), at(2));
    case "abs": return Math.abs(args[0] ? value(args[0]) : NaN);
    case "sqrt": return Math.sqrt(args[0] ? value(args[0]) : NaN);
    case "min": return Math.min(...args.map(value));
    case "max": return Math.max(...args.map(value));
    case "hypot": return Math.hypot(...args.map(value));
    case "placed": return context.tracks === null || time === null || Number.isNaN(time) ? NaN : Number.isNaN(positionOf(names[0] ?? "", time, context, null).h) ? 0 : 1;
    case "gap": return longestHole(names.filter(isPointId), definition, context);
    case "frames": return context.tracks ? windowFrames(definition, context).length : NaN;
    case "highest": case "lowest": return extremeOf(name, names[0] ?? "", args.slice(1).map(value), symbols);
    default: return NaN;
  }
}

function symbolNumber(name: string, symbols: KnownSymbols | undefined): number | null {
  const known = symbols && Object.hasOwn(symbols.values, name) ? symbols.values[name] : undefined;
  return typeof known === "number" ? known : null;
}

/** Largest or smallest value of a symbol between two times; NaN when it is not known there. */
function extremeOf(which: "highest" | "lowest", name: string, [from = NaN, to = NaN]: readonly number[], symbols: KnownSymbols | undefined): number {
  const known = symbols && Object.hasOwn(symbols.values, name) ? symbols.values[name] : undefined;
  if (!symbols || !(known instanceof Float64Array)) return NaN;
  const inside = [...known].filter((value, i) => !Number.isNaN(value) && (symbols.seconds[i] ?? NaN) >= from - 1e-9 && (symbols.seconds[i] ?? NaN) <= to + 1e-9);
  if (inside.length === 0) return NaN;
  return which === "highest" ? Math.max(...inside) : Math.min(...inside);
}

function namedNumber(name: string, { tracks, swing, length }: ClipContext): number {
  const event = Object.hasOwn(EVENT_OF_SYMBOL, name) ? EVENT_OF_SYMBOL[name] : undefined;
  if (event) return swing.events[event]?.seconds ?? NaN;
  if (Object.hasOwn(LENGTH_RULES, name)) return length(name as LengthId)?.value ?? NaN;
  if (name === "P") return tracks?.periodSeconds ?? NaN;
  return name === "t_end" && tracks ? secondsOf(tracks, tracks.seconds.length - 1) : NaN;
}

const NOWHERE: SwingPosition = { h: NaN, v: NaN };

/** A place at a time, or on a frame of the window when no time is given. */
function positionOf(place: string, seconds: number | null, { tracks, swing }: ClipContext, frame: number | null): SwingPosition {
  if (!tracks || !isPlaceId(place)) return NOWHERE;
  for (const mix of mixesOf(place)) {
    if (seconds === null) {
      const found = frame === null ? NOWHERE : { h: mixed(mix, "h", frame, tracks), v: mixed(mix, "v", frame, tracks) };
      if (!Number.isNaN(found.h)) return found;
      continue;
    }
    let h = 0;
    let v = 0;
    for (const [point, weight] of Object.entries(mix) as [PointId, number][]) {
      const track = tracks.byPoint[point];
      const read = seconds === swing.events.contact?.seconds ? pointAtContact : pointAtEvent;
      const found = track ? read(track, tracks, seconds, 0) : "points-missing";
      if (!track || typeof found === "string") h = NaN;
      else for (const term of found.terms) [h, v] = [h + weight * term.weight * (track.h[term.frame] ?? NaN), v + weight * term.weight * (track.v[term.frame] ?? NaN)];
    }
    if (!Number.isNaN(h)) return { h, v };
  }
  return NOWHERE;
}

function turnDeg(back: PointId, front: PointId, width: LengthId, seconds: number, context: ClipContext): number {
  return clampedYawDeg(acrossAt(back, front, seconds, context), context.length(width)?.value ?? NaN);
}

function acrossAt(back: PointId, front: PointId, seconds: number, context: ClipContext): number {
  return positionOf(back, seconds, context, null).h - positionOf(front, seconds, context, null).h;
}

/** The sentence of a rule that holds; where it asks for a turn whose width is above the full width, that is said too. */
export function sentenceOf(rule: NullRule, definition: Pick<CheckpointDefinition, "window">, context: ClipContext): string {
  if (typeof rule.left !== "string") return rule.say;
  for (const part of partsOf(parseRuleExpression(rule.left))) {
    if (part.kind !== "call" || (part.name !== "psi_s" && part.name !== "psi_p") || !part.args[0]) continue;
    const [back, front, width] = TURNS[part.name];
    const yaw = yawOf(acrossAt(back, front, valueOf(part.args[0], context, null, definition), context), context.length(width)?.value ?? NaN);
    if (yaw.isWiderThanFull) return `${rule.say} (${yaw.say})`;
  }
  return rule.say;
}

/** Frames of the checkpoint's window: from <= time <= to, or exactly so many nearest its middle (its end at contact). */
function windowFrames({ window }: Pick<CheckpointDefinition, "window">, context: ClipContext): readonly number[] {
  const { tracks, swing } = context;
  if (!window || !tracks) return [];
  const [from, to] = [numberOf(window.from, context, null, { window }), numberOf(window.to, context, null, { window })];
  const slack = 1e-9;
  const inside = tracks.seconds.map((_, frame) => frame).filter((frame) => secondsOf(tracks, frame) >= from - slack && secondsOf(tracks, frame) <= to + slack);
  if (window.frames === undefined) return inside;
  const target = to === swing.events.contact?.seconds ? to : (from + to) / 2;
  const away = (frame: number) => Math.abs(secondsOf(tracks, frame) - target);
  return [...inside].sort((a, b) => away(a) - away(b)).slice(0, window.frames).sort((a, b) => a - b);
}

function longestHole(points: readonly PointId[], definition: Pick<CheckpointDefinition, "window">, context: ClipContext): number {
  const { tracks } = context;
  if (!tracks) return NaN;
  let [longest, current] = [0, 0];
  for (const frame of windowFrames(definition, context)) {
    current = points.every((point) => !Number.isNaN(tracks.byPoint[point]?.h[frame] ?? NaN)) ? 0 : current + 1;
    longest = Math.max(longest, current);
  }
  return longest;
}
