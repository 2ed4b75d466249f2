import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { clipContext } from "@/lib/measure/clip-context";
import type { ClipInput, SwingInput } from "@/lib/measure/clip-input";
import { isKnownFormula } from "@/lib/measure/formula-registry";
import { readInContext } from "@/lib/measure/read-checkpoint";
import type { Reading } from "@/lib/measure/reading";
import { checkRules, STARTER_RULES, type ReadingRules } from "@/lib/measure/reading-rules";

/**
 * Reads all checkpoints on one clip of a swing, those made of event times included, in the order given. Checkpoints
 * whose formula this program does not have yet are left out: a page shows what can be read, not what cannot.
 * @throws RangeError for rules that cannot be
 */
export function readClip(
  definitions: readonly CheckpointDefinition[],
  clip: ClipInput,
  swing: SwingInput,
  options: { readonly rules?: ReadingRules } = {},
): readonly Reading[] {
  const rules = options.rules ?? STARTER_RULES;
  checkRules(rules);
  const context = clipContext(clip, swing, rules);
  return definitions
    .filter(({ formulaId, formulaVersion }) => isKnownFormula(formulaId, formulaVersion))
    .map((definition) => readInContext(definition, context));
}
