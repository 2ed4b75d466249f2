/**
 * How long a ranking takes on the starter library, beside a plain way of doing the same: the same pruning, tables and
 * order of elimination, but one run for every posterior instead of one pass each way for all. Run: npx tsx tests/bench/ranking.ts
 */
import { seededRandom } from "@/lib/core/random";
import { listObservations } from "@/lib/reason/evidence";
import { factorsOf } from "@/lib/reason/evidence-factors";
import { makeFactor } from "@/lib/reason/factor";
import { buildGraph } from "@/lib/reason/graph";
import { solveMarginals } from "@/lib/reason/marginals";
import { findPosteriors } from "@/lib/reason/posteriors";
import { rankCauses } from "@/lib/reason/ranking";
import { NO_EVIDENCE, type CauseGraph, type Evidence, type GraphParts } from "@/lib/reason/types";
import causes from "@/seed/library/causes.json";
import faults from "@/seed/library/faults.json";
import phases from "@/seed/library/phases.json";
import symptoms from "@/seed/library/symptoms.json";
import terms from "@/seed/library/terms.json";

const CASES = 20;
const LEVEL = "13-14";
const parts: GraphParts = { ...causes, ...faults, ...symptoms, ...phases, symptomLeak: causes.model.symptomLeak };
const rules = { ...causes.ranking, likelihood: terms.likelihoodRule };
const graph = buildGraph(parts, LEVEL, { isSlapper: false });

/** A swing drawn from the graph itself, of which some seen and not seen faults and seen symptoms were called. */
function drawEvidence(seed: number, seen: number, notSeen: number, seenSymptoms: number): Evidence {
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
    const [called, absent, ball] = [pick("fault", true, seen), pick("fault", false, notSeen), pick("symptom", true, seenSymptoms)];
    if (called.length < seen || absent.length < notSeen || ball.length < seenSymptoms) continue;
    return {
      ...NO_EVIDENCE,
      calls: Object.fromEntries([...called.map((id) => [id, "seen"] as const), ...absent.map((id) => [id, "not-seen"] as const)]),
      symptoms: Object.fromEntries(ball.map((id) => [id, "seen"] as const)),
    };
  }
}

function oneQueryAtATime(of: CauseGraph, evidence: Evidence): void {
  const { kept, states, count, factors } = factorsOf(of, listObservations(of, evidence));
  const whole = solveMarginals(count, factors, { isTotalOnly: true });
  for (const index of kept) {
    if (states[index] !== -1 || whole.outcome !== "exact") continue;
    const present = solveMarginals(count, [...factors, makeFactor([index], [0, 1])], { isTotalOnly: true });
    if (present.outcome === "exact") Math.exp(present.logTotal - whole.logTotal);
  }
}

function milliseconds(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

function report(title: string, seen: number, notSeen: number, seenSymptoms: number): void {
  const drawn = Array.from({ length: CASES }, (_, i) => drawEvidence(i + 1, seen, notSeen, seenSymptoms));
  const widths = drawn.map((evidence) => findPosteriors(graph, evidence, { widthCap: 0 }).width);
  const cases = drawn.filter((_, i) => (widths[i] ?? 99) <= 22);
  const input = (evidence: Evidence) => ({ level: LEVEL, isSlapper: false, evidence, changeable: {} });
  const ranking = cases.map((evidence) => milliseconds(() => rankCauses(graph, rules, input(evidence))));
  const passes = cases.map((evidence) => milliseconds(() => findPosteriors(graph, evidence)));
  const plain = cases.slice(0, 5).map((evidence) => milliseconds(() => oneQueryAtATime(graph, evidence)));
  const ratio = quantile(plain, 0.5) / quantile(passes.slice(0, 5), 0.5);
  console.log(`${title}: ${seen} seen, ${notSeen} not seen, ${seenSymptoms} symptoms; ${cases.length} of ${CASES} cases within the cap`);
  console.log(`  width        median ${quantile(widths, 0.5)}, largest ${Math.max(...widths)}`);
  console.log(`  ranking      median ${quantile(ranking, 0.5).toFixed(0)} ms, 95th percentile ${quantile(ranking, 0.95).toFixed(0)} ms`);
  console.log(`  posteriors   median ${quantile(passes, 0.5).toFixed(0)} ms, 95th percentile ${quantile(passes, 0.95).toFixed(0)} ms`);
  console.log(`  one query at a time, first five cases: median ${quantile(plain, 0.5).toFixed(0)} ms, ${ratio.toFixed(1)} times the posteriors' median`);
}

const links = graph.nodes.reduce((sum, node) => sum + node.parents.length, 0);
console.log(`starter library, level ${LEVEL}: ${graph.nodes.length} nodes, ${links} links`);
report("typical", 5, 10, 2);
report("thin", 3, 3, 1);
