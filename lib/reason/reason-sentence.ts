import { EXPLAINS_FROM, reachFrom } from "./reach";
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
 * What a candidate is worth in one to three short sentences that a parent can read, built from the library's names: what
 * it explains, whether it comes first in the swing, and what it may follow from; or that it stands alone.
 * @param explains strongest first
 * @throws RangeError when the graph does not hold the candidate
 */
export function explainSentence(graph: CauseGraph, evidence: Evidence, id: string, explains: readonly ExplainedEffect[]): string {
  const isSeen = evidence.calls[id] === "seen";
  const cause = strongestSeenCause(graph, evidence, id);
  const follows = cause && `follow from “${lowerFirst(cause)}”`;
  if (explains.length > 0) {
    const [opening, isFirst] = [isSeen ? "Seen. It explains" : "It explains", comesFirst(graph, evidence, id, explains)];
    const ends = [isFirst ? "It comes first in the swing." : null, follows ? `It may itself ${follows}.` : null];
    return [`${opening} ${listEffects(explains)}.`, ...ends].filter(Boolean).join(" ");
  }
  const alone = "Nothing else that was seen goes with it";
  if (isSeen) return follows ? `Seen. It may ${follows}, and leads on to nothing else that was seen.` : `Seen. ${alone}: it stands alone.`;
  if (evidence.readings[id] !== undefined) return follows ? `Its own readings point to it, and it may ${follows}.` : `Its own readings point to it. ${alone}.`;
  return follows ? `Not looked at yet. It may ${follows}.` : "Not looked at yet. Little that was seen so far points to it.";
}

function listEffects(explains: readonly ExplainedEffect[]): string {
  const names = explains.slice(0, NAMED).map((effect) => `“${lowerFirst(effect.name)}”`);
  const more = explains.length - names.length;
  return joinWords(more > 0 ? [...names, more === 1 ? "one thing more" : `${more} things more`] : names);
}

/** Name of the fault seen, or cause answered with yes, that carries furthest into the node; null when none does. */
function strongestSeenCause(graph: CauseGraph, evidence: Evidence, id: string): string | null {
  const index = graph.indexById.get(id);
  if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  const causes = graph.nodes
    .map((node, place) => ({ node, reach: place < index && evidence.calls[node.id] === "seen" ? (reachFrom(graph, place)[index] ?? 0) : 0 }))
    .filter(({ reach }) => reach >= EXPLAINS_FROM)
    .sort((a, b) => b.reach - a.reach);
  return causes[0]?.node.name ?? null;
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
