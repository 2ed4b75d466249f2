import type { LibraryParts } from "@/lib/domains/library/schema";
import type { PlayerFacts } from "@/lib/domains/roster/view";
import { comparableSwings } from "@/lib/measure/several/comparable-swings";
import { takenFacts, type SwingTaken } from "@/lib/measure/several/like-for-like";
import { changeableByFault } from "@/lib/prescribe/allowed-drills";
import type { DrillPlayer } from "@/lib/prescribe/drill";
import { answerFactor } from "@/lib/reason/answer-evidence";
import { readingRatio, type FaultReadings, type SpeakingReading } from "@/lib/reason/reading-evidence";
import { readTally, type TalliedBall, type TallyCount } from "@/lib/reason/tally";
import type { AnswerFactor, Sight } from "@/lib/reason/types";
import { graphOf, type RunInput } from "./working-out/rules";

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
  readonly questionAnswers: readonly { readonly id: string; readonly questionId: string; readonly answerId: string; readonly answeredOn: string }[];
  readonly symptomCalls: readonly { readonly id: string; readonly symptomId: string; readonly state: Sight }[];
  readonly balls: readonly TalliedBall[];
  readonly overruled: readonly string[];
}

const MS_OF_DAY = 86_400_000;

/** Whether an answer still stands: it is used for so many days as its record says, 0 only on its own day. */
export function stands(answeredOn: string, standsDays: number, today: string): boolean {
  return Date.parse(today) - Date.parse(answeredOn) <= standsDays * MS_OF_DAY;
}

/** The answers that stand today, as factors; what the library no longer asks is left out. */
function answersOf({ parts, questionAnswers, facts }: GivenEvidence, isInGraph: (id: string) => boolean): { id: string; factor: AnswerFactor }[] {
  return questionAnswers.flatMap(({ id, questionId, answerId, answeredOn }) => {
    const question = parts.questions.questions.find((one) => one.id === questionId);
    if (!question || !stands(answeredOn, question.standsDays, facts.today) || question.gate) return [];
    if (!question.answers.some((answer) => answer.id === answerId) || !question.bearsOn.every(isInGraph)) return [];
    return [{ id, factor: answerFactor(question, answerId) }];
  });
}

/** What the ball does: the coach's own call, else what the tally says. */
export function symptomsOf({ parts, symptomCalls, balls }: Pick<GivenEvidence, "parts" | "symptomCalls" | "balls">): { symptom: string; state: Sight; count: TallyCount | null; isCalled: boolean }[] {
  const counts = readTally(balls, parts.terms.tally.symptoms, parts.terms.tally.minimum);
  return parts.symptoms.symptoms.map(({ id }) => {
    const call = symptomCalls.find(({ symptomId }) => symptomId === id);
    const count = counts.find(({ symptom }) => symptom === id) ?? null;
    return { symptom: id, state: call?.state ?? count?.state ?? "not-visible", count, isCalled: call !== undefined };
  });
}

/** Faults that were called and count no more, since the library has retired them. */
export function retiredCalls({ calls, retired }: Pick<GivenEvidence, "calls" | "retired">): string[] {
  return [...new Set(calls.map(({ faultId }) => faultId))].filter((id) => retired.has(id)).sort();
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
  const answers = answersOf(given, (id) => graph.indexById.has(id));
  const symptoms = symptomsOf(given).filter(({ symptom, state }) => state !== "not-visible" && graph.indexById.has(symptom));
  const worked = asked.filter(({ isPresent }) => isPresent).map(({ nodeId }) => nodeId).sort();
  return {
    v: 2,
    ranking: {
      level: facts.level,
      isSlapper,
      evidence: {
        calls: byId(calls),
        symptoms: byId(symptoms.map(({ symptom, state }): [string, Sight] => [symptom, state])), readings: byId([...ratios].map(([id, { ratio }]) => [id, ratio])), answers: answers.map(({ factor }) => factor),
      },
      changeable: byId(Object.entries(changeableByFault(parts.drills.drills, drillPlayer(parts, facts, isSlapper, worked), parts.gear))),
    },
    overruled: [...given.overruled].sort(),
    from: {
      swingIds: swings.map(({ id }) => id),
      observationIds: given.calls.map(({ id }) => id).sort(),
      answerIds: asked.map(({ id }) => id).sort(),
      questionAnswerIds: answers.map(({ id }) => id).sort(),
      symptomCallIds: given.symptomCalls.map(({ id }) => id).sort(),
      tally: symptoms.flatMap(({ count, isCalled }) => (count && !isCalled ? [count] : [])),
      readings,
    },
  };
}

/** A list's own words for one of its entries. */
export function termOf(list: readonly { readonly id: string; readonly words: string }[], id: string): string {
  return list.find((term) => term.id === id)?.words ?? id;
}
