import { canonicalJson } from "@/lib/core/canonical-json";
import type { Level } from "@/lib/core/age";
import type { LibraryParts } from "@/lib/domains/library/schema";
import type { PlayerFacts } from "@/lib/domains/roster/view";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { takenFacts, type SwingTaken } from "@/lib/measure/several/like-for-like";
import { changeableByFault } from "@/lib/prescribe/allowed-drills";
import type { DrillPlayer } from "@/lib/prescribe/drill";
import { buildChain, type Chain } from "@/lib/reason/chain";
import { buildGraph } from "@/lib/reason/graph";
import { orderInGroups, rankCauses } from "@/lib/reason/ranking";
import type { Candidate, RankedNode, RankingInput, RankingRules } from "@/lib/reason/ranking-types";
import { EXPLAINS_FROM, reachFrom } from "@/lib/reason/reach";
import { readingRatio, type FaultReadings, type SpeakingReading } from "@/lib/reason/reading-evidence";
import { explainSentence } from "@/lib/reason/reason-sentence";
import type { ExplainedEffect } from "@/lib/reason/reason-sentence";
import { explainedEffects, findReasons, type Reasons } from "@/lib/reason/reasons";
import type { CauseGraph, Sight } from "@/lib/reason/types";

type FaultRecord = LibraryParts["faults"]["faults"][number];

/** A swing as far as comparing goes. */
export interface SwingFacts extends SwingTaken {
  readonly id: string;
  /** YYYY-MM-DD */
  readonly filmedOn: string;
}

/** The newest swing and those that are like it, newest first: the library's rule says what is alike, how many and how old. */
export function swingsLikeNewest<S extends SwingFacts>(newestFirst: readonly S[], rule: LibraryParts["terms"]["comparableRule"]): S[] {
  const onDays = newestFirst.map((swing) => ({ ...swing, day: swing.filmedOn }));
  const [newest] = onDays;
  if (!newest) return [];
  const alike = new Set(comparableSwings(newest, onDays, { same: takenFacts(rule.same), withinDays: rule.withinDays }, rule.lastN).alike.map(({ id }) => id));
  return newestFirst.filter(({ id }) => alike.has(id));
}

/** One coach's call of one fault on one swing. */
export interface Call {
  readonly swingId: string;
  readonly faultId: string;
  readonly state: Sight;
  readonly calledAt: Date;
}

/** A fault over several swings: how often it was seen, of how many that show it. */
export interface FaultCount {
  readonly seen: number;
  readonly judged: number;
  readonly notVisible: number;
  /** What counts as called: what most swings that show it say; when they are even, the newest of them. */
  readonly state: Sight | null;
}

const NO_COUNT: FaultCount = { seen: 0, judged: 0, notVisible: 0, state: null };

/** The calls of each fault over the swings (newest first). Of several coaches on one swing the latest call holds. */
export function countCalls(swings: readonly { readonly id: string }[], calls: readonly Call[]): ReadonlyMap<string, FaultCount> {
  const latest = new Map<string, Call>();
  for (const call of calls) {
    const key = `${call.faultId} ${call.swingId}`;
    const before = latest.get(key);
    if (!before || before.calledAt < call.calledAt) latest.set(key, call);
  }
  const counts = new Map<string, FaultCount>();
  for (const faultId of new Set(calls.map((call) => call.faultId))) {
    const states = swings.flatMap((swing) => latest.get(`${faultId} ${swing.id}`)?.state ?? []);
    const judged = states.filter((state) => state !== "not-visible");
    const seen = judged.filter((state) => state === "seen").length;
    const half = judged.length / 2;
    const most: Sight = seen === half ? (judged[0] ?? "not-visible") : seen > half ? "seen" : "not-seen";
    if (states.length > 0) counts.set(faultId, { seen, judged: judged.length, notVisible: states.length - judged.length, state: most });
  }
  return counts;
}

export const countOf = (counts: ReadonlyMap<string, FaultCount>, faultId: string): FaultCount => counts.get(faultId) ?? NO_COUNT;

