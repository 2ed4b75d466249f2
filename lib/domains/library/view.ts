import type { Level } from "@/lib/core/age";
import type { RecordProblem } from "@/lib/core/record-problem";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { gearNames } from "@/lib/prescribe/gear";
import type { RankingRules } from "@/lib/reason/ranking-types";
import type { GraphParts } from "@/lib/reason/types";
import { type FieldDifference, findDrills, findFaults, isMeasured, type ProposalSubject } from "./rules";
import type { CheckpointRecord, DrillRecord, FaultRecord, LibraryParts, ProposalState, QuestionRecord } from "./schema";

/** What pages get of the library, field by field. All of it is in force: a draft has no view but its proposal. */
export interface CueView {
  readonly text: string;
  readonly focus: "external" | "internal" | "mixed";
}

/** A link to another record: its id and the name people read. */
export interface NamedLink {
  readonly id: string;
  readonly name: string;
}

/** A fault in a list, with the wording that matched when it is not the name itself. */
export interface FaultRowView extends NamedLink {
  readonly areaName: string;
  readonly phaseName: string;
  readonly matched: string | null;
}

export interface DrillRowView extends NamedLink {
  readonly setup: DrillRecord["setup"];
  readonly purpose: string;
  readonly minAge: number;
  readonly matched: string | null;
}

export interface SearchView {
  readonly text: string;
  readonly faults: readonly FaultRowView[];
  readonly drills: readonly DrillRowView[];
}

/** The library's first page: faults by area, drills by how they are set up. */
export interface LibraryIndexView {
  readonly edition: EditionInForce;
  readonly areas: readonly (NamedLink & { readonly covers: string; readonly question: string | null; readonly faults: readonly FaultRowView[] })[];
  readonly setups: readonly { readonly setup: DrillRecord["setup"]; readonly drills: readonly DrillRowView[] }[];
  readonly openProposalCount: number;
  readonly can: { readonly propose: boolean };
}

/** One cause or effect next to a fault in the graph. */
export interface NeighbourView extends NamedLink {
  readonly kind: "fault" | "root" | "intermediate";
  readonly mechanism: string;
  readonly strength: number;
}

/** A band in words: where it is fine, where one watches, where one talks about it. */
export interface BandWords {
  readonly fine: string;
  readonly watch: string;
  readonly talkAbout: string;
}

/** How a checkpoint bears on a fault. */
export interface FaultCheckpointView extends NamedLink {
  readonly good: string;
  /** From where it counts towards this fault, as "over 28°". */
  readonly countsFrom: string;
  readonly countsFromYouth: string | null;
  readonly band: BandWords | null;
  readonly bandYouth: BandWords | null;
  readonly sign: string;
  readonly views: readonly string[];
  readonly minFps: number;
  /** False: there is no code for its formula, and it is judged by eye. */
  readonly isMeasured: boolean;
}

/** An edition that changed a record. */
export interface ChangeView {
  readonly editionNumber: number;
  /** A day at the academy, YYYY-MM-DD. */
  readonly on: string;
  readonly by: string;
  readonly reason: string;
  readonly proposalId: string;
}

/** A fault's own page. */
export interface FaultView extends NamedLink {
  readonly synonyms: readonly string[];
  readonly areaName: string;
  readonly phaseName: string;
  readonly sport: FaultRecord["sport"];
  readonly isSlapOnly: boolean;
  readonly looks: FaultRecord["looks"];
  readonly whyItHurts: string;
  readonly playerWording: string;
  readonly safety: string | null;
  readonly lookAlikes: readonly { readonly other: NamedLink | null; readonly words: string; readonly tell: string }[];
  readonly symptoms: readonly NamedLink[];
  readonly checkpoints: readonly FaultCheckpointView[];
  /** Why it is judged by eye, when it has no checkpoint. */
  readonly eyeOnly: string | null;
  readonly comesFrom: readonly NeighbourView[];
  readonly leadsTo: readonly NeighbourView[];
  readonly cues: readonly CueView[];
  readonly drills: readonly (NamedLink & { readonly effect: number; readonly role: "primary" | "secondary"; readonly setup: DrillRecord["setup"] })[];
  readonly noDrillAt: readonly { readonly level: Level; readonly words: string }[];
  readonly edition: EditionInForce;
  readonly history: readonly ChangeView[];
  readonly can: { readonly propose: boolean };
}

