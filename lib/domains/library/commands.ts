import type { Granted, Subject } from "@/lib/access/ability";
import { contentHash } from "@/lib/core/canonical-json";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import type { Patch } from "@/lib/core/patch";
import { problemLine, type RecordProblem } from "@/lib/core/record-problem";
import { now } from "@/lib/platform/clock";
import { type Prisma, refusedByUnique, type Transaction } from "@/lib/platform/database";
import type { ProposalSubject } from "./policy";
import { checkLibrary, idOfName, type LibraryAfter, OUR_FORMULAS, patchOf, patchOfNew, type ProposalSubject as Kind, takeProposal } from "./rules";
import {
  type ChangeFields, type DrillRecord, type FaultRecord, type LibraryParts, patchForm, type ProposeChangeInput, type ProposeNewDrillInput, readLibrary,
} from "./schema";
import {
  asJson, causeEdgeRows, causeNodeRows, checkpointRow, drillFaultRows, drillRow, type EditionHead, editionHead, faultCueRows, faultLinkRows, faultNameRows,
  faultRow, findEditionInForce, partRows, readEdition, readWorkingTables,
} from "./scope";

/** Why files did not become a library: one sentence for each problem, with file, record and field. Nothing was written. */
export class LibraryRefusedError extends InvalidError {
  constructor(readonly problems: readonly RecordProblem[]) {
    super(`The library was not imported; nothing was changed.\n${problems.map(problemLine).join("\n")}`);
  }
}

/**
 * Makes a library's files (parsed JSON by name) the first edition of an academy and fills the working tables. An academy
 * that has an edition keeps it: a second import does nothing.
 * @throws LibraryRefusedError naming everything that is not right
 */
export async function importLibrary(
  tx: Transaction,
  academyId: Id,
  files: Readonly<Record<string, unknown>>,
  { approvedById }: { readonly approvedById: Id | null },
): Promise<EditionHead> {
  const inForce = await findEditionInForce(tx, academyId);
  if (inForce) return inForce;
  const { parts, problems } = readLibrary(files);
  if (!parts) throw new LibraryRefusedError(problems);
  const misfits = checkLibrary(parts, OUR_FORMULAS);
  if (misfits.length > 0) throw new LibraryRefusedError(misfits);
  await fillWorkingTables(tx, academyId, parts);
  const { faults, drills, checkpoints } = { ...parts.faults, ...parts.drills, ...parts.checkpoints };
  const summary = `The starter library: ${faults.length} faults, ${checkpoints.length} checkpoints, ${drills.length} drills.`;
  return writeEdition(tx, academyId, { number: 1, parts, summary, approvedById });
}

async function fillWorkingTables(tx: Transaction, academyId: Id, parts: LibraryParts): Promise<void> {
  const { faults } = parts.faults;
  const links = faults.map((fault) => faultLinkRows(academyId, fault));
  await tx.libraryPart.createMany({ data: partRows(academyId, parts) });
  await tx.checkpoint.createMany({ data: parts.checkpoints.checkpoints.map((checkpoint) => checkpointRow(academyId, checkpoint)) });
  await tx.symptom.createMany({ data: parts.symptoms.symptoms.map((symptom) => ({ academyId, ...symptom })) });
  await tx.fault.createMany({ data: faults.map((fault) => faultRow(academyId, fault)) });
  await tx.faultName.createMany({ data: faults.flatMap((fault) => faultNameRows(academyId, fault)) });
  await tx.faultCue.createMany({ data: faults.flatMap((fault) => faultCueRows(academyId, fault)) });
  await tx.faultSymptom.createMany({ data: links.flatMap(({ symptoms }) => symptoms) });
  await tx.faultCheckpoint.createMany({ data: links.flatMap(({ checkpoints }) => checkpoints) });
  await tx.causeNode.createMany({ data: causeNodeRows(academyId, parts) });
  await tx.causeEdge.createMany({ data: causeEdgeRows(academyId, parts) });
  await tx.drill.createMany({ data: parts.drills.drills.map((drill) => drillRow(academyId, drill)) });
  await tx.drillFault.createMany({ data: parts.drills.drills.flatMap((drill) => drillFaultRows(academyId, drill)) });
}

interface NewEdition {
  readonly number: number;
  readonly parts: LibraryParts;
  readonly summary: string;
  readonly approvedById: Id | null;
}

async function writeEdition(tx: Transaction, academyId: Id, { number, parts, summary, approvedById }: NewEdition): Promise<EditionHead> {
  return tx.edition.create({
    data: {
      id: newId(), academyId, number, contentHash: await contentHash(parts), snapshot: asJson(parts), summary, approvedById, approvedAt: now(),
    },
    select: editionHead,
  });
}

const recordOf = (parts: LibraryParts, kind: Kind, recordId: string): DrillRecord | FaultRecord | null =>
  (kind === "drill" ? parts.drills.drills : parts.faults.faults).find(({ id }) => id === recordId) ?? null;