/** A stored reading as the ranking uses it. */
export interface SwingReading {
  readonly swingId: string;
  readonly checkpointId: string;
  readonly value: number | null;
  /** All its doubt, the camera's included. */
  readonly sd: number | null;
  readonly verdict: string | null;
  readonly isGrey: boolean;
}

/** A reading speaks when it has a verdict: not unknown, not grey, not of a checkpoint that is off for the swing. */
export function speaks<R extends SwingReading>(reading: R): reading is R & { readonly value: number; readonly sd: number } {
  return reading.value !== null && reading.sd !== null && reading.verdict !== null && !reading.isGrey;
}

/** One reading per checkpoint: per swing the surest, and of several swings the median with its own doubt. */
export function medianReadings(readings: readonly SwingReading[], parts: LibraryParts): SpeakingReading[] {
  const byCheckpoint = new Map<string, Map<string, { value: number; sd: number }>>();
  for (const reading of readings) {
    if (!speaks(reading)) continue;
    const bySwing = byCheckpoint.get(reading.checkpointId) ?? new Map<string, { value: number; sd: number }>();
    byCheckpoint.set(reading.checkpointId, bySwing);
    const known = bySwing.get(reading.swingId);
    if (!known || reading.sd < known.sd) bySwing.set(reading.swingId, { value: reading.value, sd: reading.sd });
  }
  const reliability = new Map(parts.checkpoints.checkpoints.map((checkpoint) => [checkpoint.id, checkpoint.reliability2d]));
  return [...byCheckpoint].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([checkpoint, bySwing]) => {
    const known = reliability.get(checkpoint);
    const ordered = [...bySwing.values()].sort((a, b) => a.value - b.value || a.sd - b.sd);
    const [low, high] = [ordered[Math.floor((ordered.length - 1) / 2)], ordered[Math.floor(ordered.length / 2)]];
    if (!known || !low || !high) return [];
    return [{ checkpoint, value: (low.value + high.value) / 2, sd: Math.sqrt((low.sd ** 2 + high.sd ** 2) / 2), reliability: known }];
  });
}

/** The faults that can be called for this side: of the player's sport, of slappers only for slappers, not retired. */
export function faultsFor(parts: LibraryParts, retired: ReadonlySet<string>, player: { readonly sport: string; readonly isSlapper: boolean }): FaultRecord[] {
  return parts.faults.faults.filter(
    (fault) => !retired.has(fault.id) && (fault.sport === "both" || fault.sport === player.sport) && (fault.onlyFor === undefined || player.isSlapper),
  );
}

/** What the readings say of each fault. On running slaps the faults of the power swing are left to the eye. */
export function readingsByFault(
  parts: LibraryParts,
  faults: readonly FaultRecord[],
  readings: readonly SpeakingReading[],
  swing: { readonly isYouth: boolean; readonly isRunningSlap: boolean },
): ReadonlyMap<string, FaultReadings> {
  const context = { isYouth: swing.isYouth, flightSeconds: null };
  const open = faults.filter((fault) => !swing.isRunningSlap || fault.onlyFor === "slap");
  return new Map(open.flatMap((fault): [string, FaultReadings][] => {
    const found = readingRatio(fault.checkpoints, readings, parts.causes.evidence, context);
    return found ? [[fault.id, found]] : [];
  }));
}

/** What the readings of one swing propose for its faults. */
export function readingsOfSwing(given: Pick<GivenEvidence, "parts" | "facts" | "readings">, faults: readonly FaultRecord[], swing: { readonly id: string; readonly swingKind: string }): ReadonlyMap<string, FaultReadings> {
  const own = medianReadings(given.readings.filter(({ swingId }) => swingId === swing.id), given.parts);
  return readingsByFault(given.parts, faults, own, { isYouth: given.facts.isYouth, isRunningSlap: swing.swingKind === "running-slap" });
}

/** From which ratio on the readings propose a call; below its inverse they propose "not seen". Judgement. */
const PROPOSES_FROM = 2;

export function proposalOf(readings: FaultReadings | undefined): "seen" | "not-seen" | null {
  if (!readings) return null;
  if (readings.ratio >= PROPOSES_FROM) return "seen";
  return readings.ratio <= 1 / PROPOSES_FROM ? "not-seen" : null;
}

