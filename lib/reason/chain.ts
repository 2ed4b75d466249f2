import { explainedEffects } from "./reasons";
import { lowerFirst } from "./reason-sentence";
import type { Ranking, RankingInput, RankingRules } from "./ranking-types";
import type { CauseGraph, NodeKind, Sight } from "./types";

/** At most so many seen effects are drawn for one candidate. */
const EFFECTS_DRAWN = 5;

export interface ChainNode {
  readonly id: string;
  readonly name: string;
  readonly kind: NodeKind;
  /** ask = cause to ask about first; candidate; effect = seen; between = on the way, not called. */
  readonly role: "ask" | "candidate" | "effect" | "between";
  readonly sight: Sight;
  /** Posterior 0–1; null when the node lies in front of the evidence. */
  readonly probability: number | null;
  /** Column from left to right, 0 first: causes, then the phases of the swing, then the ball. */
  readonly column: number;
}

export interface ChainLink {
  readonly cause: string;
  readonly effect: string;
  /** 0–1. */
  readonly strength: number;
  readonly word: "often" | "sometimes" | "now and then";
}

/** The small graph to draw for one candidate, complete also as text. Plain JSON. */
export interface Chain {
  readonly candidate: string;
  /** By column, then from left to right as causes stand before effects. */
  readonly nodes: readonly ChainNode[];
  readonly links: readonly ChainLink[];
  /** One sentence per link, in the same order as the drawing is read. */
  readonly text: readonly string[];
}

/**
 * The candidate, the effects of it that were seen, the causes to ask first that lead to it, and what lies on the
 * strongest way between them.
 * @throws RangeError when the graph does not hold the candidate
 */
export function buildChain(graph: CauseGraph, rules: RankingRules, input: RankingInput, ranking: Ranking, candidateId: string): Chain {
  const candidate = graph.indexById.get(candidateId);
  if (candidate === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${candidateId}"`);
  const roles = new Map<number, ChainNode["role"]>([[candidate, "candidate"]]);
  const links = new Map<string, { from: number; to: number; strength: number }>();
  const draw = (path: readonly number[], role: "ask" | "effect", end: number) => {
    if (path.length === 0) return;
    for (const place of path) if (!roles.has(place)) roles.set(place, "between");
    if (end !== candidate) roles.set(end, role);
    path.slice(1).forEach((to, i) => {
      const from = path[i] ?? 0;
      const strength = graph.nodes[to]?.parents.find((parent) => parent.index === from)?.strength ?? 0;
      links.set(`${from} ${to}`, { from, to, strength });
    });
  };
  for (const effect of explainedEffects(graph, rules, input, ranking.probability, candidateId).slice(0, EFFECTS_DRAWN)) {
    const to = graph.indexById.get(effect.id) ?? candidate;
    draw(strongestPath(graph, candidate, to), "effect", to);
  }
  for (const cause of ranking.askFirst) {
    const from = graph.indexById.get(cause.id) ?? candidate;
    draw(strongestPath(graph, from, candidate), "ask", from);
  }

  const lastPhase = Math.max(0, ...graph.nodes.map((node) => node.phaseOrder ?? 0));
  const columnOf = (place: number) => graph.nodes[place]?.phaseOrder ?? (graph.nodes[place]?.kind === "symptom" ? lastPhase + 1 : 0);
  const places = [...roles.keys()].sort((a, b) => columnOf(a) - columnOf(b) || a - b);
  const columns = [...new Set(places.map(columnOf))];
  const nodes = places.flatMap((place): ChainNode[] => {
    const node = graph.nodes[place];
    if (!node) return [];
    const sight = input.evidence.calls[node.id] ?? input.evidence.symptoms[node.id] ?? "not-visible";
    const role = roles.get(place) ?? "between";
    const isSeenBetween = role === "between" && sight === "seen";
    return [{ id: node.id, name: node.name, kind: node.kind, role: isSeenBetween ? "effect" : role, sight, probability: ranking.probability[node.id] ?? null, column: columns.indexOf(columnOf(place)) }];
  });
  const rank = new Map(places.map((place, i) => [place, i]));
  const ordered = [...links.values()].sort((a, b) => (rank.get(a.from) ?? 0) - (rank.get(b.from) ?? 0) || (rank.get(a.to) ?? 0) - (rank.get(b.to) ?? 0));
  const drawn = ordered.map(({ from, to, strength }): ChainLink => {
    return { cause: graph.nodes[from]?.id ?? "", effect: graph.nodes[to]?.id ?? "", strength, word: linkWord(strength) };
  });
  return { candidate: candidateId, nodes, links: drawn, text: drawn.map((link) => linkText(nodes, link)) };
}

/** Places from one node to another along the path with the largest product of strengths; empty when none leads there. */
export function strongestPath(graph: CauseGraph, from: number, to: number): number[] {
  const best = new Map<number, { product: number; before: number }>([[from, { product: 1, before: -1 }]]);
  for (let place = from + 1; place <= to; place++) {
    for (const { index, strength } of graph.nodes[place]?.parents ?? []) {
      const product = (best.get(index)?.product ?? 0) * strength;
      if (product > (best.get(place)?.product ?? 0)) best.set(place, { product, before: index });
    }
  }
  const path: number[] = [];
  for (let at = best.has(to) ? to : -1; at >= 0; at = best.get(at)?.before ?? -1) path.unshift(at);
  return path;
}

function linkWord(strength: number): ChainLink["word"] {
  if (strength >= 0.4) return "often";
  return strength >= 0.2 ? "sometimes" : "now and then";
}

function linkText(nodes: readonly ChainNode[], link: ChainLink): string {
  const say = (id: string) => {
    const node = nodes.find((one) => one.id === id);
    const sight = node?.sight === "seen" ? " (seen)" : node?.sight === "not-seen" ? " (not seen)" : "";
    return `“${lowerFirst(node?.name ?? id)}”${sight}`;
  };
  const sentence = `${say(link.cause)} ${link.word} leads to ${say(link.effect)}.`;
  return sentence.replace(/^“(.)/, (_, first: string) => `“${first.toUpperCase()}`);
}
