/**
 * How long a ranking takes on the starter library, beside a plain way of doing the same: the same pruning, tables and
 * order of elimination, but one run for every posterior instead of one pass each way for all. Run: npx tsx tests/bench/ranking.ts
 * (`--typical` only the typical case; `--wide` the sampler beside exact answers on 200 cases of width 18 to 22, about three minutes of its own; CASES=20 for fewer).
 */
import { findOrder } from "@/lib/reason/elimination-order";
import { listObservations } from "@/lib/reason/evidence";
import { factorsOf } from "@/lib/reason/evidence-factors";
import { makeFactor } from "@/lib/reason/factor";
import { buildGraph } from "@/lib/reason/graph";
import { solveMarginals } from "@/lib/reason/marginals";
import { chooseNextQuestion } from "@/lib/reason/next-question";
import { findPosteriors } from "@/lib/reason/posteriors";
import { rankCauses, SAMPLE } from "@/lib/reason/ranking";
import { explainNodes } from "@/lib/reason/reasons";
import { samplePosteriors } from "@/lib/reason/sampled-posteriors";
import type { CauseGraph, Evidence, GraphParts } from "@/lib/reason/types";
import causes from "@/seed/library/causes.json";
import faults from "@/seed/library/faults.json";
import phases from "@/seed/library/phases.json";
import questions from "@/seed/library/questions.json";
import symptoms from "@/seed/library/symptoms.json";
import terms from "@/seed/library/terms.json";
import { drawEvidence } from "./drawn-evidence";

const CASES = Number(process.env.CASES ?? 200);
const BASELINE_CASES = 20;
const LEVEL = "13-14";
const parts: GraphParts = { ...causes, ...faults, ...symptoms, ...phases, symptomLeak: causes.model.symptomLeak };
const rules = { ...causes.ranking, likelihood: terms.likelihoodRule };
const graph = buildGraph(parts, LEVEL, { isSlapper: false });
const asked = questions.questions.filter((question) => !("onlyFor" in question));
const input = (evidence: Evidence) => ({ level: LEVEL, isSlapper: false, evidence, changeable: {} });

function oneQueryAtATime(of: CauseGraph, evidence: Evidence): void {
  const { kept, states, count, factors } = factorsOf(of, listObservations(of, evidence));
  const whole = solveMarginals(count, factors, { isTotalOnly: true });
  for (const index of kept) {
    if (states[index] !== -1 || whole.outcome !== "exact") continue;
    const present = solveMarginals(count, [...factors, makeFactor([index], [0, 1])], { isTotalOnly: true });
    if (present.outcome === "exact") Math.exp(present.logTotal - whole.logTotal);
  }
}