/** The player as drills see one. While nobody has noted the home, everything counts as at hand. */
export function drillPlayer(parts: LibraryParts, facts: PlayerFacts, isSlapper: boolean, causesWorkedOn: readonly string[]): DrillPlayer {
  const { home } = facts;
  const place = home
    ? { gear: home.gear, space: { widthM: home.widthM, lengthM: home.lengthM, hasCage: home.hasCage }, partnerCount: home.partnerCount, adult: home.adult }
    : { gear: parts.gear.items.map((item) => item.id), space: { widthM: 99, lengthM: 99, hasCage: true }, partnerCount: 2, adult: "operates" as const };
  const { ageYears, level, sport, complaints, isPaused } = facts;
  return { ageYears, level, sport, complaints, isPaused, isSlapper, causesWorkedOn, learnedDrills: [], ...place };
}

/** Everything a run rests on, as plain JSON: with the edition's graph it gives the same output bit for bit. */
export interface RunInput {
  readonly v: 1;
  readonly ranking: RankingInput;
  /** Faults that a coach has overruled; they are left out of the candidates. */
  readonly overruled: readonly string[];
  readonly from: {
    readonly swingIds: readonly string[];
    readonly observationIds: readonly string[];
    readonly answerIds: readonly string[];
    readonly readings: readonly SpeakingReading[];
  };
}

export interface GivenEvidence {
  readonly parts: LibraryParts;
  readonly retired: ReadonlySet<string>;
  readonly facts: PlayerFacts;
  readonly isSlapper: boolean;
  /** Comparable ones, newest first. */
  readonly swings: readonly SwingFacts[];
  readonly calls: readonly (Call & { readonly id: string })[];
  readonly readings: readonly SwingReading[];
  readonly answers: readonly { readonly id: string; readonly nodeId: string; readonly isPresent: boolean }[];
  readonly overruled: readonly string[];
}

/** Brings together what is known of a player's side, in an order of its own. */
export function gatherInput(given: GivenEvidence): RunInput {
  const { parts, facts, isSlapper, swings } = given;
  const graph = graphOf(parts, facts.level, isSlapper);
  const faults = faultsFor(parts, given.retired, { sport: facts.sport, isSlapper });
  const readings = medianReadings(given.readings, parts);
  const ratios = readingsByFault(parts, faults, readings, { isYouth: facts.isYouth, isRunningSlap: swings[0]?.swingKind === "running-slap" });
  const callable = new Set(faults.map((fault) => fault.id));
  const calls: [string, Sight][] = [...countCalls(swings, given.calls)].flatMap(([id, { state }]) => (state && callable.has(id) ? [[id, state]] : []));
  const asked = given.answers.filter(({ nodeId }) => graph.indexById.has(nodeId));
  for (const { nodeId, isPresent } of asked) calls.push([nodeId, isPresent ? "seen" : "not-seen"]);
  const byId = <T>(entries: readonly [string, T][]) => Object.fromEntries([...entries].sort(([a], [b]) => (a < b ? -1 : 1)));
  const worked = asked.filter(({ isPresent }) => isPresent).map(({ nodeId }) => nodeId).sort();
  return {
    v: 1,
    ranking: {
      level: facts.level,
      isSlapper,
      evidence: { calls: byId(calls), symptoms: {}, readings: byId([...ratios].map(([id, { ratio }]) => [id, ratio])), answers: [] },
      changeable: byId(Object.entries(changeableByFault(parts.drills.drills, drillPlayer(parts, facts, isSlapper, worked), parts.gear))),
    },
    overruled: [...given.overruled].sort(),
    from: {
      swingIds: swings.map(({ id }) => id),
      observationIds: given.calls.map(({ id }) => id).sort(),
      answerIds: asked.map(({ id }) => id).sort(),
      readings,
    },
  };
}

const graphs = new WeakMap<LibraryParts, Map<string, CauseGraph>>();

