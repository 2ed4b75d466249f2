import { LEVELS } from "@/lib/core/age";
import { isSameValue } from "@/lib/core/canonical-json";
import { findCycle } from "@/lib/core/cycle";
import { applyPatch, type Patch, type PatchRefusal } from "@/lib/core/patch";
import type { RecordProblem } from "@/lib/core/record-problem";
import { rankMatches, type SearchEntry, type SearchMatch, searchTerms } from "@/lib/core/search-terms";
import { diffWords, type WordRun } from "@/lib/core/word-diff";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { EVENT_IDS, type EventId } from "@/lib/measure/clip-input";
import { isKnownFormula } from "@/lib/measure/formula-registry";
import { checkNullRule } from "@/lib/measure/null-rule-check";
import { checkDrills } from "@/lib/prescribe/drill-check";
import {
  type CheckpointRecord, drillForm, type DrillRecord, faultForm, type FaultRecord, type LibraryFile, type LibraryParts, type NullRule,
} from "./schema";

/** What the checks need to know about the formulas that exist in code. */
export interface KnownFormulas {
  readonly isKnownFormula: (formulaId: string, formulaVersion: number) => boolean;
  /** What cannot be read of a rule, as sentences; empty when it can be used. */
  readonly checkNullRule: (rule: NullRule, scope: { symbols: readonly string[]; hasWindow: boolean }) => readonly string[];
}

/** The formulas of this program: a checkpoint with another one is refused at import. */
export const OUR_FORMULAS: KnownFormulas = { isKnownFormula, checkNullRule };

/** Whether this program can read a checkpoint from a clip; otherwise it is judged by eye. */
export function isMeasured({ formulaId, formulaVersion }: Pick<CheckpointRecord, "formulaId" | "formulaVersion">): boolean {
  return isKnownFormula(formulaId, formulaVersion);
}

const eventsOf = (ids: readonly string[]): EventId[] => ids.flatMap((id) => EVENT_IDS.find((known) => known === id) ?? []);

/** A checkpoint in the form in which readings are taken. */
export function checkpointDefinition(record: CheckpointRecord): CheckpointDefinition {
  const { window, named } = record;
  return {
    ...record,
    events: eventsOf(record.events),
    window: window && { ...window, from: String(window.from), to: String(window.to) },
    named: named.map(({ events, ...rest }) => ({ ...rest, ...(events ? { events: eventsOf(events) } : {}) })),
  };
}

type Say = (file: LibraryFile, id: string, field: string, words: string) => void;
type Ids = ReadonlySet<string>;

const firstTwice = (entries: readonly string[]) => entries.find((entry, index) => entries.indexOf(entry) < index);
const idsOf = (records: readonly { readonly id: string }[]): Ids => new Set(records.map(({ id }) => id));

function checkOnce(parts: LibraryParts, say: Say): void {
  const lists: [LibraryFile, string, readonly { readonly id: string }[]][] = [
    ["areas", "area", parts.areas.areas], ["phases", "phase", parts.phases.phases], ["phases", "event", parts.phases.events],
    ["symptoms", "symptom", parts.symptoms.symptoms], ["checkpoints", "checkpoint", parts.checkpoints.checkpoints],
    ["faults", "fault", parts.faults.faults], ["causes", "node", parts.causes.nodes], ["causes", "edge", parts.causes.edges],
    ["questions", "question", parts.questions.questions], ["drills", "drill", parts.drills.drills],
    ["gear", "gear", [...parts.gear.items, ...parts.gear.groups]],
    ...Object.values(parts.terms.lists).map((list): [LibraryFile, string, typeof list] => ["terms", "term of one list", list]),
  ];
  for (const [file, what, records] of lists) {
    const seen = new Set<string>();
    for (const { id } of records) {
      if (seen.has(id)) say(file, id, "id", `This ${what} stands twice.`);
      seen.add(id);
    }
  }
}

function checkBand(id: string, field: string, band: { ok: readonly [number, number]; act: readonly [number | null, number | null] }, say: Say): void {
  const [low, high] = band.ok;
  const [actLow, actHigh] = band.act;
  if (low >= high) say("checkpoints", id, `${field}.ok`, `The band runs from ${low} to ${high}; the lower limit stands first.`);
  if (actLow !== null && actLow > low) say("checkpoints", id, `${field}.act`, `The lower act limit ${actLow} lies above the ok limit ${low}.`);
  if (actHigh !== null && actHigh < high) say("checkpoints", id, `${field}.act`, `The upper act limit ${actHigh} lies below the ok limit ${high}.`);
  if (actLow === null && actHigh === null) say("checkpoints", id, `${field}.act`, "At least one side needs an act limit.");
}