/** A drill as it is read by staff. */
export interface DrillView extends NamedLink {
  readonly sport: DrillRecord["sport"];
  readonly setup: DrillRecord["setup"];
  readonly purpose: string;
  readonly steps: readonly string[];
  readonly cues: readonly CueView[];
  readonly equipment: readonly string[];
  readonly gear: readonly string[];
  readonly space: string;
  readonly needsCage: boolean;
  readonly partner: string;
  readonly partnerCount: number;
  readonly adult: DrillRecord["adult"];
  readonly hardBalls: boolean;
  readonly helmet: boolean;
  readonly dose: DrillRecord["dose"];
  readonly maxSessionsPerWeek: number | null;
  readonly levels: readonly Level[];
  readonly minAge: number;
  readonly safety: readonly string[];
  readonly avoidIf: readonly string[];
  readonly avoidParts: readonly string[];
  readonly worked: string;
  readonly workedCheckpoints: readonly { readonly name: string; readonly move: "up" | "down" | "toward-band" }[];
  readonly faults: readonly (NamedLink & { readonly effect: number; readonly role: "primary" | "secondary" })[];
  readonly requires: readonly NamedLink[];
  readonly next: NamedLink | null;
  readonly easier: NamedLink | null;
  readonly edition: EditionInForce;
  readonly history: readonly ChangeView[];
  readonly can: { readonly propose: boolean };
}

/** A record as a form for a change begins, and the edition it is written against. */
export interface RecordForChange {
  readonly baseEditionId: string;
  readonly drill: DrillRecord | null;
  readonly fault: FaultRecord | null;
}

export interface ProposalRowView {
  readonly id: string;
  readonly subject: ProposalSubject;
  readonly recordName: string;
  readonly isNew: boolean;
  readonly state: ProposalState;
  readonly reason: string;
  readonly proposedBy: string;
  readonly proposedOn: string;
}

/** A proposal beside what is in force. */
export interface ProposalView extends ProposalRowView {
  readonly recordId: string;
  readonly decidedBy: string | null;
  readonly decidedOn: string | null;
  /** The head coach's words when it was not taken. */
  readonly answer: string | null;
  readonly editionNumberThen: number;
  readonly editionNumberMade: number | null;
  readonly differences: readonly FieldDifference[];
  /** What stands against taking it as it is; empty when it may be approved. */
  readonly problems: readonly RecordProblem[];
  readonly can: { readonly decide: boolean; readonly withdraw: boolean };
}

/** An edition in the history of the library: when, by whom, and what it changed. */
export interface EditionView {
  readonly id: string;
  readonly number: number;
  readonly contentHash: string;
  readonly approvedOn: string;
  readonly approvedBy: string | null;
  readonly summary: string;
  readonly proposalId: string | null;
  readonly isInForce: boolean;
}

/** Some of a list, and what to ask for to get the next ones; null at the end. */
export interface Page<Row, Key> {
  readonly rows: readonly Row[];
  readonly next: Key | null;
}

/** Which edition is in force. */
export interface EditionInForce {
  readonly id: string;
  readonly number: number;
  readonly contentHash: string;
  readonly approvedAt: string;
  readonly summary: string;
}

/** What ranking and explaining need, of one edition; `graph` goes into `buildGraph` as it is, `rankingRules` into the ranking. */
export interface LibraryForReasoning {
  readonly edition: EditionInForce;
  readonly graph: GraphParts;
  readonly rankingRules: RankingRules;
  readonly causes: LibraryParts["causes"];
  readonly faults: readonly FaultRecord[];
  readonly symptoms: LibraryParts["symptoms"]["symptoms"];
  readonly checkpoints: readonly CheckpointRecord[];
  readonly areas: LibraryParts["areas"]["areas"];
  readonly threeQuestions: LibraryParts["areas"]["threeQuestions"];
  readonly phases: LibraryParts["phases"]["phases"];
  readonly questions: readonly QuestionRecord[];
  readonly questionMethod: LibraryParts["questions"]["method"];
  readonly terms: LibraryParts["terms"];
}

/** One checkpoint for taking readings: as the formulas want it, and as the library writes it. */
export interface CheckpointForMeasuring extends NamedLink {
  readonly area: string;
  readonly phase: string;
  readonly isMeasured: boolean;
  readonly definition: CheckpointDefinition;
  readonly record: CheckpointRecord;
}

export interface LibraryForMeasuring {
  readonly edition: EditionInForce;
  readonly checkpoints: readonly CheckpointForMeasuring[];
  /** Which checkpoints are on and off for a slapped ball. */
  readonly slap: LibraryParts["checkpoints"]["slap"];
  readonly terms: LibraryParts["terms"];
  readonly events: LibraryParts["phases"]["events"];
  readonly threeQuestions: LibraryParts["areas"]["threeQuestions"];
}

