import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may } from "@/lib/access/guard";
import { dayIn } from "@/lib/core/days";
import type { Id } from "@/lib/core/ids";
import type { BattingSide } from "@/lib/domains/clips/view";
import { findDrills, findFaults } from "@/lib/domains/library/rules";
import { findEditionInForce, readEdition } from "@/lib/domains/library/scope";
import type { LibraryParts } from "@/lib/domains/library/schema";
import { readSenders, sentNotesScope } from "@/lib/domains/plans/scope";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { findPlayerSubject } from "@/lib/domains/roster/scope";
import { now } from "@/lib/platform/clock";
import type { Database, Prisma } from "@/lib/platform/database";
import { smallStill } from "@/lib/platform/small-still";
import { recordFor, seeSentOf, seeSentWalkthrough, seeWholeWalkthrough, type WalkthroughSubject } from "./policy";
import { beginnings, cuesShown, draftSummary, findWords, lengthMs, quarterOf } from "./rules";
import { readOpeningPlaces } from "./opening/scope";
import { cuesForm, playerForm, searchForm, sentListForm, talkPointsForm, walkthroughForm } from "./schema";
import { findWalkthroughSubject, readWalkthrough, rowSelect, sentWalkthroughsScope, type WalkthroughRowForView } from "./scope";
import type { FoundRow, TalkPoints, WalkthroughForCoach, WalkthroughOnPage, WalkthroughRow, WalkthroughView } from "./view";
import { writeCaptions } from "./words/rules";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = <Input extends { playerId: Id }>(input: Input, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);
const walkthroughOf = (input: { walkthroughId: Id }, db: Database, actor: Person) => findWalkthroughSubject(db, { id: input.walkthroughId, academyId: actor.academyId }, actor.today);

const MOST_ROWS = 60;
const NOTES_OFFERED = 12;

async function partsInForce(db: Database, academyId: Id): Promise<LibraryParts | null> {
  const edition = await findEditionInForce(db, academyId);
  return edition && readEdition(db, academyId, edition.id);
}

/**
 * The small stills with which a walkthrough begins, as addresses that hold the pictures: they come with the page, of the clips that this view
 * shows and of no other, and are noted as looked at like every picture that is sent for.
 */
async function showOpening(db: Database, actor: Person, view: WalkthroughView, academyId: Id): Promise<Record<Id, string>> {
  const places = await readOpeningPlaces(db, academyId, view);
  const found = await Promise.all(places.map(async ({ clipId, key }) => ({ clipId, still: await smallStill(key) })));
  const there = found.flatMap(({ clipId, still }) => (still ? [[clipId, still] as const] : []));
  if (there.length > 0) await db.mediaRead.createMany({ data: there.map(([clipId]) => ({ academyId, sessionId: actor.sessionId, clipId, quarter: quarterOf(now()) })), skipDuplicates: true });
  return Object.fromEntries(there);
}

/** A walkthrough as its makers see it, sent or not. */
export const getWalkthrough = defineQuery({
  name: "walkthroughs.get-walkthrough",
  input: walkthroughForm,
  policy: may<In<typeof walkthroughForm>, WalkthroughSubject, "walkthrough.see-whole">(seeWholeWalkthrough, walkthroughOf),
  run: async ({ actor, granted, db }): Promise<WalkthroughForCoach> => {
    const view = await readWalkthrough(db, granted.id, "coach", actor);
    const notes = await db.note.findMany({
      where: { AND: [sentNotesScope(actor), { playerId: granted.playerId, side: view.side }] }, orderBy: [{ sentAt: "desc" }, { id: "asc" }], take: NOTES_OFFERED,
      select: { id: true, sentAt: true, oneThing: true },
    });
    const cuesOf = Object.fromEntries(view.takes.map(({ id, cues }) => [id, cues]));
    return {
      ...view,
      opening: await showOpening(db, actor, view, granted.academyId),
      summaryDraft: draftSummary(view.givenName, view.chapters.flatMap(({ about, title, sight }) => (about ? [{ kind: about.kind, name: title, sight }] : []))),
      captions: writeCaptions(cuesShown(view.chapters, cuesOf)),
      notes: notes.flatMap(({ id, sentAt, oneThing }) => (sentAt ? [{ id, words: `${dayIn(sentAt, actor.timeZone)}: ${oneThing}` }] : [])),
    };
  },
});

/** A walkthrough as it was sent, for the player and the family. */
export const getSentWalkthrough = defineQuery({
  name: "walkthroughs.get-sent-walkthrough",
  input: walkthroughForm,
  policy: may<In<typeof walkthroughForm>, WalkthroughSubject, "walkthrough.see-sent">(seeSentWalkthrough, walkthroughOf),
  run: async ({ actor, granted, db }): Promise<WalkthroughOnPage> => {
    const view = await readWalkthrough(db, granted.id, "family", actor);
    return { ...view, opening: await showOpening(db, actor, view, granted.academyId) };
  },
});

async function readRows(db: Database, actor: Person, where: Prisma.WalkthroughWhereInput): Promise<WalkthroughRowForView[]> {
  return db.walkthrough.findMany({ where: { AND: [{ academyId: actor.academyId }, where] }, orderBy: [{ createdAt: "desc" }, { id: "asc" }], take: MOST_ROWS, select: rowSelect });
}