function checkCheckpoints(parts: LibraryParts, known: KnownFormulas, say: Say): void {
  const [areas, phases, events] = [idsOf(parts.areas.areas), idsOf(parts.phases.phases), idsOf(parts.phases.events)];
  const [faults, points, checkpoints] = [idsOf(parts.faults.faults), new Set(parts.conventions.conventions.points), idsOf(parts.checkpoints.checkpoints)];
  const pointsOf = new Map<string, readonly string[]>(parts.conventions.conventions.lengths.map((length) => [length.id, length.points]));
  const factIds = idsOf(parts.conventions.conventions.facts);
  for (const checkpoint of parts.checkpoints.checkpoints) {
    const { id, views } = checkpoint;
    const at = (field: string, words: string) => say("checkpoints", id, field, words);
    if (!areas.has(checkpoint.area)) at("area", `There is no area "${checkpoint.area}".`);
    if (!phases.has(checkpoint.phase)) at("phase", `There is no phase "${checkpoint.phase}".`);
    for (const point of checkpoint.points) if (!points.has(point)) at("points", `There is no point "${point}".`);
    for (const event of checkpoint.events) if (!events.has(event)) at("events", `There is no event "${event}".`);
    for (const fault of checkpoint.informs ?? []) if (!faults.has(fault)) at("informs", `There is no fault "${fault}".`);
    for (const [length, own] of Object.entries(checkpoint.scalePoints)) {
      if (!isSameValue(own, pointsOf.get(length))) at(`scalePoints.${length}`, "These are not the points of that length.");
    }
    const allViews = [...views.measured, ...views.eye];
    if (views.measured[0] !== views.primary) at("views", "The primary view stands first among the measured ones.");
    if (new Set(allViews).size < allViews.length) at("views", "A view stands twice.");
    if ((checkpoint.scope === "swing") !== (checkpoint.points.length === 0)) at("scope", "A reading of a swing has no points, one of a clip has some.");
    if ((checkpoint.scope === "swing") !== (checkpoint.maxCameraOffDeg === null)) at("maxCameraOffDeg", "Only a reading made of event times has no limit here.");
    if (checkpoint.band) checkBand(id, "band", checkpoint.band, say);
    else if (checkpoint.ownBaselineOnly !== true) at("band", "Without a band it can only be held against the player's own baseline.");
    if (checkpoint.bandYouth) checkBand(id, "bandYouth", checkpoint.bandYouth, say);
    for (const rule of checkpoint.nullWhen) {
      if (rule.fact !== undefined && !factIds.has(rule.fact)) at("nullWhen", `There is no fact "${rule.fact}".`);
      if (rule.fact === undefined && (rule.left === undefined || rule.op === undefined || rule.right === undefined)) at("nullWhen", "A rule compares two sides or names a fact.");
      if (rule.checkpoint !== undefined && !checkpoints.has(rule.checkpoint)) at("nullWhen", `There is no checkpoint "${rule.checkpoint}".`);
      const scope = { symbols: Object.keys(checkpoint.symbols ?? {}), hasWindow: checkpoint.window !== null };
      for (const refusal of known.checkNullRule(rule, scope)) at("nullWhen", `It cannot be read: ${refusal}.`);
    }
    if (!known.isKnownFormula(checkpoint.formulaId, checkpoint.formulaVersion)) {
      at("formulaId", `There is no formula "${checkpoint.formulaId}" of version ${checkpoint.formulaVersion} here.`);
    }
  }
  const { on, off, ownBaselineOnly } = parts.checkpoints.slap;
  for (const id of [...on, ...off]) if (!checkpoints.has(id)) say("checkpoints", "", "slap", `There is no checkpoint "${id}".`);
  for (const id of checkpoints) if (on.includes(id) === off.includes(id)) say("checkpoints", id, "slap", "It stands in exactly one of slap.on and slap.off.");
  for (const id of ownBaselineOnly) if (!on.includes(id)) say("checkpoints", id, "slap.ownBaselineOnly", "Only what is read on a running slap can stand here.");
}

