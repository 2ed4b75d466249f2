import { InvalidError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { searchTerms } from "@/lib/core/search-terms";
import type { Database, Prisma } from "@/lib/platform/database";
import type { ProposalSubject } from "./policy";
import { isMeasured } from "./rules";
import { type CheckpointRecord, type DrillRecord, type FaultRecord, type LibraryParts, libraryFiles, readLibrary } from "./schema";

/**
 * How the library stands in its working tables. A file's records are rows of their own; what is left of the file is its
 * part, which keeps the order of the ids. What is searched or joined has a column, the rest of a record its body.
 */
export const asJson = (value: object) => value as Prisma.InputJsonObject;
const idsOf = (records: readonly { readonly id: string }[]) => records.map(({ id }) => id);

/** The parts: each file with the ids of its records in place of the records. */
export function partRows(academyId: Id, parts: LibraryParts): Prisma.LibraryPartCreateManyInput[] {
  const left: Record<string, object> = {
    ...parts,
    checkpoints: { ...parts.checkpoints, checkpoints: idsOf(parts.checkpoints.checkpoints) },
    faults: { ...parts.faults, faults: idsOf(parts.faults.faults) },
    symptoms: { ...parts.symptoms, symptoms: idsOf(parts.symptoms.symptoms) },
    causes: { ...parts.causes, nodes: idsOf(parts.causes.nodes), edges: idsOf(parts.causes.edges) },
    drills: { ...parts.drills, drills: idsOf(parts.drills.drills) },
  };
  return Object.entries(left).map(([id, body]) => ({ academyId, id, body: asJson(body) }));
}

export function faultRow(academyId: Id, fault: FaultRecord): Prisma.FaultCreateManyInput {
  const { id, name, area, phase, sport, onlyFor, synonyms, symptoms, checkpoints: _checkpoints, cues: _cues, ...rest } = fault;
  return { academyId, id, name, area, phase, sport, onlyFor, body: asJson({ ...rest, order: { synonyms, symptoms: idsOf(symptoms) } }) };
}

export function faultNameRows(academyId: Id, fault: FaultRecord): Prisma.FaultNameCreateManyInput[] {
  return [fault.name, ...fault.synonyms].map((name, index) => ({
    academyId, faultId: fault.id, name, isMain: index === 0, searchText: searchTerms(name).join(" "),
  }));
}

export function faultCueRows(academyId: Id, fault: FaultRecord): Prisma.FaultCueCreateManyInput[] {
  return fault.cues.map(({ text, focus }, position) => ({ academyId, faultId: fault.id, position, text, focus }));
}

export function faultLinkRows(academyId: Id, fault: FaultRecord) {
  const key = { academyId, faultId: fault.id };
  return {
    symptoms: fault.symptoms.map(({ id, judgement, strength }): Prisma.FaultSymptomCreateManyInput => ({ ...key, symptomId: id, judgement, strength })),
    checkpoints: fault.checkpoints.map(({ checkpoint, op, value, valueYouth, weight, ...rest }, position): Prisma.FaultCheckpointCreateManyInput => ({
      ...key, checkpointId: checkpoint, op, value, valueYouth, weight, body: asJson({ ...rest, position }),
    })),
  };
}

export function checkpointRow(academyId: Id, checkpoint: CheckpointRecord): Prisma.CheckpointCreateManyInput {
  const { id, name, area, phase, formulaId, formulaVersion, ...rest } = checkpoint;
  return { academyId, id, name, area, phase, formulaId, formulaVersion, isMeasured: isMeasured(checkpoint), body: asJson(rest) };
}

export function causeNodeRows(academyId: Id, parts: LibraryParts): Prisma.CauseNodeCreateManyInput[] {
  const faultNames = new Map(parts.faults.faults.map(({ id, name }) => [id, name]));
  return parts.causes.nodes.map((node) => {
    if (node.kind === "fault") {
      const { id, kind, onlyFor, ...body } = node;
      return { academyId, id, kind, name: faultNames.get(id) ?? id, onlyFor, body: asJson(body) };
    }
    const { id, kind, name, onlyFor, ...body } = node;
    return { academyId, id, kind, name, onlyFor, body: asJson(body) };
  });
}

export function causeEdgeRows(academyId: Id, parts: LibraryParts): Prisma.CauseEdgeCreateManyInput[] {
  return parts.causes.edges.map(({ cause, effect, ...rest }) => ({ academyId, causeId: cause, effectId: effect, ...rest }));
}

export function drillRow(academyId: Id, drill: DrillRecord): Prisma.DrillCreateManyInput {
  const { id, name, sport, setup, minAge, onlyFor, faults, ...rest } = drill;
  return { academyId, id, name, sport, setup, minAge, onlyFor, body: asJson({ ...rest, order: { faults: faults.map(({ fault }) => fault) } }) };
}

export function drillFaultRows(academyId: Id, drill: DrillRecord): Prisma.DrillFaultCreateManyInput[] {
  return drill.faults.map(({ fault, effect, role }) => ({ academyId, drillId: drill.id, faultId: fault, effect, role }));
}

/** Leaves out what is empty: a column that holds nothing is a field that is not there. */
function present(fields: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null && value !== undefined));
}

const membersOf = (value: unknown) => (typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value)) : {});
const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

/** The records in the order of a list of their keys. */
function inOrder<T>(records: readonly T[], keyOf: (record: T) => string, order: unknown): T[] {
  const byKey = new Map(records.map((record) => [keyOf(record), record]));
  return listOf(order).flatMap((key) => byKey.get(String(key)) ?? []);
}

/**
 * The whole library as its working tables hold it, in the form of the files: eight queries, however large it is.
 * @throws InvalidError when the tables hold what the form of the files does not allow
 */
