import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { getDrillsForPlanning } from "@/lib/domains/library/queries";
import { readClicked } from "@/lib/domains/observations/scope";
import { readSwingSources } from "@/lib/domains/roster/loads/scope";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { getPlayer, getPlayerFacts } from "@/lib/domains/roster/queries";
import type { Side } from "@/lib/domains/roster/rules";
import { findPlayerSubject, readReceivers } from "@/lib/domains/roster/scope";
import { dayIn, dayOf } from "@/lib/core/days";
import type { Database } from "@/lib/platform/database";
import { listHomework as mayListHomework, planFor, seeSentNote, seeSentPlans, seeWholeNote, type NoteSubject } from "./policy";
import { countedPlan, planningFor } from "./rules";
import { listHomeworkForm, listSentNotesForm, noteIdForm, planDraftForm, playerIdForm, playerSideForm, wordsOf } from "./schema";
import {
  findNoteSubject, listMarkedFrames, noteSelect, readActiveFoci, readCausesWorkedOn, readLastSent, readMarks, readPlansBeside, readSeasonRule, readSenders,
  sentNotesScope, type NoteRowForView,
} from "./scope";
import { draftView, planPage, type PlanPage } from "./draft/view";
import { readLastWeek } from "./week/scope";
import { familyNote, longDay, type FamilyNote, type HomeworkSummary, type SentNotePage, type SentPlanView, type WholeNote } from "./view";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = (input: { playerId: Id }, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const noteOf = (input: { noteId: Id }, db: Database, actor: Person) => findNoteSubject(db, actor.academyId, input.noteId);

async function viewNotes(db: Database, actor: Person, rows: readonly NoteRowForView[]): Promise<FamilyNote[]> {
  const senders = await readSenders(db, actor.academyId, rows.map(({ authorId }) => authorId));
  return rows.map((row) => familyNote(row, { ...senders, today: actor.today, timeZone: actor.timeZone }));
}

/** The page on which a coach plans and writes: focus, what is at home, the short list, the draft and its preview. */
export const getPlanDraft = defineQuery({
  name: "plans.get-plan-draft",
  input: planDraftForm,
  policy: may<In<typeof planDraftForm>, PlayerSubject, "plan.draft">(planFor, playerOf),
  run: async ({ actor, input, granted, db }): Promise<PlanPage> => {
    const { academyId, id: playerId, hasLeft } = granted;
    const { side } = input;
    const facts = await getPlayerFacts.as(actor, { playerId }, db);
    const { name } = await getPlayer.as(actor, { playerId }, db);
    if (!facts.sides.some((known) => known.side === side)) throw new NotFoundError();
    const library = await getDrillsForPlanning.as(actor, {}, db);
    const foci = await readActiveFoci(db, academyId, playerId, side);
    const focus = foci.find(({ id }) => id === input.focusId) ?? foci[0] ?? null;
    const sources = await readSwingSources(db, academyId, playerId);
    const fault = library.faults.find(({ id }) => id === focus?.faultId);
    const { refusal: seasonRefusal, kept: keptDrills } = await readSeasonRule(db, { academyId, playerId, side }, facts.season, fault, actor.timeZone);
    const page = planPage({ facts, name, side, library, sources, foci, focus, seasonRefusal });
    if (!focus) return page;
    const lastSent = await readLastSent(db, academyId, focus.id);
    const shown = { ...page, lastSent: lastSent && { noteId: lastSent.noteId, on: dayIn(lastSent.at, actor.timeZone) } };
    const row = await db.note.findFirst({ where: { academyId, plan: { focusId: focus.id, state: "draft" } }, select: noteSelect });
    const { home } = facts;
    if (!row || !home) return shown;
    const receivers = await readReceivers(db, academyId, playerId, facts.today);
    const beside = (await readPlansBeside(db, academyId, playerId, focus.id, facts.today)).map(countedPlan);
    const planning = planningFor(library, facts, home, side, await readCausesWorkedOn(db, academyId, playerId, side), focus.faultId, keptDrills);
    const lastWeek = await readLastWeek(db, academyId, playerId, facts.today, sources);
    const stills = await listMarkedFrames(db, academyId, playerId, side);
    const marksNow = row.clipId && row.frameIndex !== null ? await readMarks(db, academyId, row.clipId, row.frameIndex) : [];
    const kept = await db.privateNote.findUnique({ where: { academyId_noteId: { academyId, noteId: row.id } } });
    const setting = { ...(await readSenders(db, academyId, [row.authorId, actor.userId, ...[row.wordsById, kept?.writtenById].filter((id) => typeof id === "string")])), today: facts.today, timeZone: actor.timeZone, marksNow };
    const clicked = (await readClicked(db, academyId, [playerId])).find((one) => one.side === side && one.faultId === focus.faultId);
    const earlier = clicked ? { text: clicked.cue, from: "clicked for this player" } : lastSent && { text: lastSent.cue, from: `said on ${longDay(dayIn(lastSent.at, actor.timeZone))}` };
    return {
      ...shown,
      draft: draftView({
        // Whoever sends it signs it.
        row: { ...row, authorId: actor.userId },
        facts, planning, library, beside, sources, stills, setting, earlier, receivers, hasLeft, seasonRefusal, lastWeek, privateWords: kept?.words ?? "",
        privateById: kept?.writtenById ?? null,
      }),
    };
  },
});

async function readInForce(db: Database, actor: Person, where: { playerId: Id; side?: Side }): Promise<SentPlanView[]> {
  const rows = await db.note.findMany({
    where: { AND: [sentNotesScope(actor), where, { plan: { state: "sent" } }] },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    take: MOST_IN_FORCE,
    select: noteSelect,
  });
  return (await viewNotes(db, actor, rows)).map((note) => ({ note, plan: note.plan }));
}

/** Two things in focus on each of two sides. */
const MOST_IN_FORCE = 4;

/** Every plan in force of a player with its note, newest first: at most two a side. */
export const listSentPlans = defineQuery({
  name: "plans.list-sent-plans",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, PlayerSubject, "plan.see-sent">(seeSentPlans, playerOf),
  run: async ({ actor, granted, db }): Promise<SentPlanView[]> => readInForce(db, actor, { playerId: granted.id }),
});

/** The newest plan in force on a side with its note; null before the first was sent. */
export const getSentPlan = defineQuery({
  name: "plans.get-sent-plan",
  input: playerSideForm,
  policy: may<In<typeof playerSideForm>, PlayerSubject, "plan.see-sent">(seeSentPlans, playerOf),
  run: async ({ actor, input, granted, db }): Promise<SentPlanView | null> => (await readInForce(db, actor, { playerId: granted.id, side: input.side }))[0] ?? null,
});

const PAGE_ROWS = 20;

/** Every note that was sent for a player, newest first. */
export const listSentNotes = defineQuery({
  name: "plans.list-sent-notes",
  input: listSentNotesForm,
  policy: may<In<typeof listSentNotesForm>, PlayerSubject, "plan.see-sent">(seeSentPlans, playerOf),
  run: async ({ actor, input, granted, db }): Promise<SentNotePage> => {
    const found = await db.note.findMany({
      where: { AND: [sentNotesScope(actor), { playerId: granted.id }] },
      orderBy: [{ sentAt: "desc" }, { id: "asc" }],
      take: PAGE_ROWS + 1,
      ...(input.after ? { cursor: { id: input.after }, skip: 1 } : {}),
      select: { id: true, side: true, authorId: true, sentAt: true, keptWell: true, oneThing: true, cue: true, plan: { select: { state: true } } },
    });
    const { names } = await readSenders(db, granted.academyId, found.map(({ authorId }) => authorId));
    const rows = found.slice(0, PAGE_ROWS).flatMap(({ sentAt, authorId, plan, side, ...row }) =>
      sentAt ? [{ ...row, side: side as Side, from: names.get(authorId) ?? "A coach", sentOn: dayIn(sentAt, actor.timeZone), isInForce: plan.state === "sent" }] : [],
    );
    return { rows, next: found.length > PAGE_ROWS ? (rows.at(-1)?.id ?? null) : null };
  },
});

/** A sent note as it was sent. */
export const getNoteForFamily = defineQuery({
  name: "plans.get-note-for-family",
  input: noteIdForm,
  policy: may<In<typeof noteIdForm>, NoteSubject, "note.see-sent">(seeSentNote, noteOf),
  run: async ({ actor, granted, db }): Promise<FamilyNote> => {
    const [note] = await viewNotes(db, actor, [await db.note.findUniqueOrThrow({ where: { id: granted.id }, select: noteSelect })]);
    if (!note) throw new Error("a note was read and not shown");
    return note;
  },
});

/** A note, sent or not, with the part that only coaches see. */
export const getNoteForCoach = defineQuery({
  name: "plans.get-note-for-coach",
  input: noteIdForm,
  policy: may<In<typeof noteIdForm>, NoteSubject, "note.see-whole">(seeWholeNote, noteOf),
  run: async ({ actor, granted, db }): Promise<WholeNote> => {
    const [note] = await viewNotes(db, actor, [await db.note.findUniqueOrThrow({ where: { id: granted.id }, select: noteSelect })]);
    if (!note) throw new Error("a note was read and not shown");
    const kept = await db.privateNote.findUnique({ where: { academyId_noteId: { academyId: granted.academyId, noteId: granted.id } } });
    return { note, privateWords: kept?.words ?? "" };
  },
});

async function readHomework(db: Database, actor: Person, playerIds: readonly Id[], side?: Side): Promise<HomeworkSummary[]> {
  const rows = await db.plan.findMany({
    where: { academyId: actor.academyId, playerId: { in: [...playerIds] }, side, state: "sent", note: { is: sentNotesScope(actor) } },
    orderBy: [{ sentAt: "desc" }, { id: "asc" }],
    select: {
      id: true, playerId: true, side: true, focusId: true, cue: true, startsOn: true, endsOn: true, daysPerWeek: true,
      focus: { select: { faultId: true } },
      note: { select: { id: true } },
      drills: { orderBy: [{ position: "asc" }, { id: "asc" }], select: { id: true, words: true, timesPerDay: true, swingsPerDay: true } },
    },
  });
  if (rows.length === 0) return [];
  const { faults } = await getDrillsForPlanning.as(actor, {}, db);
  return rows.map(({ id, focus, note, drills, side: planSide, startsOn, endsOn, ...row }) => ({
    ...row,
    planId: id,
    noteId: note?.id ?? null,
    side: planSide as Side,
    startsOn: dayOf(startsOn),
    endsOn: dayOf(endsOn),
    focusName: faults.find((fault) => fault.id === focus.faultId)?.name ?? focus.faultId,
    drills: drills.map(({ words, ...drill }) => ({ ...drill, name: wordsOf(words).name })),
  }));
}

/** The plans in force on a side, newest first: focus, cue, what is planned. What was done is counted by the practice log. */
export const getHomeworkSummary = defineQuery({
  name: "plans.get-homework-summary",
  input: playerSideForm,
  policy: may<In<typeof playerSideForm>, PlayerSubject, "plan.draft">(planFor, playerOf),
  run: async ({ actor, input, granted, db }): Promise<HomeworkSummary[]> => readHomework(db, actor, [granted.id], input.side),
});

/** The same for many players at once, in a fixed number of queries; of a player who is not taught by the actor, nothing. */
export const listHomework = defineQuery({
  name: "plans.list-homework",
  input: listHomeworkForm,
  policy: mayInAcademy<In<typeof listHomeworkForm>, "plan.list-homework">(mayListHomework),
  run: async ({ actor, input, db }): Promise<HomeworkSummary[]> => readHomework(db, actor, input.playerIds),
});
