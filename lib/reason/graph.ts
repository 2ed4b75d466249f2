import { GraphError } from "./errors";
import type { CauseGraph, CausePart, GraphNode, GraphParts, NodeKind } from "./types";

interface Draft {
  readonly id: string;
  readonly kind: NodeKind;
  readonly name: string;
  readonly isGate: boolean;
  readonly phaseOrder: number | null;
  readonly leak: number;
  readonly links: { cause: string; strength: number }[];
}

/**
 * Builds the noisy-OR graph of one level: P(effect | parents) = 1 − (1 − leak)·Π over present parents (1 − strength).
 * @param parts one library edition; its order and its names change nothing but the texts
 * @param level a level that every prior and leak knows, such as "13-14"
 * @param isSlapper keeps the nodes marked `onlyFor: "slap"` with their links; otherwise both are left out
 * @throws GraphError naming every id that is wrong: a cycle, a number outside 0–1, a link to nowhere, a missing prior
 *   or leak, an id used twice, a fault without its record or phase
 */
export function buildGraph(parts: GraphParts, level: string, { isSlapper }: { readonly isSlapper: boolean }): CauseGraph {
  const problems: string[] = [];
  const drafts = collectNodes(parts, level, problems);
  collectLinks(parts, drafts, problems);
  if (problems.length > 0) throw new GraphError(problems);

  const leftOut = new Set(
    [...parts.nodes, ...parts.symptoms].filter((part) => part.onlyFor !== undefined && !isSlapper).map((part) => part.id),
  );
  const kept = [...drafts.values()].filter((draft) => !leftOut.has(draft.id));
  const order = causesFirst(kept.map((draft) => ({ ...draft, links: draft.links.filter((link) => !leftOut.has(link.cause)) })));
  const indexById = new Map(order.map((draft, index) => [draft.id, index]));
  const nodes = order.map(({ links, ...node }): GraphNode => {
    const parents = links.map((link) => Object.freeze({ index: indexById.get(link.cause) ?? -1, strength: link.strength }));
    parents.sort((a, b) => a.index - b.index);
    return Object.freeze({ ...node, parents: Object.freeze(parents) });
  });
  return Object.freeze({ level, isSlapper, nodes: Object.freeze(nodes), indexById });
}

function collectNodes(parts: GraphParts, level: string, problems: string[]): Map<string, Draft> {
  const orderOf = new Map(parts.phases.map((phase) => [phase.id, phase.order]));
  const faults = new Map(parts.faults.map((fault) => [fault.id, fault]));
  const drafts = new Map<string, Draft>();
  const add = (draft: Draft) => {
    if (drafts.has(draft.id)) problems.push(`two nodes are called "${draft.id}"`);
    drafts.set(draft.id, draft);
  };
  for (const part of parts.nodes) {
    const kind = kindOf(part, problems);
    const record = faults.get(part.id);
    if (kind === "fault" && !record) problems.push(`the fault "${part.id}" has no record of its own`);
    const phaseOrder = kind === "fault" && record ? (orderOf.get(record.phase) ?? null) : null;
    if (kind === "fault" && record && phaseOrder === null) problems.push(`the fault "${part.id}" names no known phase ("${record.phase}")`);
    const what = kind === "root" ? "prior" : "leak";
    const leak = (kind === "root" ? part.prior : part.leak)?.[level];
    if (leak === undefined) problems.push(`"${part.id}" has no ${what} for level "${level}"`);
    else if (!isProbability(leak)) problems.push(`the ${what} of "${part.id}" is outside 0–1 (${leak})`);
    add({ id: part.id, kind, name: record?.name ?? part.name ?? part.id, isGate: part.gate === true, phaseOrder, leak: leak ?? 0, links: [] });
  }
  if (!isProbability(parts.symptomLeak)) problems.push(`the leak of the symptoms is outside 0–1 (${parts.symptomLeak})`);
  for (const symptom of parts.symptoms) {
    add({ id: symptom.id, kind: "symptom", name: symptom.name, isGate: false, phaseOrder: null, leak: parts.symptomLeak, links: [] });
  }
  return drafts;
}

function collectLinks(parts: GraphParts, drafts: Map<string, Draft>, problems: string[]): void {
  const join = (cause: string, effect: string, strength: number, isToSymptom: boolean) => {
    const from = drafts.get(cause);
    const to = drafts.get(effect);
    const link = `the link "${cause}" → "${effect}"`;
    if (!isProbability(strength)) problems.push(`${link} has a strength outside 0–1 (${strength})`);
    if (!from) problems.push(`${link} starts nowhere: there is no "${cause}"`);
    if (!to) problems.push(`${link} leads nowhere: there is no "${effect}"`);
    if (!from || !to) return;
    if (to.kind === "root") problems.push(`${link} leads to a root`);
    if ((to.kind === "symptom") !== isToSymptom || from.kind === "symptom") problems.push(`${link} joins kinds that do not join`);
    if (to.links.some((other) => other.cause === cause)) problems.push(`${link} is there twice`);
    to.links.push({ cause, strength });
  };
  for (const edge of parts.edges) join(edge.cause, edge.effect, edge.strength, false);
  for (const fault of parts.faults) for (const symptom of fault.symptoms) join(fault.id, symptom.id, symptom.strength, true);
}

/** Causes before effects; among those that could stand next, the smallest id. */
function causesFirst(drafts: readonly Draft[]): Draft[] {
  const waiting = new Map([...drafts].sort((a, b) => compareIds(a.id, b.id)).map((draft) => [draft.id, draft]));
  const order: Draft[] = [];
  while (waiting.size > 0) {
    const next = [...waiting.values()].find((draft) => !draft.links.some((link) => waiting.has(link.cause)));
    if (!next) throw new GraphError([`these nodes cause each other in a circle: ${circleIn(waiting).join(" → ")}`]);
    waiting.delete(next.id);
    order.push(next);
  }
  return order;
}

/** Every waiting node has a waiting cause: walking back from any one must meet itself. */
function circleIn(waiting: ReadonlyMap<string, Draft>): string[] {
  const path: string[] = [];
  let at = waiting.values().next().value;
  while (at && !path.includes(at.id)) {
    path.push(at.id);
    const cause = at.links.find((link) => waiting.has(link.cause))?.cause;
    at = cause === undefined ? undefined : waiting.get(cause);
  }
  const start = at ? path.indexOf(at.id) : 0;
  return [...path.slice(start), path[start] ?? ""].reverse();
}

/** Order of ids by code units, the same on every machine and in every language. */
export function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function kindOf(part: CausePart, problems: string[]): NodeKind {
  if (part.kind === "root" || part.kind === "intermediate" || part.kind === "fault") return part.kind;
  problems.push(`"${part.id}" is of no known kind ("${part.kind}")`);
  return "fault";
}

function isProbability(value: number): boolean {
  return value >= 0 && value <= 1;
}
