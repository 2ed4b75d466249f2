import { ImpossibleEvidenceError } from "./errors";
import type { Observation } from "./evidence";
import { findLogLikelihood, findPosteriorsFrom, type Posteriors } from "./posteriors";
import type { CauseGraph } from "./types";

/** What one observation does to one node. */
export interface LeftOut {
  readonly observation: Observation;
  /** Natural log odds of the node with everything, less the log odds with this one left out; null when that is too wide to work out. */
  readonly logOddsChange: number | null;
}

/** The log odds of a node that is as good as certain are held at those of this probability and of 1 less it. */
const LEAST = 1e-12;
const MOST_LOG_ODDS = Math.log((1 - LEAST) / LEAST);

/**
 * Leaves every observation out once and says how far the log odds of one node move; exact, without a run for each.
 *
 * Let n be the node and e everything. A reading with ratio r on a node j multiplies every state by 1 (j absent) or r (j
 * present), so that leaving it out divides by the same: P(n, e without j) = P(n, e)·E[r^−j | n, e]. One run with n
 * present and one with n absent hold that expectation for every reading at once; a reading of n itself moves its log
 * odds by ln r. The same holds for an answer that bears on one node. A call or a symptom that is left out opens its
 * node, and an answer on several nodes ties them: each of those takes two runs of its own that only sum.
 * @param observations without a call of the node itself
 * @throws RangeError when the graph holds no such node
 */
export function leaveEachOut(graph: CauseGraph, observations: readonly Observation[], id: string): LeftOut[] {
  const index = graph.indexById.get(id);
  if (index === undefined) throw new RangeError(`the graph of level "${graph.level}" holds no "${id}"`);
  const fix = (of: readonly Observation[], isSeen: boolean): Observation[] => [...of, { kind: "call", id, index, isSeen }];
  const [present, absent] = [true, false].map((isSeen) => solve(graph, fix(observations, isSeen)));
  const isOpen = present?.outcome === "exact" && absent?.outcome === "exact";
  const whole = isOpen ? present.logLikelihood - absent.logLikelihood : logOddsOf(graph, observations, fix);

  return observations.map((observation): LeftOut => {
    const ratio = ratioOf(observation);
    if (isOpen && ratio) {
      const weigh = (run: Posteriors) => (ratio.index === index ? 1 : averageInverse(run.probability[graph.nodes[ratio.index]?.id ?? ""] ?? NaN, ratio.value));
      const own = ratio.index === index ? Math.log(ratio.value) : 0;
      return { observation, logOddsChange: own + Math.log(weigh(absent)) - Math.log(weigh(present)) };
    }
    const without = logOddsOf(graph, observations.filter((other) => other !== observation), fix);
    return { observation, logOddsChange: whole === null || without === null ? null : held(whole) - held(without) };
  });
}

/** E[r^−j] for a node j that is present with the given probability. */
const averageInverse = (probability: number, ratio: number) => 1 - probability + probability / ratio;

/** An observation that weighs the two states of one open node: the ratio of present to absent. */
function ratioOf(observation: Observation): { index: number; value: number } | null {
  if (observation.kind === "reading") return { index: observation.index, value: observation.ratio };
  if (observation.kind !== "answer") return null;
  const [index, second] = observation.indices;
  if (index === undefined || second !== undefined) return null;
  return { index, value: (observation.likelihoods[1] ?? NaN) / (observation.likelihoods[0] ?? NaN) };
}

const held = (logOdds: number) => Math.min(MOST_LOG_ODDS, Math.max(-MOST_LOG_ODDS, logOdds));

/** Null when it is too wide. */
function logOddsOf(graph: CauseGraph, observations: readonly Observation[], fix: (of: readonly Observation[], isSeen: boolean) => Observation[]): number | null {
  const [present, absent] = [true, false].map((isSeen) => findLogLikelihood(graph, fix(observations, isSeen)));
  return typeof present === "number" && typeof absent === "number" ? present - absent : null;
}

/** Null when the evidence cannot be. */
function solve(graph: CauseGraph, observations: readonly Observation[]) {
  try {
    return findPosteriorsFrom(graph, observations);
  } catch (error) {
    if (error instanceof ImpossibleEvidenceError) return null;
    throw error;
  }
}
