import type { RankingRules } from "./ranking-types";
import type { LikelihoodWord } from "./types";

/** The word for players and parents: likely, maybe or unlikely. @param probability posterior, 0–1 */
export function likelihoodWord(probability: number, rule: RankingRules["likelihood"]): LikelihoodWord {
  if (probability >= rule.likely.from) return "likely";
  return probability >= rule.maybe.from ? "maybe" : "unlikely";
}