/** Milliseconds by the clock on the wall and of this process alone. */
function timed(work: () => void): { wall: number; own: number } {
  const [start, cpu] = [performance.now(), process.cpuUsage()];
  work();
  const { user, system } = process.cpuUsage(cpu);
  return { wall: performance.now() - start, own: (user + system) / 1000 };
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

function line(title: string, times: readonly { wall: number; own: number }[]): void {
  const of = (key: "wall" | "own") => `${quantile(times.map((one) => one[key]), 0.5).toFixed(1)} / ${quantile(times.map((one) => one[key]), 0.95).toFixed(1)}`;
  console.log(`  ${title.padEnd(28)} median / 95th percentile ${of("wall")} ms on the wall, ${of("own")} ms of the process`);
}

/** Everything the page needs of one case. */
function page(evidence: Evidence): void {
  const ranking = rankCauses(graph, rules, input(evidence));
  if (ranking.outcome !== "ranked") return;
  explainNodes(graph, rules, input(evidence), ranking.candidates.map(({ id }) => id));
  chooseNextQuestion(graph, rules, input(evidence), asked, questions.method.minValue);
}

function report(title: string, counts: Parameters<typeof drawEvidence>[2], cases: number): void {
  const drawn = Array.from({ length: cases }, (_, i) => drawEvidence(graph, i + 1, counts));
  const widths = drawn.map((evidence) => findPosteriors(graph, evidence, { widthCap: 0 }).width);
  const entries = drawn.map((evidence) => {
    const { count, factors } = factorsOf(graph, listObservations(graph, evidence));
    return findOrder(count, factors.map(({ variables }) => variables)).entries;
  });
  const within = drawn.filter((_, i) => (widths[i] ?? 99) <= 22);
  const copy = (evidence: Evidence) => ({ ...evidence });
  console.log(`${title}: ${counts.seen} seen, ${counts.notSeen} not, ${counts.symptoms} and ${counts.symptomsNotSeen} symptoms; ${within.length} of ${cases} cases within the cap`);
  console.log(`  width median ${quantile(widths, 0.5)}, largest ${Math.max(...widths)}; entries median ${quantile(entries, 0.5)}, 95th percentile ${quantile(entries, 0.95)}`);
  const posteriors = within.map((evidence) => timed(() => findPosteriors(graph, copy(evidence))));
  line("all posteriors", posteriors);
  line("ranking", within.map((evidence) => timed(() => rankCauses(graph, rules, input(copy(evidence))))));
  line("reasons of the candidates", within.map((evidence) => {
    const ranking = rankCauses(graph, rules, input(evidence));
    const fresh = input(copy(evidence));
    return timed(() => explainNodes(graph, rules, fresh, ranking.outcome === "ranked" ? ranking.candidates.map(({ id }) => id) : []));
  }));
  line("next question", within.map((evidence) => timed(() => chooseNextQuestion(graph, rules, input(copy(evidence)), asked, questions.method.minValue))));
  line("all that the page needs", within.map((evidence) => timed(() => page(copy(evidence)))));
  const plain = within.slice(0, BASELINE_CASES).map((evidence) => timed(() => oneQueryAtATime(graph, evidence)));
  line(`baseline, ${plain.length} cases`, plain);
  const ratio = quantile(plain.map(({ own }) => own), 0.5) / quantile(posteriors.slice(0, BASELINE_CASES).map(({ own }) => own), 0.5);
  console.log(`  the baseline takes ${ratio.toFixed(1)} times the posteriors' time of its own process`);
}

/** The sampler beside exact answers where both can be had: drawn swings whose evidence is 18 to 22 wide. */
function compareSampled(cases: number): void {
  const shares: number[] = [];
  const times: { wall: number; own: number }[] = [];
  const errors: number[] = [];
  for (let seed = 1; shares.length < cases; seed++) {
    const evidence = drawEvidence(graph, seed, { seen: seed % 3, notSeen: 0, symptoms: 1 + (seed % 2), symptomsNotSeen: 0, readings: 6 + (seed % 9) });
    const exact = findPosteriors(graph, evidence);
    if (exact.outcome !== "exact" || exact.width < 18) continue;
    let sampled: ReturnType<typeof samplePosteriors> | undefined;
    times.push(timed(() => (sampled = samplePosteriors(graph, evidence, { ...SAMPLE, seed }))));
    if (!sampled) continue;
    const { probability, error } = sampled;
    const farthest = Math.max(...Object.entries(exact.probability).map(([id, p]) => Math.abs(p - (probability[id] ?? NaN))));
    shares.push(farthest / error);
    errors.push(error);
  }
  console.log(`sampled beside exact, ${cases} cases of width 18 to 22: stated error median ${quantile(errors, 0.5).toFixed(3)}, largest ${Math.max(...errors).toFixed(3)}`);
  console.log(`  farthest miss over stated error: median ${quantile(shares, 0.5).toFixed(2)}, largest ${Math.max(...shares).toFixed(2)}; beyond it in ${shares.filter((share) => share > 1).length}`);
  line("sampling", times);
}

const links = graph.nodes.reduce((sum, node) => sum + node.parents.length, 0);
console.log(`starter library, level ${LEVEL}: ${graph.nodes.length} nodes, ${links} links`);
for (let i = 1; i <= (process.argv.includes("--wide") ? 0 : 10); i++) page(drawEvidence(graph, 1000 + i, { seen: 5, notSeen: 10, symptoms: 2, symptomsNotSeen: 2 }));
if (!process.argv.includes("--wide")) report("typical", { seen: 5, notSeen: 10, symptoms: 2, symptomsNotSeen: 2 }, CASES);
if (process.argv.includes("--wide")) compareSampled(Number(process.env.CASES ?? 200));
else if (!process.argv.includes("--typical")) {
  report("thin", { seen: 3, notSeen: 3, symptoms: 1, symptomsNotSeen: 0 }, 20);
}
console.log(`largest memory of the process: ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`);