/** What homework is planned from. Every drill is in force; a record fits `lib/prescribe` as it is. */
export interface LibraryForPlanning {
  readonly edition: EditionInForce;
  readonly drills: readonly DrillRecord[];
  readonly gear: LibraryParts["gear"];
  readonly loads: LibraryParts["loads"];
  readonly faults: readonly FaultRecord[];
  readonly terms: LibraryParts["terms"];
}

const named = (records: readonly NamedLink[], id: string): NamedLink => ({ id, name: records.find((record) => record.id === id)?.name ?? id });
const nameOf = (records: readonly NamedLink[], id: string) => named(records, id).name;

function inUnit(value: number | string, unit: string): string {
  const number = String(value).replace(/-/g, "−");
  if (unit === "degrees") return `${number}°`;
  return `${number} ${unit.startsWith("seconds") ? "s" : unit}`;
}

/** A band as three phrases with their unit: "6° to 45°", "0° to 6°", "under 0°". */
export function bandWords(band: Pick<NonNullable<CheckpointRecord["band"]>, "ok" | "act">, unit: string): BandWords {
  const [low, high] = band.ok;
  const [actLow, actHigh] = band.act;
  const span = (from: number, to: number) => (unit === "degrees" ? `${inUnit(from, unit)} to ${inUnit(to, unit)}` : `${String(from).replace(/-/g, "−")} to ${inUnit(to, unit)}`);
  const watchLow = actLow === null ? `under ${inUnit(low, unit)}` : actLow < low ? span(actLow, low) : null;
  const watchHigh = actHigh === null ? `over ${inUnit(high, unit)}` : actHigh > high ? span(high, actHigh) : null;
  const talk = [actLow === null ? null : `under ${inUnit(actLow, unit)}`, actHigh === null ? null : `over ${inUnit(actHigh, unit)}`];
  const joined = (phrases: readonly (string | null)[]) => phrases.filter((phrase) => phrase !== null).join(" or ") || "never";
  return { fine: span(low, high), watch: joined([watchLow, watchHigh]), talkAbout: joined(talk) };
}

const faultRowView = (parts: LibraryParts, fault: FaultRecord, matched: string | null = null): FaultRowView => ({
  id: fault.id, name: fault.name, areaName: nameOf(parts.areas.areas, fault.area), phaseName: nameOf(parts.phases.phases, fault.phase),
  matched: matched === fault.name ? null : matched,
});
const drillRowView = ({ id, name, setup, purpose, minAge }: DrillRecord, matched: string | null = null): DrillRowView => ({
  id, name, setup, purpose, minAge, matched: matched === name || matched === purpose ? null : matched,
});

/** What is found by any word a coach would say, nearest first. */
export function searchView(parts: LibraryParts, text: string): SearchView {
  const [faults, drills] = [parts.faults.faults, parts.drills.drills];
  return {
    text,
    faults: findFaults(text, faults).flatMap(({ id, matched }) => faults.filter((fault) => fault.id === id).map((fault) => faultRowView(parts, fault, matched))),
    drills: findDrills(text, drills).flatMap(({ id, matched }) => drills.filter((drill) => drill.id === id).map((drill) => drillRowView(drill, matched))),
  };
}

export function libraryIndexView(parts: LibraryParts): Pick<LibraryIndexView, "areas" | "setups"> {
  const setups = [...new Set(parts.drills.drills.map(({ setup }) => setup))];
  return {
    areas: parts.areas.areas.map(({ id, name, covers, question }) => ({
      id, name, covers,
      question: parts.areas.threeQuestions.find((asked) => asked.id === question)?.question ?? null,
      faults: parts.faults.faults.filter(({ area }) => area === id).map((fault) => faultRowView(parts, fault)),
    })),
    setups: setups.map((setup) => ({ setup, drills: parts.drills.drills.filter((drill) => drill.setup === setup).map((drill) => drillRowView(drill)) })),
  };
}

