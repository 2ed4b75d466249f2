import { z } from "zod";
import { authorize, type Granted, type Subject } from "@/lib/access/ability";
import { isPerson, type Actor, type Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy, type Guard } from "@/lib/access/guard";
import { NotFoundError, SignInNeededError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import * as policy from "./policy";
import { checkpointDefinition, compareProposal, isMeasured, takeProposal, valuesOf } from "./rules";
import * as forms from "./schema";
import type { LibraryParts } from "./schema";
import { type EditionHead, findEditionInForce, findProposalSubject, readEdition } from "./scope";
import * as views from "./view";
import type { ChangeView, DrillView, EditionInForce, EditionView, FaultView, LibraryForMeasuring, LibraryForPlanning, LibraryForReasoning, Page, ProposalRowView, ProposalView } from "./view";

const PAGE_ROWS = 50;

/** The worker belongs to no academy and says which one it means; what a person says of it is not asked. */
const inAcademyForm = z.object({ academyId: z.uuid().optional() });
type InAcademy = z.infer<typeof inAcademyForm>;

function readers<Input extends InAcademy>(): Guard<Input, Granted<Subject, "library.read">, Actor> {
  return {
    words: policy.readLibraryInForce.name,
    check: async (actor, input) => {
      if (actor.kind === "nobody") throw new SignInNeededError();
      const academyId = isPerson(actor) ? actor.academyId : input.academyId;
      return { actor, granted: authorize(actor, policy.readLibraryInForce, academyId === undefined ? null : { academyId }) };
    },
  };
}

const inForceView = ({ id, number, contentHash, approvedAt, summary }: EditionHead): EditionInForce => ({
  id, number, contentHash, approvedAt: approvedAt.toISOString(), summary,
});

async function partsInForce(db: Database, academyId: Id): Promise<{ edition: EditionInForce; parts: LibraryParts }> {
  const head = await findEditionInForce(db, academyId);
  if (!head) throw new NotFoundError("library");
  return { edition: inForceView(head), parts: await readEdition(db, academyId, head.id) };
}

/** Which edition is in force; null before the first import. */
export const getEditionInForce = defineQuery({
  name: "library.get-edition-in-force",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<EditionInForce | null> => {
    const head = await findEditionInForce(db, granted.academyId);
    return head && inForceView(head);
  },
});

/** Everything that ranking and explaining need, of one edition. */
export const getLibraryForReasoning = defineQuery({
  name: "library.get-for-reasoning",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForReasoning> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    return {
      edition,
      graph: {
        nodes: parts.causes.nodes, edges: parts.causes.edges, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms,
        phases: parts.phases.phases, symptomLeak: parts.causes.model.symptomLeak,
      },
      causes: parts.causes, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms, checkpoints: parts.checkpoints.checkpoints,
      areas: parts.areas.areas, threeQuestions: parts.areas.threeQuestions, phases: parts.phases.phases,
      questions: parts.questions.questions, questionMethod: parts.questions.method, terms: parts.terms,
      rankingRules: {
        scoreWeights: parts.causes.ranking.scoreWeights, minProbability: parts.causes.ranking.minProbability, nearTie: parts.causes.ranking.nearTie,
        maxShown: parts.causes.ranking.maxShown, askFirst: parts.causes.ranking.askFirst, likelihood: parts.terms.likelihoodRule,
      },
    };
  },
});

/** What readings are taken by: every checkpoint, with whether this program can read it from a clip. */
export const getCheckpointDefinitions = defineQuery({
  name: "library.get-checkpoint-definitions",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForMeasuring> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const checkpoints = parts.checkpoints.checkpoints.map((record) => ({
      id: record.id, name: record.name, area: record.area, phase: record.phase, isMeasured: isMeasured(record), definition: checkpointDefinition(record), record,
    }));
    return { edition, checkpoints, slap: parts.checkpoints.slap, terms: parts.terms, events: parts.phases.events, threeQuestions: parts.areas.threeQuestions };
  },
});

/** The drills that are approved, and what limits them. A draft is not among them. */
export const getDrillsForPlanning = defineQuery({
  name: "library.get-drills-for-planning",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForPlanning> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    return { edition, drills: parts.drills.drills, gear: parts.gear, loads: parts.loads, faults: parts.faults.faults, terms: parts.terms };
  },
});

/** The day of an instant where the academy is, YYYY-MM-DD. */
function dayAt(instant: Date, { timeZone }: Person): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" }).format(instant);
}

