import { LENGTH_RULES } from "@/lib/measure/body-lengths";
import type { NullRule } from "@/lib/measure/checkpoint-definition";
import { EVENT_OF_SYMBOL } from "@/lib/measure/null-rule-symbols";
import { parseRuleExpression, partsOf, type RuleExpression } from "@/lib/measure/null-rule-expression";
import { isPlaceId, isPointId } from "@/lib/measure/points";

/** What a rule may name beside points, lengths and events. */
export interface NullRuleScope {
  /** The checkpoint's own symbols. */
  readonly symbols?: readonly string[];
  readonly hasWindow?: boolean;
}

export const RULE_OPS = ["<", "<=", ">", ">=", "="] as const;

/** Facts a rule may ask for. Source: conventions `facts`. */
export const RULE_FACTS = [
  "view", "mirrored", "cameraMoved", "cameraZoomed", "stabilised", "cameraOffDeg", "captureFps", "side", "swingKind",
  "task", "effort", "pitchHeight", "pitchSide", "pitchSpeed", "batClass", "releaseSource", "leftBox", "swing-reading",
] as const;

const BOOLEAN_FACTS: readonly string[] = ["mirrored", "cameraMoved", "cameraZoomed", "stabilised", "leftBox"];

/** How many arguments each function takes, fewest and most. */
const FUNCTIONS: Readonly<Record<string, readonly [number, number]>> = {
  u: [1, 2], v: [1, 2], w: [1, 2], psi_s: [1, 1], psi_p: [1, 1], angle: [3, 3], abs: [1, 1], sqrt: [1, 1],
  min: [1, 9], max: [1, 9], hypot: [1, 9], placed: [2, 2], gap: [1, 9], frames: [0, 0], highest: [3, 3], lowest: [3, 3],
};

/**
 * What is wrong with a rule, as sentences; empty when it can be used. For the import of a library.
 */
export function checkNullRule(rule: NullRule, scope: NullRuleScope = {}): readonly string[] {
  const problems: string[] = [];
  if (!rule.say) problems.push("the rule has no sentence to show");
  const isKnownOp = (RULE_OPS as readonly (string | undefined)[]).includes(rule.op);
  if (rule.fact !== undefined) {
    if (!(RULE_FACTS as readonly string[]).includes(rule.fact)) problems.push(`there is no fact "${rule.fact}"`);
    if (rule.fact === "swing-reading") {
      if (!rule.checkpoint) problems.push("the rule does not name the checkpoint whose reading it asks for");
      if (!isKnownOp || typeof rule.right !== "number") problems.push("the rule compares the reading with nothing");
    } else if (!rule.is?.length && !BOOLEAN_FACTS.includes(rule.fact)) problems.push(`the rule does not say which "${rule.fact}" it means`);
    return problems;
  }
  if (rule.left === undefined || rule.right === undefined) problems.push("the rule needs a left and a right side");
  if (!isKnownOp) problems.push(`there is no comparison "${rule.op ?? ""}"`);
  if (rule.over !== undefined && rule.over !== "window") problems.push(`a rule holds over "window" or at its times, not over "${rule.over}"`);
  if (rule.over === "window" && !scope.hasWindow) problems.push("the rule looks over a window, and the checkpoint has none");
  for (const side of [rule.left, rule.right]) {
    if (typeof side !== "string") continue;
    try {
      problems.push(...partsOf(parseRuleExpression(side)).flatMap((part) => partProblems(part, scope)));
      problems.push(...nameProblems(parseRuleExpression(side), scope));
    } catch (error) {
      problems.push(error instanceof RangeError ? error.message : String(error));
    }
  }
  return problems;
}

function partProblems(part: RuleExpression, scope: NullRuleScope): string[] {
  if (part.kind !== "call") return [];
  const count = Object.hasOwn(FUNCTIONS, part.name) ? FUNCTIONS[part.name] : undefined;
  if (!count) return [`there is no function "${part.name}"`];
  const [fewest, most] = count;
  if (part.args.length < fewest || part.args.length > most) return [`"${part.name}" takes ${fewest === most ? fewest : `${fewest} to ${most}`} arguments`];
  const names = part.args.map((arg) => (arg.kind === "name" ? arg.name : ""));
  if (["u", "v", "w", "placed"].includes(part.name) && !isPlaceId(names[0])) return [`"${part.name}" begins with a point, not "${names[0]}"`];
  if (part.name === "angle" && !names.every(isPlaceId)) return ['"angle" takes three points'];
  if (part.name === "gap" && !names.every(isPointId)) return ['"gap" takes points'];
  if (["highest", "lowest"].includes(part.name) && !scope.symbols?.includes(names[0] ?? "")) return [`"${names[0]}" is not a symbol of this checkpoint`];
  return [];
}

/** Names that stand for a number must be a length, an event, P, t_end or one of the checkpoint's symbols. */
function nameProblems(expression: RuleExpression, scope: NullRuleScope): string[] {
  if (expression.kind === "binary") return [...nameProblems(expression.left, scope), ...nameProblems(expression.right, scope)];
  if (expression.kind === "call") return expression.args.filter((arg) => arg.kind !== "name" || !isPlaceId(arg.name)).flatMap((arg) => nameProblems(arg, scope));
  if (expression.kind === "number") return [];
  const { name } = expression;
  const isKnown = Object.hasOwn(EVENT_OF_SYMBOL, name) || Object.hasOwn(LENGTH_RULES, name) || name === "P" || name === "t_end" || scope.symbols?.includes(name);
  return isKnown ? [] : [`there is no name "${name}"`];
}