function faultCheckpointViews(parts: LibraryParts, fault: FaultRecord): FaultCheckpointView[] {
  const viewWords = new Map(parts.terms.lists.view.map(({ id, words }) => [id, words.charAt(0).toLowerCase() + words.slice(1)]));
  return fault.checkpoints.flatMap(({ checkpoint: id, op, value, valueYouth }) => {
    const record = parts.checkpoints.checkpoints.find((checkpoint) => checkpoint.id === id);
    if (!record) return [];
    const from = (limit: number) => `${op === ">" ? "over" : "under"} ${inUnit(limit, record.unit)}`;
    return [{
      id, name: record.name, good: record.good, countsFrom: from(value), countsFromYouth: valueYouth === undefined ? null : from(valueYouth),
      band: record.band && bandWords(record.band, record.unit), bandYouth: record.bandYouth ? bandWords(record.bandYouth, record.unit) : null,
      sign: record.sign, views: record.views.measured.map((view) => viewWords.get(view) ?? view), minFps: record.minFps, isMeasured: isMeasured(record),
    }];
  });
}

function neighbourViews(parts: LibraryParts, faultId: string): { comesFrom: NeighbourView[]; leadsTo: NeighbourView[] } {
  const view = (id: string, { mechanism, strength }: { mechanism: string; strength: number }): NeighbourView => {
    const node = parts.causes.nodes.find((other) => other.id === id);
    const name = node && node.kind !== "fault" ? node.name : nameOf(parts.faults.faults, id);
    return { id, name, kind: node?.kind ?? "fault", mechanism, strength };
  };
  const strongest = (a: NeighbourView, b: NeighbourView) => b.strength - a.strength;
  return {
    comesFrom: parts.causes.edges.filter(({ effect }) => effect === faultId).map((edge) => view(edge.cause, edge)).sort(strongest),
    leadsTo: parts.causes.edges.filter(({ cause }) => cause === faultId).map((edge) => view(edge.effect, edge)).sort(strongest),
  };
}

/** A fault's page, without what belongs to the reader and the history. */
export function faultView(parts: LibraryParts, fault: FaultRecord): Omit<FaultView, "edition" | "history" | "can"> {
  const drills = parts.drills.drills.flatMap(({ id, name, setup, faults }) => {
    return faults.filter((link) => link.fault === fault.id).map(({ effect, role }) => ({ id, name, setup, effect, role }));
  });
  return {
    id: fault.id, name: fault.name, synonyms: fault.synonyms, areaName: nameOf(parts.areas.areas, fault.area), phaseName: nameOf(parts.phases.phases, fault.phase),
    sport: fault.sport, isSlapOnly: fault.onlyFor === "slap", looks: fault.looks, whyItHurts: fault.whyItHurts, playerWording: fault.playerWording, safety: fault.safety,
    lookAlikes: fault.lookAlikes.map(({ fault: id, other, tell }) => ({
      other: id === null ? null : named(parts.faults.faults, id), words: other ?? (id === null ? "" : nameOf(parts.faults.faults, id)), tell,
    })),
    symptoms: fault.symptoms.map(({ id }) => named(parts.symptoms.symptoms, id)),
    checkpoints: faultCheckpointViews(parts, fault), eyeOnly: fault.eyeOnly ?? null, ...neighbourViews(parts, fault.id), cues: fault.cues,
    drills: drills.sort((a, b) => b.effect - a.effect),
    noDrillAt: Object.entries(fault.noDrillAt ?? {}).map(([level, words]) => ({ level: level as Level, words: words ?? "" })),
  };
}

/** A drill's page, without what belongs to the reader and the history. */
export function drillView(parts: LibraryParts, drill: DrillRecord): Omit<DrillView, "edition" | "history" | "can"> {
  const drillLink = (id: string | null) => (id === null ? null : named(parts.drills.drills, id));
  const { id, name, sport, setup, purpose, steps, cues, equipment, space, needsCage, partner, partnerCount, adult, hardBalls, helmet, dose, levels, minAge } = drill;
  return {
    id, name, sport, setup, purpose, steps, cues, equipment, space, needsCage, partner, partnerCount, adult, hardBalls, helmet, dose, levels, minAge,
    gear: gearNames(drill.gear, parts.gear), maxSessionsPerWeek: drill.maxSessionsPerWeek ?? null, safety: drill.safety, avoidIf: drill.avoidIf, avoidParts: drill.avoidParts,
    worked: drill.worked.observe,
    workedCheckpoints: drill.worked.checkpoints.map(({ checkpoint, move }) => ({ name: nameOf(parts.checkpoints.checkpoints, checkpoint), move })),
    faults: drill.faults.map(({ fault, effect, role }) => ({ ...named(parts.faults.faults, fault), effect, role })),
    requires: (drill.requiresDrill ?? []).map((required) => named(parts.drills.drills, required)),
    next: drillLink(drill.next), easier: drillLink(drill.easier),
  };
}