async function namesOf(db: Database, academyId: Id, userIds: readonly (Id | null)[]): Promise<(userId: Id | null) => string | null> {
  const ids = [...new Set(userIds.filter((id) => id !== null))];
  const users = await db.user.findMany({ where: { academyId, id: { in: ids } }, select: { id: true, displayName: true } });
  const names = new Map(users.map((user) => [user.id, user.displayName]));
  return (userId) => (userId === null ? null : (names.get(userId) ?? "somebody who has left"));
}

/** Finds faults and drills by any word a coach would say. */
export const searchLibrary = defineQuery({
  name: "library.search",
  input: forms.searchForm,
  policy: mayInAcademy<z.infer<typeof forms.searchForm>, "library.read">(policy.readLibraryInForce),
  run: async ({ granted, input, db }) => views.searchView((await partsInForce(db, granted.academyId)).parts, input.text),
});

/** The library's first page. */
export const getLibraryIndex = defineQuery({
  name: "library.get-index",
  input: z.object({}),
  policy: mayInAcademy(policy.readLibraryInForce),
  run: async ({ actor, granted, db }): Promise<views.LibraryIndexView> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const openProposalCount = await db.proposal.count({ where: { academyId: granted.academyId, state: "open" } });
    return { edition, ...views.libraryIndexView(parts), openProposalCount, can: { propose: policy.proposeToLibrary.allows(actor, granted) } };
  },
});

/** The editions that changed one record, newest first. */
async function historyOf(db: Database, actor: Person, kind: "drill" | "fault", recordId: string): Promise<ChangeView[]> {
  const { academyId } = actor;
  const found = await db.proposal.findMany({
    where: { academyId, kind, recordId, state: "approved" },
    orderBy: [{ decidedAt: "desc" }, { id: "asc" }],
    take: PAGE_ROWS,
    select: { id: true, reason: true, proposedById: true, edition: { select: { number: true, approvedAt: true } } },
  });
  const nameOf = await namesOf(db, academyId, found.map(({ proposedById }) => proposedById));
  return found.flatMap(({ id, reason, proposedById, edition }) => {
    return edition ? [{ editionNumber: edition.number, on: dayAt(edition.approvedAt, actor), by: nameOf(proposedById) ?? "", reason, proposalId: id }] : [];
  });
}

/** One fault, with everything a coach may want to know of it. */
export const getFault = defineQuery({
  name: "library.get-fault",
  input: forms.recordIdForm,
  policy: mayInAcademy<z.infer<typeof forms.recordIdForm>, "library.read">(policy.readLibraryInForce),
  run: async ({ actor, granted, input, db }): Promise<FaultView> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const fault = parts.faults.faults.find(({ id }) => id === input.id);
    if (!fault) throw new NotFoundError("fault");
    const history = await historyOf(db, actor, "fault", fault.id);
    return { ...views.faultView(parts, fault), edition, history, can: { propose: policy.proposeToLibrary.allows(actor, granted) } };
  },
});

/** One drill, as staff read it. */
export const getDrill = defineQuery({
  name: "library.get-drill",
  input: forms.recordIdForm,
  policy: mayInAcademy<z.infer<typeof forms.recordIdForm>, "library.read">(policy.readLibraryInForce),
  run: async ({ actor, granted, input, db }): Promise<DrillView> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const drill = parts.drills.drills.find(({ id }) => id === input.id);
    if (!drill) throw new NotFoundError("drill");
    const history = await historyOf(db, actor, "drill", drill.id);
    return { ...views.drillView(parts, drill), edition, history, can: { propose: policy.proposeToLibrary.allows(actor, granted) } };
  },
});

/** A record as the form for a change begins. */
export const getRecordForChange = defineQuery({
  name: "library.get-record-for-change",
  input: forms.recordForChangeForm,
  policy: mayInAcademy<z.infer<typeof forms.recordForChangeForm>, "library.propose">(policy.proposeToLibrary),
  run: async ({ granted, input, db }): Promise<views.RecordForChange> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const drill = input.subject === "drill" ? parts.drills.drills.find(({ id }) => id === input.id) : undefined;
    const fault = input.subject === "fault" ? parts.faults.faults.find(({ id }) => id === input.id) : undefined;
    if (!drill && !fault) throw new NotFoundError(input.subject);
    return { baseEditionId: edition.id, drill: drill ?? null, fault: fault ?? null };
  },
});

type ProposalRow = NonNullable<Awaited<ReturnType<Database["proposal"]["findFirst"]>>>;

const recordIn = (parts: LibraryParts, kind: string, recordId: string) =>
  (kind === "fault" ? parts.faults.faults : parts.drills.drills).find(({ id }) => id === recordId);

