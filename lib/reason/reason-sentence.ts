import type { CauseGraph, Evidence } from "./types";

/** An effect that was seen and that the candidate carries into. */
export interface ExplainedEffect {
  readonly id: string;
  readonly name: string;
  /** 0–1. */
  readonly reach: number;
  readonly phaseOrder: number | null;
}

/** So many effects are named in one sentence. */
const NAMED = 3;

/**
 * One sentence that a parent can read: what a candidate would explain, and whether it comes first in the swing, built
 * from the library's names.
 * @param explains strongest first
 */
export function explainSentence(graph: CauseGraph, evidence: Evidence, id: string, explains: readonly ExplainedEffect[]): string {
  const isSeen = evidence.calls[id] === "seen";
  if (explains.length === 0) {
    if (isSeen) return "It was seen in the swing itself, and explains nothing else that was seen.";
    return evidence.readings[id] === undefined ? "It explains little of what was seen so far." : "It rests on its own readings, and explains nothing else that was seen.";
  }
  const names = explains.slice(0, NAMED).map((effect) => `“${lowerFirst(effect.name)}”`);
  const more = explains.length - names.length;
  const listed = joinWords(more > 0 ? [...names, more === 1 ? "one thing more" : `${more} things more`] : names);
  const isFirst = comesFirst(graph, evidence, id, explains);
  return `${isSeen ? "Was seen, and explains" : "Explains"} ${listed}${isFirst ? `${isSeen || names.length > 1 ? "," : ""} and comes first in the swing` : ""}.`;
}

/** Not later than the faults it explains, and earlier than every other fault that was seen. */
function comesFirst(graph: CauseGraph, evidence: Evidence, id: string, explains: readonly ExplainedEffect[]): boolean {
  const order = graph.nodes[graph.indexById.get(id) ?? -1]?.phaseOrder ?? null;
  const explained = explains.filter((effect) => effect.phaseOrder !== null);
  if (order === null || explained.length === 0) return false;
  const isExplained = (id: string) => explained.some((effect) => effect.id === id);
  const others = graph.nodes.filter((other) => other.id !== id && evidence.calls[other.id] === "seen" && !isExplained(other.id));
  return explained.every((effect) => (effect.phaseOrder ?? 0) >= order) && others.every((other) => other.phaseOrder === null || other.phaseOrder > order);
}

/** "a", "a and b", "a, b and c". */
export function joinWords(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1] ?? ""}`;
}

/** Lower case for a name within a sentence, unless it opens with an abbreviation. */
export function lowerFirst(name: string): string {
  const [first = "", second = ""] = name;
  return second === second.toUpperCase() && second !== second.toLowerCase() ? name : first.toLowerCase() + name.slice(1);
}