function checkFaults(parts: LibraryParts, say: Say): void {
  const [areas, phases, symptoms, faults] = [idsOf(parts.areas.areas), idsOf(parts.phases.phases), idsOf(parts.symptoms.symptoms), idsOf(parts.faults.faults)];
  const checkpoints = new Map(parts.checkpoints.checkpoints.map((checkpoint) => [checkpoint.id, checkpoint]));
  for (const fault of parts.faults.faults) {
    const at = (field: string, words: string) => say("faults", fault.id, field, words);
    if (!areas.has(fault.area)) at("area", `There is no area "${fault.area}".`);
    if (!phases.has(fault.phase)) at("phase", `There is no phase "${fault.phase}".`);
    for (const { id } of fault.symptoms) if (!symptoms.has(id)) at("symptoms", `There is no symptom "${id}".`);
    for (const { fault: other } of fault.lookAlikes) if (other !== null && !faults.has(other)) at("lookAlikes", `There is no fault "${other}".`);
    const twice = firstTwice([fault.name, ...fault.synonyms]);
    if (twice) at("synonyms", `"${twice}" stands twice.`);
    const twiceLinked = firstTwice(fault.symptoms.map(({ id }) => id)) ?? firstTwice(fault.checkpoints.map(({ checkpoint, op }) => `${checkpoint} ${op}`));
    if (twiceLinked) at(fault.symptoms.some(({ id }) => id === twiceLinked) ? "symptoms" : "checkpoints", `"${twiceLinked}" stands twice.`);
    if (fault.cues[0]?.focus !== "external") at("cues", "The first cue points outside the body.");
    if (fault.checkpoints.length === 0 && fault.eyeOnly === undefined) at("checkpoints", "Without a checkpoint it says why it is judged by eye.");
    for (const { checkpoint: id, op, value, valueYouth } of fault.checkpoints) {
      const checkpoint = checkpoints.get(id);
      if (!checkpoint) at("checkpoints", `There is no checkpoint "${id}".`);
      const bands = [[value, checkpoint?.band], [valueYouth, checkpoint?.bandYouth ?? checkpoint?.band]] as const;
      for (const [threshold, band] of bands) {
        const isInside = band && threshold !== undefined && (op === ">" ? threshold < band.ok[1] : threshold > band.ok[0]);
        if (isInside) at("checkpoints", `${id} ${op} ${threshold} begins inside its ok band (${band.ok.join(" to ")}).`);
      }
    }
  }
  for (const id of symptoms) {
    if (!parts.faults.faults.some((fault) => fault.symptoms.some((link) => link.id === id))) say("symptoms", id, "id", "No fault leads to it.");
  }
}

function checkGraph(parts: LibraryParts, say: Say): void {
  const { nodes, edges, ranking } = parts.causes;
  const [ids, faults] = [idsOf(nodes), idsOf(parts.faults.faults)];
  const effectsOf = new Map<string, string[]>();
  const hasCause = new Set<string>();
  const seen = new Set<string>();
  for (const { id, cause, effect } of edges) {
    for (const [field, end] of [["cause", cause], ["effect", effect]] as const) if (!ids.has(end)) say("causes", id, field, `There is no node "${end}".`);
    if (seen.has(`${cause} ${effect}`)) say("causes", id, "effect", `${cause} leads to ${effect} twice.`);
    seen.add(`${cause} ${effect}`);
    hasCause.add(effect);
    effectsOf.set(cause, [...(effectsOf.get(cause) ?? []), effect]);
  }
  const cycle = findCycle(ids, (id) => effectsOf.get(id) ?? []);
  if (cycle) say("causes", cycle[0] ?? "", "edges", `Causes go round: ${cycle.join(" → ")}.`);
  for (const node of nodes) {
    if (node.kind === "fault" && !faults.has(node.id)) say("causes", node.id, "kind", "There is no such fault.");
    if (node.kind === "root" && hasCause.has(node.id)) say("causes", node.id, "kind", "A root has nothing that leads to it.");
    if (node.kind === "intermediate" && !hasCause.has(node.id)) say("causes", node.id, "kind", "Something leads to what lies between.");
    if (!hasCause.has(node.id) && !effectsOf.has(node.id)) say("causes", node.id, "id", "Nothing leads to it or from it.");
    const fault = parts.faults.faults.find(({ id }) => id === node.id);
    if (fault && fault.onlyFor !== node.onlyFor) say("causes", node.id, "onlyFor", "The node and the fault disagree.");
  }
  for (const id of faults) if (!ids.has(id)) say("faults", id, "id", "The graph of causes has no such node.");
  for (const gate of ranking.gates) if (!nodes.some((node) => node.id === gate && node.kind !== "fault" && node.gate)) say("causes", gate, "ranking.gates", "A gate is a cause that is marked as one.");
}