function proposalRowView(actor: Person, row: ProposalRow, parts: LibraryParts, nameOf: (userId: Id | null) => string | null): ProposalRowView {
  const patch = forms.patchForm.parse(row.patch);
  const isNew = patch.id?.was === null;
  const proposedName = isNew && typeof patch.name?.becomes === "string" ? patch.name.becomes : row.recordId;
  return {
    id: row.id, subject: row.kind === "fault" ? "fault" : "drill", recordName: recordIn(parts, row.kind, row.recordId)?.name ?? proposedName, isNew,
    state: forms.PROPOSAL_STATES.find((state) => state === row.state) ?? "open", reason: row.reason,
    proposedBy: nameOf(row.proposedById) ?? "", proposedOn: dayAt(row.proposedAt, actor),
  };
}

/** Proposals in one state, the oldest open one first, of those that are decided the newest. */
export const listProposals = defineQuery({
  name: "library.list-proposals",
  input: forms.listProposalsForm,
  policy: mayInAcademy<z.infer<typeof forms.listProposalsForm>, "library.see-proposals">(policy.seeProposals),
  run: async ({ actor, granted: { academyId }, input: { state, after }, db }): Promise<Page<ProposalRowView, Id>> => {
    const direction = state === "open" ? "asc" : "desc";
    const found = await db.proposal.findMany({
      where: { academyId, state },
      orderBy: [{ proposedAt: direction }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(after ? { cursor: { academyId_id: { academyId, id: after } }, skip: 1 } : {}),
    });
    const rows = found.slice(0, PAGE_ROWS);
    const { parts } = await partsInForce(db, academyId);
    const nameOf = await namesOf(db, academyId, rows.map(({ proposedById }) => proposedById));
    return { rows: rows.map((row) => proposalRowView(actor, row, parts, nameOf)), next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});

/** One proposal beside what is in force; once decided, beside what it was written against. */
export const getProposal = defineQuery({
  name: "library.get-proposal",
  input: forms.proposalIdForm,
  policy: may(policy.seeProposal, (input: z.infer<typeof forms.proposalIdForm>, db, actor: Person) => findProposalSubject(db, actor.academyId, input.proposalId)),
  run: async ({ actor, granted, db }): Promise<ProposalView> => {
    const { academyId, id, isOpen } = granted;
    const row = await db.proposal.findUniqueOrThrow({
      where: { academyId_id: { academyId, id } },
      include: { baseEdition: { select: { number: true } }, edition: { select: { number: true } } },
    });
    const { parts } = await partsInForce(db, academyId);
    const nameOf = await namesOf(db, academyId, [row.proposedById, row.decidedById]);
    const patch = forms.patchForm.parse(row.patch);
    const head = proposalRowView(actor, row, parts, nameOf);
    const record = isOpen ? recordIn(parts, row.kind, row.recordId) : valuesOf(patch, "was");
    const after = isOpen ? takeProposal(parts, head.subject, row.recordId, patch) : null;
    return {
      ...head, recordId: row.recordId, decidedBy: nameOf(row.decidedById), decidedOn: row.decidedAt && dayAt(row.decidedAt, actor), answer: row.decisionWords,
      editionNumberThen: row.baseEdition.number, editionNumberMade: row.edition?.number ?? null,
      differences: compareProposal(record ?? {}, patch),
      problems: after && !after.isApplied ? after.refusals : [],
      can: { decide: isOpen && policy.decideProposal.allows(actor, granted), withdraw: isOpen && policy.withdrawOwnProposal.allows(actor, granted) },
    };
  },
});

/** The library's editions, newest first. */
export const listEditions = defineQuery({
  name: "library.list-editions",
  input: forms.listEditionsForm,
  policy: mayInAcademy<z.infer<typeof forms.listEditionsForm>, "library.read">(policy.readLibraryInForce),
  run: async ({ actor, granted: { academyId }, input: { before }, db }): Promise<Page<EditionView, number>> => {
    const found = await db.edition.findMany({
      where: { academyId, ...(before ? { number: { lt: before } } : {}) },
      orderBy: { number: "desc" },
      take: PAGE_ROWS + 1,
      select: { id: true, number: true, contentHash: true, approvedAt: true, approvedById: true, summary: true, result: { select: { id: true }, take: 1 } },
    });
    const rows = found.slice(0, PAGE_ROWS);
    const nameOf = await namesOf(db, academyId, rows.map(({ approvedById }) => approvedById));
    const newest = await findEditionInForce(db, academyId);
    return {
      rows: rows.map(({ id, number, contentHash, approvedAt, approvedById, summary, result }) => ({
        id, number, contentHash, approvedOn: dayAt(approvedAt, actor), approvedBy: nameOf(approvedById), summary, proposalId: result[0]?.id ?? null, isInForce: id === newest?.id,
      })),
      next: found.length > PAGE_ROWS ? (rows.at(-1)?.number ?? null) : null,
    };
  },
});