async function inForceOf(tx: Transaction, academyId: Id): Promise<EditionHead> {
  const edition = await findEditionInForce(tx, academyId);
  if (!edition) throw new NotFoundError("library");
  return edition;
}

/** The record as it stood in the edition that the writer had before them. */
async function recordThen(tx: Transaction, academyId: Id, editionId: Id, kind: Kind, recordId: string): Promise<DrillRecord | FaultRecord> {
  const edition = await tx.edition.findFirst({ where: { academyId, id: editionId }, select: { id: true } });
  const record = edition && recordOf(await readEdition(tx, academyId, edition.id), kind, recordId);
  if (!record) throw new NotFoundError(kind);
  return record;
}

/** The new values of a record's fields as a form sends them; a field that was not sent is not among them. */
function typedFields(subject: Kind, record: DrillRecord | FaultRecord, sent: ChangeFields): Record<string, unknown> {
  const {
    cueText, cueFocus, minutes, sets, reps, fullSwings, effortPercent, safety, hasAvoidParts, avoidParts, maxSessionsPerWeek, looksSide, looksRear, looksFront, tell, ...plain
  } = sent;
  const fields: Record<string, unknown> = { ...plain };
  if (cueText) fields.cues = cueText.map((text, index) => ({ text, focus: cueFocus?.[index] ?? "external" })).filter(({ text }) => text !== "");
  if (hasAvoidParts || avoidParts) fields.avoidParts = avoidParts ?? [];
  if (typeof maxSessionsPerWeek === "number") fields.maxSessionsPerWeek = maxSessionsPerWeek;
  const lines = safety?.split(/\r?\n/).map((line) => line.trim()).filter((line) => line !== "");
  if (lines) fields.safety = subject === "drill" ? lines : lines.join(" ") || null;
  if ("dose" in record) fields.dose = { ...record.dose, ...definedOf({ minutes, sets, reps, fullSwings, effortPercent }) };
  if ("looks" in record) {
    fields.looks = { ...record.looks, ...definedOf({ side: looksSide, rear: looksRear, front: looksFront }) };
    if (tell) fields.lookAlikes = record.lookAlikes.map((other, index) => ({ ...other, tell: tell[index] ?? other.tell }));
  }
  return fields;
}

const definedOf = (fields: object) => Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

/** The field of the form that shows a field of a record. */
function formFieldOf(field: string): string {
  const [first = "", second] = field.split(".");
  if (first === "dose" && second) return second;
  if (first === "looks" && second) return `looks${second.charAt(0).toUpperCase()}${second.slice(1)}`;
  return first === "cues" ? "cueText" : first === "lookAlikes" ? "tell" : first || "form";
}

/** Each refusal at the field of the form that it is about. */
function refusedProposal(refusals: readonly RecordProblem[]): InvalidError {
  const fields: Record<string, string> = {};
  for (const { field, words } of refusals) fields[formFieldOf(field)] ??= words;
  return new InvalidError(refusals[0]?.words ?? "The proposal cannot be taken.", fields);
}

interface Draft {
  readonly kind: Kind;
  readonly recordId: string;
  readonly patch: Patch;
  readonly reason: string;
}

async function keepProposal(tx: Transaction, academyId: Id, proposedById: Id, { kind, recordId, patch, reason }: Draft): Promise<Id> {
  const edition = await inForceOf(tx, academyId);
  const after = takeProposal(await readEdition(tx, academyId, edition.id), kind, recordId, patch);
  if (!after.isApplied) throw refusedProposal(after.refusals);
  const { id } = await tx.proposal.create({
    data: {
      id: newId(), academyId, kind, recordId, patch: asJson(patch), reason, baseEditionId: edition.id, proposedById, proposedAt: now(), state: "open",
    },
    select: { id: true },
  });
  return id;
}

/**
 * Keeps a change of one record as a patch against the edition in force; nothing of the library changes. What the form
 * was written against is compared with what is in force, so that a change made meanwhile is named.
 */
export async function proposeChange(tx: Transaction, academy: Granted<Subject, "library.propose">, proposedById: Id, input: ProposeChangeInput): Promise<Id> {
  const { subject: kind, recordId, baseEditionId, reason, ...sent } = input;
  const record = await recordThen(tx, academy.academyId, baseEditionId, kind, recordId);
  return keepProposal(tx, academy.academyId, proposedById, { kind, recordId, patch: patchOf(kind, record, typedFields(kind, record, sent)), reason });
}

