import { seededRandom } from "@/lib/core/random";
import { NO_EVIDENCE, type CauseGraph, type Evidence } from "@/lib/reason/types";

/** How much of a drawn swing is called. */
export interface EvidenceCounts {
  readonly seen: number;
  readonly notSeen: number;
  readonly symptoms: number;
  readonly symptomsNotSeen: number;
  /** Faults that only readings speak of, with ratios as the readings of a present or absent fault give. */
  readonly readings?: number;
}

/** A swing drawn from the graph itself, of which so many faults and symptoms were called; drawn anew until it has them. */
export function drawEvidence(graph: CauseGraph, seed: number, counts: EvidenceCounts): Evidence {
  const random = seededRandom(seed);
  for (;;) {
    const present: boolean[] = [];
    for (const node of graph.nodes) {
      const absent = node.parents.reduce((p, parent) => (present[parent.index] ? p * (1 - parent.strength) : p), 1 - node.leak);
      present.push(random.uniform() >= absent);
    }
    const pick = (kind: string, isPresent: boolean, many: number) =>
      graph.nodes
        .filter((node, index) => node.kind === kind && present[index] === isPresent)
        .map((node) => ({ id: node.id, key: random.uniform() }))
        .sort((a, b) => a.key - b.key)
        .slice(0, many)
        .map(({ id }) => id);
    const called = pick("fault", true, counts.seen);
    const absent = pick("fault", false, counts.notSeen);
    const ball = pick("symptom", true, counts.symptoms);
    const noBall = pick("symptom", false, counts.symptomsNotSeen);
    if (called.length < counts.seen || absent.length < counts.notSeen || ball.length < counts.symptoms || noBall.length < counts.symptomsNotSeen) continue;
    const free = graph.nodes.flatMap((node, index) => (node.kind === "fault" && !called.includes(node.id) && !absent.includes(node.id) ? [{ id: node.id, is: present[index] }] : []));
    const read = free.map((fault) => ({ fault, key: random.uniform() })).sort((a, b) => a.key - b.key).slice(0, counts.readings ?? 0);
    return {
      ...NO_EVIDENCE,
      calls: Object.fromEntries([...called.map((id) => [id, "seen"] as const), ...absent.map((id) => [id, "not-seen"] as const)]),
      symptoms: Object.fromEntries([...ball.map((id) => [id, "seen"] as const), ...noBall.map((id) => [id, "not-seen"] as const)]),
      readings: Object.fromEntries(read.map(({ fault }) => [fault.id, Math.exp((fault.is ? 1 : -0.7) * (0.3 + random.uniform()))])),
    };
  }
}