export async function readWorkingTables(db: Database, academyId: Id): Promise<LibraryParts> {
  const where = { academyId };
  const rows = {
    parts: await db.libraryPart.findMany({ where }),
    checkpoints: await db.checkpoint.findMany({ where }),
    faults: await db.fault.findMany({ where, include: { cues: { orderBy: { position: "asc" } }, symptoms: true, checkpoints: true } }),
    symptoms: await db.symptom.findMany({ where }),
    nodes: await db.causeNode.findMany({ where }),
    edges: await db.causeEdge.findMany({ where }),
    drills: await db.drill.findMany({ where, include: { faults: true } }),
  };
  const files: Record<string, Record<string, unknown>> = Object.fromEntries(rows.parts.map(({ id, body }) => [id, membersOf(body)]));
  const fill = <T>(file: string, list: string, records: readonly T[], idOf: (record: T) => string, fileForm: (record: T) => unknown) => {
    const part = files[file];
    if (part) part[list] = inOrder(records, idOf, part[list]).map(fileForm);
  };
  const byId = ({ id }: { id: string }) => id;
  fill("checkpoints", "checkpoints", rows.checkpoints, byId, ({ body, academyId: _academy, isMeasured: _measured, ...columns }) => ({ ...columns, ...membersOf(body) }));
  fill("faults", "faults", rows.faults, byId, ({ id, name, area, phase, sport, onlyFor, body, cues, symptoms, checkpoints }) => {
    const { order, ...rest } = membersOf(body);
    const { synonyms, symptoms: symptomIds } = membersOf(order);
    const byPosition = checkpoints.map((link) => ({ link, kept: membersOf(link.body) })).sort((a, b) => Number(a.kept.position) - Number(b.kept.position));
    return {
      ...present({ id, name, area, phase, sport, onlyFor }), ...rest, synonyms,
      cues: cues.map(({ text, focus }) => ({ text, focus })),
      symptoms: inOrder(symptoms, (link) => link.symptomId, symptomIds).map((link) => ({ id: link.symptomId, judgement: link.judgement, strength: link.strength })),
      checkpoints: byPosition.map(({ link: { checkpointId, op, value, valueYouth, weight }, kept: { position: _position, ...others } }) => ({
        ...present({ checkpoint: checkpointId, op, value, valueYouth, weight }), ...others,
      })),
    };
  });
  fill("symptoms", "symptoms", rows.symptoms, byId, ({ id, name, onlyFor }) => present({ id, name, onlyFor }));
  fill("causes", "nodes", rows.nodes, byId, ({ id, kind, name, onlyFor, body }) => ({
    ...present({ id, kind, name: kind === "fault" ? null : name, onlyFor }), ...membersOf(body),
  }));
  fill("causes", "edges", rows.edges, byId, ({ id, causeId, effectId, judgement, strength, mechanism }) => ({
    id, cause: causeId, effect: effectId, judgement, strength, mechanism,
  }));
  fill("drills", "drills", rows.drills, byId, ({ id, name, sport, setup, minAge, onlyFor, body, faults }) => {
    const { order, ...rest } = membersOf(body);
    const links = inOrder(faults, (link) => link.faultId, membersOf(order).faults);
    return { ...present({ id, name, sport, setup, minAge, onlyFor }), ...rest, faults: links.map(({ faultId, effect, role }) => ({ fault: faultId, effect, role })) };
  });
  return partsFrom(files);
}

function partsFrom(files: Readonly<Record<string, unknown>>): LibraryParts {
  const { parts, problems } = readLibrary(files);
  if (!parts) throw new InvalidError(`The library cannot be read: ${problems.length} places do not have the form that is known here.`);
  return parts;
}

/** Which edition is in force, without its words. */
export const editionHead = { id: true, academyId: true, number: true, contentHash: true, summary: true, approvedById: true, approvedAt: true } satisfies Prisma.EditionSelect;
export type EditionHead = Prisma.EditionGetPayload<{ select: typeof editionHead }>;

/** The newest edition of an academy; null before the first import. */
export async function findEditionInForce(db: Database, academyId: Id): Promise<EditionHead | null> {
  return db.edition.findFirst({ where: { academyId }, orderBy: { number: "desc" }, select: editionHead });
}

/** Editions never change, so what was read once stays right; the oldest read is dropped first. */
const KEPT_EDITIONS = 8;
const kept = new Map<string, LibraryParts>();

/** An edition's whole library, read from its snapshot once per process. */
export async function readEdition(db: Database, academyId: Id, editionId: Id): Promise<LibraryParts> {
  const key = `${academyId} ${editionId}`;
  const known = kept.get(key);
  if (known) return known;
  const { snapshot } = await db.edition.findUniqueOrThrow({ where: { academyId_id: { academyId, id: editionId } }, select: { snapshot: true } });
  const parts = partsFrom(membersOf(snapshot));
  const [oldest] = kept.keys();
  if (kept.size >= KEPT_EDITIONS && oldest !== undefined) kept.delete(oldest);
  kept.set(key, parts);
  return parts;
}

export async function findProposalSubject(db: Database, academyId: Id, proposalId: Id): Promise<ProposalSubject | null> {
  const found = await db.proposal.findFirst({ where: { id: proposalId, academyId }, select: { id: true, academyId: true, proposedById: true, state: true } });
  return found && { id: found.id, academyId: found.academyId, proposedById: found.proposedById, isOpen: found.state === "open" };
}

/** The limits on loads in force, without the rest of the library; null before there is one. */
export async function readLoads(db: Database, academyId: Id): Promise<LibraryParts["loads"] | null> {
  const row = await db.libraryPart.findUnique({ where: { academyId_id: { academyId, id: "loads" } }, select: { body: true } });
  return row && libraryFiles.loads.parse(row.body);
}