/** The graph of one edition for a level, built once. */
export function graphOf(parts: LibraryParts, level: Level | string, isSlapper: boolean): CauseGraph {
  const known = graphs.get(parts) ?? new Map<string, CauseGraph>();
  graphs.set(parts, known);
  const key = `${level} ${isSlapper}`;
  const graph = known.get(key) ?? buildGraph(
    {
      nodes: parts.causes.nodes, edges: parts.causes.edges, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms,
      phases: parts.phases.phases, symptomLeak: parts.causes.model.symptomLeak,
    },
    level,
    { isSlapper },
  );
  known.set(key, graph);
  return graph;
}

export interface RunCandidate extends Candidate {
  /** Why it stands here, in one sentence. */
  readonly sentence: string;
  readonly explains: readonly ExplainedEffect[];
  /** What it would have led to, and was looked for and not seen. */
  readonly against: readonly { readonly id: string; readonly name: string }[];
  readonly chain: Chain;
}

/** What a run gives, as plain JSON. */
export type RunOutput =
  | {
      readonly outcome: "ranked";
      readonly engineVersion: string;
      readonly width: number;
      readonly isEnoughSeen: boolean;
      readonly candidates: readonly RunCandidate[];
      readonly askFirst: readonly RankedNode[];
    }
  | { readonly outcome: "too-wide"; readonly engineVersion: string; readonly width: number };

const rankingRules = (parts: LibraryParts): RankingRules => ({ ...parts.causes.ranking, likelihood: parts.terms.likelihoodRule });

/** Works a run out: a pure function of the edition and the stored input. */
export function workOut(parts: LibraryParts, input: RunInput): RunOutput {
  const rules = rankingRules(parts);
  const graph = graphOf(parts, input.ranking.level, input.ranking.isSlapper);
  const ranking = rankCauses(graph, { ...rules, maxShown: rules.maxShown + input.overruled.length }, input.ranking);
  if (ranking.outcome === "too-wide") return ranking;
  const standing = ranking.candidates.filter((candidate) => !input.overruled.includes(candidate.id));
  const candidates = orderInGroups(standing, rules.nearTie.share).slice(0, rules.maxShown).map((candidate): RunCandidate => {
    const explains = explainedEffects(graph, rules, input.ranking, ranking.probability, candidate.id);
    return {
      ...candidate,
      explains,
      sentence: explainSentence(graph, input.ranking.evidence, candidate.id, explains),
      against: missedEffects(graph, input.ranking, candidate.id),
      chain: buildChain(graph, rules, input.ranking, ranking, candidate.id),
    };
  });
  const { engineVersion, width, isEnoughSeen, askFirst } = ranking;
  return { outcome: "ranked", engineVersion, width, isEnoughSeen, candidates, askFirst };
}

/** Faults that a candidate carries into and that were called not seen, strongest first. */
function missedEffects(graph: CauseGraph, input: RankingInput, id: string): { id: string; name: string }[] {
  const reach = reachFrom(graph, graph.indexById.get(id) ?? 0);
  return graph.nodes
    .map((node, index) => ({ id: node.id, name: node.name, reach: reach[index] ?? 0 }))
    .filter((node) => node.id !== id && node.reach >= EXPLAINS_FROM && input.evidence.calls[node.id] === "not-seen")
    .sort((a, b) => b.reach - a.reach)
    .map(({ id: effect, name }) => ({ id: effect, name }));
}

const KEPT_RUNS = 200;
const kept = new Map<string, unknown>();

/** The same answer for the same question, without working it out again. */
function once<T>(key: string, work: () => T): T {
  if (kept.has(key)) return kept.get(key) as T;
  const value = work();
  kept.set(key, value);
  const oldest = kept.keys().next().value;
  if (kept.size > KEPT_RUNS && oldest !== undefined) kept.delete(oldest);
  return value;
}

export function workOutOnce(editionId: string, parts: LibraryParts, input: RunInput): RunOutput {
  return once(`run ${editionId} ${canonicalJson(input)}`, () => workOut(parts, input));
}

/** What raised one candidate and what speaks against it: every observation is left out once, exactly. */
export function findReasonsOnce(editionId: string, parts: LibraryParts, input: RunInput, faultId: string): Reasons {
  const { ranking } = input;
  return once(`why ${faultId} ${editionId} ${canonicalJson(ranking)}`, () => findReasons(graphOf(parts, ranking.level, ranking.isSlapper), ranking, faultId));
}