function checkQuestions(parts: LibraryParts, say: Say): void {
  const [nodes, gear] = [idsOf(parts.causes.nodes), idsOf([...parts.gear.items, ...parts.gear.groups])];
  for (const question of parts.questions.questions) {
    const at = (field: string, words: string) => say("questions", question.id, field, words);
    for (const node of question.bearsOn) if (!nodes.has(node)) at("bearsOn", `There is no node "${node}".`);
    for (const entry of question.needs.gear) if (!gear.has(entry)) at("needs.gear", `There is no gear "${entry}".`);
    const sum = question.answers.reduce((total, { base }) => total + base, 0);
    if (Math.abs(sum - 1) > 1e-9) at("answers", `The shares of the answers add up to ${sum.toFixed(3)}, not to 1.`);
    for (const answer of question.answers) {
      const isWhole = isSameValue(Object.keys(answer.likelihoodRatios).sort(), [...question.bearsOn].sort());
      if (!isWhole) at(`answers.${answer.id}`, "It has one ratio for each thing the question bears on.");
    }
    if ((question.kind === "clip") !== (question.view !== undefined)) at("view", "A question asks for a view when, and only when, it asks for a clip.");
    if (question.kind === "screen" && question.safety === null) at("safety", "A screen says how it is done safely.");
  }
}

function checkOthers(parts: LibraryParts, say: Say): void {
  const areas = idsOf(parts.areas.areas);
  const questions = idsOf(parts.areas.threeQuestions);
  for (const { id, question } of parts.areas.areas) if (question !== null && !questions.has(question)) say("areas", id, "question", `There is no question "${question}".`);
  for (const { id, areas: own } of parts.areas.threeQuestions) for (const area of own) if (!areas.has(area)) say("areas", id, "areas", `There is no area "${area}".`);
  const phases = idsOf(parts.phases.phases);
  for (const { id, phase } of parts.phases.events) if (phase !== null && !phases.has(phase)) say("phases", id, "phase", `There is no phase "${phase}".`);
  const items = idsOf(parts.gear.items);
  for (const { id, anyOf } of parts.gear.groups) for (const item of anyOf) if (!items.has(item)) say("gear", id, "anyOf", `There is no item "${item}".`);
  const symptoms = idsOf(parts.symptoms.symptoms);
  for (const { symptom } of parts.terms.tally.symptoms) if (!symptoms.has(symptom)) say("terms", symptom, "tally", "There is no such symptom.");
  if (!isSameValue(parts.conventions.conventions.levels.map(({ id }) => id), LEVELS)) say("conventions", "", "levels", "The levels are the five known ones, youngest first.");
  for (const drill of parts.drills.drills) {
    const twice = firstTwice(drill.faults.map(({ fault }) => fault));
    if (twice) say("drills", drill.id, "faults", `"${twice}" stands twice.`);
  }
  const rows = parts.loads.swings.rows;
  if (!isSameValue(rows.map(({ level }) => level), LEVELS)) say("loads", "", "swings.rows", "There is one row for each level, youngest first.");
  for (const { level, perSession, perDay, perWeek, homePerDay } of rows) {
    const isOrdered = perSession <= perDay && perDay <= perWeek && homePerDay[0] <= homePerDay[1] && homePerDay[1] <= perDay;
    if (!isOrdered) say("loads", level, "swings.rows", "Home and session stay within the day, the day within the week.");
  }
  for (const fault of parts.faults.faults) {
    for (const level of LEVELS) {
      const hasDrill = parts.drills.drills.some((drill) => drill.levels.includes(level) && drill.faults.some((link) => link.fault === fault.id));
      if (hasDrill === (fault.noDrillAt?.[level] !== undefined)) {
        say("faults", fault.id, `noDrillAt.${level}`, hasDrill ? "It says that there is no drill, but there is one." : "There is no drill for this level, and nothing says why.");
      }
    }
  }
}

/**
 * Everything that does not fit together in a library whose files have the right form. Each problem names the file, the
 * record and the field; an empty list means that it may become an edition.
 */