async function viewRows(db: Database, actor: Person, rows: readonly WalkthroughRowForView[]): Promise<WalkthroughRow[]> {
  const { names } = await readSenders(db, actor.academyId, rows.map(({ createdById }) => createdById));
  return rows.map(({ id, title, side, summary, noteId, createdById, createdAt, sentAt, chapters }) => ({
    id, title, summary, noteId, side: side as BattingSide, from: names.get(createdById) ?? "A coach", madeOn: dayIn(createdAt, actor.timeZone),
    sentOn: sentAt && dayIn(sentAt, actor.timeZone), lengthMs: lengthMs(chapters), chapterTitles: chapters.map((it) => it.title),
  }));
}

/** A player's walkthroughs, sent or not, newest first. */
export const listWalkthroughs = defineQuery({
  name: "walkthroughs.list-walkthroughs",
  input: playerForm,
  policy: may<In<typeof playerForm>, PlayerSubject, "walkthrough.record">(recordFor, playerOf),
  run: async ({ actor, granted, db }): Promise<WalkthroughRow[]> => viewRows(db, actor, await readRows(db, actor, { playerId: granted.id })),
});

/** Those that were sent, newest first; with a note those that go with it. */
export const listSentWalkthroughs = defineQuery({
  name: "walkthroughs.list-sent-walkthroughs",
  input: sentListForm,
  policy: may<In<typeof sentListForm>, PlayerSubject, "walkthrough.list-sent">(seeSentOf, playerOf),
  run: async ({ actor, input, granted, db }): Promise<WalkthroughRow[]> =>
    viewRows(db, actor, await readRows(db, actor, { AND: [sentWalkthroughsScope(actor), { playerId: granted.id, ...(input.noteId ? { noteId: input.noteId } : {}) }] })),
});

/** Finds what was said or shown by any word a coach would say for it: the library's other names count. */
export const searchWalkthroughs = defineQuery({
  name: "walkthroughs.search",
  input: searchForm,
  policy: may<In<typeof searchForm>, PlayerSubject, "walkthrough.record">(recordFor, playerOf),
  run: async ({ actor, input, granted, db }): Promise<FoundRow[]> => {
    const rows = await readRows(db, actor, { playerId: granted.id });
    const parts = await partsInForce(db, granted.academyId);
    const [faults, drills] = [parts?.faults.faults ?? [], parts?.drills.drills ?? []];
    // Only what is asked for by a name of its own is meant; a word in its description is not enough.
    const isNamed = (rank: number) => rank > 5;
    const meant = [
      ...findFaults(input.text, faults).flatMap(({ id, rank }) => faults.filter((it) => it.id === id && isNamed(rank)).map(({ name, synonyms }) => ({ id, names: [name, ...synonyms] }))),
      ...findDrills(input.text, drills).flatMap(({ id, rank }) => drills.filter((it) => it.id === id && isNamed(rank)).map(({ name }) => ({ id, names: [name] }))),
    ];
    const found = findWords(input.text, meant, rows.map(({ id, title, summary, takes, chapters }) => {
      const begins = beginnings(chapters);
      const cuesOf = Object.fromEntries(takes.map((take) => [take.id, cuesForm.safeParse(take.cues).data ?? []]));
      return { id, title, summary, cues: cuesShown(chapters, cuesOf), chapters: chapters.map((it, i) => ({ beginsMs: begins[i] ?? 0, title: it.title, aboutId: it.aboutId })) };
    }));
    return found.slice(0, MOST_ROWS).map((it) => ({ ...it, title: rows.find(({ id }) => id === it.walkthroughId)?.title ?? "" }));
  },
});

/** What can be pointed at while talking over some swings of a player: what was called on them stands first. */
export const getTalkPoints = defineQuery({
  name: "walkthroughs.get-talk-points",
  input: talkPointsForm,
  policy: may<In<typeof talkPointsForm>, PlayerSubject, "walkthrough.record">(recordFor, playerOf),
  run: async ({ input, granted, db }): Promise<TalkPoints> => {
    const parts = await partsInForce(db, granted.academyId);
    if (!parts) return { faults: [], checkpoints: [], drills: [] };
    const calls = await db.observation.findMany({
      where: { academyId: granted.academyId, swingId: { in: input.swingIds }, swing: { playerId: granted.id }, replacedAt: null }, orderBy: [{ calledAt: "desc" }, { id: "asc" }],
      select: { faultId: true, state: true },
    });
    const order = { seen: 0, "not-visible": 1, "not-seen": 2 } as const;
    const faults = parts.faults.faults.map(({ id, name }) => ({ id, name, sight: (calls.find((it) => it.faultId === id)?.state ?? null) as TalkPoints["faults"][number]["sight"] }));
    const rank = (sight: (typeof faults)[number]["sight"]) => (sight ? order[sight] : 3);
    return {
      faults: faults.sort((a, b) => rank(a.sight) - rank(b.sight) || a.name.localeCompare(b.name)),
      checkpoints: parts.checkpoints.checkpoints.map(({ id, name }) => ({ id, name })),
      drills: parts.drills.drills.map(({ id, name }) => ({ id, name })),
    };
  },
});