/** Keeps a new drill as a patch on nothing. Who must be there, gear, helmet and levels are those of the drill it is like. */
export async function proposeNewDrill(tx: Transaction, academy: Granted<Subject, "library.propose">, proposedById: Id, input: ProposeNewDrillInput): Promise<Id> {
  const { academyId } = academy;
  const { likeId, baseEditionId, reason, ...sent } = input;
  const like = await recordThen(tx, academyId, baseEditionId, "drill", likeId);
  const recordId = idOfName(input.name);
  const inForce = await inForceOf(tx, academyId);
  const isTaken = recordId === "" || recordOf(await readEdition(tx, academyId, inForce.id), "drill", recordId) !== null;
  if (isTaken) throw new InvalidError("There is a drill of this name already.", { name: "There is a drill of this name already. Please give it another." });
  const record = { ...like, ...typedFields("drill", like, sent), id: recordId, next: null, easier: null };
  return keepProposal(tx, academyId, proposedById, { kind: "drill", recordId, patch: patchOfNew(record), reason });
}

/** Closes a proposal that is still open; whoever comes second is told so. */
async function closeProposal(tx: Transaction, { academyId, id }: ProposalSubject, data: Prisma.ProposalUncheckedUpdateManyInput): Promise<void> {
  const { count } = await tx.proposal.updateMany({ where: { academyId, id, state: "open" }, data: { ...data, decidedAt: now() } });
  if (count === 0) throw new ConflictError("This proposal was decided already. Nothing was changed.");
}

/** Takes an own proposal back. */
export async function withdrawProposal(tx: Transaction, proposal: Granted<ProposalSubject, "proposal.withdraw">, decidedById: Id): Promise<void> {
  await closeProposal(tx, proposal, { state: "withdrawn", decidedById });
}

/** Leaves the library as it is and tells why. */
export async function declineProposal(tx: Transaction, proposal: Granted<ProposalSubject, "proposal.decide">, decidedById: Id, words: string): Promise<void> {
  await closeProposal(tx, proposal, { state: "declined", decidedById, decisionWords: words });
}

/**
 * Makes a proposal part of the library: the patch on what the working tables hold now, every check of the whole, then
 * the tables and the next edition in one transaction. Of two approvals at the same moment the database lets one through.
 * @throws ConflictError naming what has changed since, or that somebody was quicker
 */
export async function approveProposal(tx: Transaction, proposal: Granted<ProposalSubject, "proposal.decide">, decidedById: Id): Promise<EditionHead> {
  const { academyId, id } = proposal;
  // Which edition comes next is read before what the tables hold: what changes between the two is refused by its number.
  const { number } = await inForceOf(tx, academyId);
  const found = await tx.proposal.findUniqueOrThrow({ where: { academyId_id: { academyId, id } } });
  if (found.state !== "open") throw new ConflictError("This proposal was decided already. Nothing was changed.");
  const kind: Kind = found.kind === "fault" ? "fault" : "drill";
  const after = takeProposal(await readWorkingTables(tx, academyId), kind, found.recordId, patchForm.parse(found.patch));
  if (!after.isApplied) throw new ConflictError(`This cannot be taken as it is; nothing was changed. ${after.refusals.map(problemLine).join(" ")}`);
  const what = after.drill ? `the drill “${after.drill.name}”` : `“${after.fault?.name ?? found.recordId}”`;
  const summary = `${after.isNew ? "New" : "Changed"}: ${what}. ${found.reason}`;
  const edition = await writeEdition(tx, academyId, { number: number + 1, parts: after.parts, summary, approvedById: decidedById }).catch((error: unknown) => {
    if (refusedByUnique(error) === null) throw error;
    throw new ConflictError("Somebody approved another change at the same moment. Nothing of this one was taken; please look at it again and approve it then.");
  });
  await putInForce(tx, academyId, after);
  await closeProposal(tx, proposal, { state: "approved", decidedById, editionId: edition.id });
  return edition;
}

async function putInForce(tx: Transaction, academyId: Id, { parts, fault, drill, isNew }: Extract<LibraryAfter, { isApplied: true }>): Promise<void> {
  if (fault) {
    const key = { academyId, faultId: fault.id };
    const { name, body } = faultRow(academyId, fault);
    await tx.fault.update({ where: { academyId_id: { academyId, id: fault.id } }, data: { name, body } });
    await tx.causeNode.update({ where: { academyId_id: { academyId, id: fault.id } }, data: { name } });
    await tx.faultName.deleteMany({ where: key });
    await tx.faultName.createMany({ data: faultNameRows(academyId, fault) });
    await tx.faultCue.deleteMany({ where: key });
    await tx.faultCue.createMany({ data: faultCueRows(academyId, fault) });
  }
  if (drill && isNew) {
    await tx.drill.create({ data: drillRow(academyId, drill) });
    await tx.drillFault.createMany({ data: drillFaultRows(academyId, drill) });
    const part = partRows(academyId, parts).find((row) => row.id === "drills");
    if (part) await tx.libraryPart.update({ where: { academyId_id: { academyId, id: "drills" } }, data: { body: part.body } });
  } else if (drill) {
    const { name, minAge, body } = drillRow(academyId, drill);
    await tx.drill.update({ where: { academyId_id: { academyId, id: drill.id } }, data: { name, minAge, body } });
  }
}