export function checkLibrary(parts: LibraryParts, known: KnownFormulas): RecordProblem[] {
  const problems: RecordProblem[] = [];
  const say: Say = (file, id, field, words) => problems.push({ file, id, field, words });
  checkOnce(parts, say);
  checkCheckpoints(parts, known, say);
  checkFaults(parts, say);
  checkGraph(parts, say);
  checkQuestions(parts, say);
  checkOthers(parts, say);
  const bandedCheckpointIds = idsOf(parts.checkpoints.checkpoints.filter(({ band }) => band !== null));
  const around = { gear: parts.gear, faultIds: idsOf(parts.faults.faults), causeIds: idsOf(parts.causes.nodes), bandedCheckpointIds };
  return [...problems, ...checkDrills(parts.drills.drills, around)];
}

/** Fields of a drill and of a fault that a proposal may change. Links, ids and strengths are not among them. */
export const PATCHABLE = {
  drill: ["name", "purpose", "steps", "cues", "equipment", "space", "dose", "safety", "minAge", "avoidIf", "avoidParts", "maxSessionsPerWeek"],
  fault: ["name", "synonyms", "looks", "whyItHurts", "lookAlikes", "cues", "playerWording", "safety"],
} as const;
export type ProposalSubject = keyof typeof PATCHABLE;
interface PatchableRecords {
  drill: DrillRecord;
  fault: FaultRecord;
}

/** The fields that differ from a record, as a patch. */
export function patchOf(subject: ProposalSubject, record: DrillRecord | FaultRecord, fields: Readonly<Record<string, unknown>>): Patch {
  const before = new Map<string, unknown>(Object.entries(record));
  const changed = Object.entries(fields).filter(([field, becomes]) => !isSameValue(before.get(field), becomes));
  return Object.fromEntries(changed.map(([field, becomes]) => [field, { was: before.get(field) ?? null, becomes: becomes ?? null }]));
}

