import { LENGTH_RULES, type LengthId } from "@/lib/measure/body-lengths";
import type { NullRule } from "@/lib/measure/checkpoint-definition";
import { parseRuleExpression, partsOf } from "@/lib/measure/null-rule-expression";
import { TURNS } from "@/lib/measure/null-rule-symbols";
import { isPlaceId, mixesOf } from "@/lib/measure/points";

/** The points and body lengths that a rule's two sides name, by themselves or as part of a place or a turn. */
export interface RuleLooksAt {
  readonly points: ReadonlySet<string>;
  readonly lengths: ReadonlySet<LengthId>;
}

const KNOWN = new WeakMap<NullRule, RuleLooksAt>();

/** What a rule looks at in the picture. @throws RangeError for a rule that checkNullRule refuses */
export function ruleLooksAt(rule: NullRule): RuleLooksAt {
  const known = KNOWN.get(rule);
  if (known) return known;
  const [points, lengths] = [new Set<string>(), new Set<LengthId>()];
  const addPlace = (place: string) => {
    if (isPlaceId(place)) for (const mix of mixesOf(place)) for (const point of Object.keys(mix)) points.add(point);
  };
  for (const side of [rule.left, rule.right]) {
    if (typeof side !== "string") continue;
    for (const part of partsOf(parseRuleExpression(side))) {
      if (part.kind === "name") {
        addPlace(part.name);
        if (Object.hasOwn(LENGTH_RULES, part.name)) lengths.add(part.name as LengthId);
      }
      if (part.kind === "call" && (part.name === "psi_s" || part.name === "psi_p")) {
        const [back, front, width] = TURNS[part.name];
        points.add(back).add(front);
        lengths.add(width);
      }
    }
  }
  const found = { points, lengths };
  KNOWN.set(rule, found);
  return found;
}