/** An id made of a name: "Back-heel lane tee" becomes "back-heel-lane-tee". */
export function idOfName(name: string): string {
  return name.normalize("NFD").toLowerCase().replace(/[\u0300-\u036f'’]/g, "").replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
}

/** What a proposal makes of a record, or every reason why it cannot be taken. */
export type ProposalOutcome<T> = { readonly isApplied: true; readonly record: T } | { readonly isApplied: false; readonly refusals: readonly (PatchRefusal | RecordProblem)[] };

const FORMS = { drill: drillForm, fault: faultForm };

/** Applies a proposal to the record in force; refuses unknown fields, conflicts with later editions, and values of a wrong form. */
export function applyProposal<S extends ProposalSubject>(subject: S, record: PatchableRecords[S], patch: Patch): ProposalOutcome<PatchableRecords[S]> {
  const patched = applyPatch(record, patch, PATCHABLE[subject]);
  if (!patched.isApplied) return patched;
  const refusals = formProblems(subject, patched.record);
  return refusals.length > 0 ? { isApplied: false, refusals } : patched;
}

function formProblems(subject: ProposalSubject, record: { readonly id: string }): RecordProblem[] {
  const read = FORMS[subject].safeParse(record);
  if (read.success) return [];
  return read.error.issues.map(({ path, message }) => ({ file: `${subject}s`, id: record.id, field: path.map(String).join("."), words: `${message}.` }));
}

/** A record that is not in force yet as a patch: nothing stood there, and every field shall. */
export function patchOfNew(record: object): Patch {
  return Object.fromEntries(Object.entries(record).map(([field, becomes]) => [field, { was: null, becomes }]));
}

/** What a patch would put in place of each field that it names. */
export function valuesOf(patch: Patch, which: "was" | "becomes"): Record<string, unknown> {
  return Object.fromEntries(Object.entries(patch).map(([field, change]) => [field, change[which]]));
}

/** The library with a proposal taken and the record it made, or why it cannot be taken. `isNew`: there was no such record. */
export type LibraryAfter =
  | { readonly isApplied: true; readonly parts: LibraryParts; readonly fault: FaultRecord | null; readonly drill: DrillRecord | null; readonly isNew: boolean }
  | { readonly isApplied: false; readonly refusals: readonly RecordProblem[] };

/**
 * Takes a proposal on trial: the patch on the record in force, then every check of the whole library. Nothing of the
 * library given is changed.
 */
export function takeProposal(parts: LibraryParts, subject: ProposalSubject, recordId: string, patch: Patch, known: KnownFormulas = OUR_FORMULAS): LibraryAfter {
  const file = `${subject}s`;
  const refuse = (refusals: readonly (PatchRefusal | RecordProblem)[]): LibraryAfter => ({
    isApplied: false,
    refusals: refusals.map((refusal) => ("kind" in refusal ? { file, id: recordId, field: refusal.field, words: refusal.words } : refusal)),
  });
  const checked = (after: Extract<LibraryAfter, { isApplied: true }>): LibraryAfter => {
    const problems = checkLibrary(after.parts, known);
    return problems.length > 0 ? refuse(problems) : after;
  };
  const replaced = <T extends { readonly id: string }>(list: readonly T[], record: T) => list.map((other) => (other.id === record.id ? record : other));
  if (subject === "fault") {
    const record = parts.faults.faults.find(({ id }) => id === recordId);
    if (!record) return refuse([{ file, id: recordId, field: "id", words: "There is no such fault." }]);
    const outcome = applyProposal("fault", record, patch);
    if (!outcome.isApplied) return refuse(outcome.refusals);
    const faults = replaced(parts.faults.faults, outcome.record);
    return checked({ isApplied: true, parts: { ...parts, faults: { ...parts.faults, faults } }, fault: outcome.record, drill: null, isNew: false });
  }
  const record = parts.drills.drills.find(({ id }) => id === recordId);
  const withDrills = (drills: DrillRecord[], drill: DrillRecord, isNew: boolean) =>
    checked({ isApplied: true, parts: { ...parts, drills: { ...parts.drills, drills } }, fault: null, drill, isNew });
  if (record) {
    const outcome = applyProposal("drill", record, patch);
    return outcome.isApplied ? withDrills(replaced(parts.drills.drills, outcome.record), outcome.record, false) : refuse(outcome.refusals);
  }
  const read = drillForm.safeParse({ ...valuesOf(patch, "becomes"), id: recordId });
  if (!read.success) return refuse(formProblems("drill", { ...valuesOf(patch, "becomes"), id: recordId }));
  return withDrills([...parts.drills.drills, read.data], read.data, true);
}

/** A field of a proposal beside what is in force, for reading. */
export interface FieldDifference {
  readonly field: string;
  readonly hasConflict: boolean;
  readonly runs: readonly WordRun[];
}

/** A value of a field as lines of words: lists one entry a line, objects as "name: value". */
export function wordsOfValue(value: unknown): string {
  if (value === null || value === undefined) return "";
  if (Array.isArray(value)) return value.map(wordsOfValue).join("\n");
  if (typeof value !== "object") return String(value);
  const entries = Object.entries(value).filter(([key, member]) => key !== "focus" && member !== null);
  return entries.map(([key, member]) => (key === "text" ? wordsOfValue(member) : `${key}: ${wordsOfValue(member)}`)).join("\n");
}

/** Each field of a proposal compared, word by word, with what is in force now; in the order in which people read them. */
export function compareProposal(record: object, patch: Patch): FieldDifference[] {
  const now = new Map<string, unknown>(Object.entries(record));
  const order: readonly string[] = [...PATCHABLE.drill, ...PATCHABLE.fault];
  const placeOf = (field: string) => (order.includes(field) ? order.indexOf(field) : order.length);
  const fields = Object.entries(patch).sort(([a], [b]) => placeOf(a) - placeOf(b));
  return fields.map(([field, { was, becomes }]) => ({
    field,
    hasConflict: !isSameValue(now.get(field), was) && !isSameValue(now.get(field), becomes),
    runs: diffWords(wordsOfValue(now.get(field)), wordsOfValue(becomes)),
  }));
}

/** Neighbouring words of a name as one: "Wrists roll over early" is also found by "rollover". */
const joinedPairs = (name: string) => searchTerms(name).flatMap((term, index, terms) => (index === 0 ? [] : [`${terms[index - 1] ?? ""}${term}`]));

/** Faults by any word a coach would say: the name and synonyms first, then cues, the player's wording and what it looks like. */
export function findFaults(query: string, faults: readonly FaultRecord[]): SearchMatch[] {
  return rankMatches(query, faults.map((fault): SearchEntry => ({
    id: fault.id,
    names: [fault.name, ...fault.synonyms],
    words: [...[fault.name, ...fault.synonyms].flatMap(joinedPairs), ...fault.cues.map(({ text }) => text), fault.playerWording, fault.whyItHurts, ...Object.values(fault.looks)],
  })));
}

/** Drills by name, then by purpose, cues and steps. */
export function findDrills(query: string, drills: readonly DrillRecord[]): SearchMatch[] {
  return rankMatches(query, drills.map((drill): SearchEntry => ({
    id: drill.id,
    names: [drill.name],
    words: [drill.purpose, ...drill.cues.map(({ text }) => text), ...drill.steps],
  })));
}
