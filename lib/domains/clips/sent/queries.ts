import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import { may, mayInAcademy } from "@/lib/access/guard";
import { dayIn } from "@/lib/core/days";
import { sayIn } from "@/lib/core/words/catalogue";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { now } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import { seeSwing, type ClipOwner, type SwingSubject } from "../policy";
import { clipAddress, playerIdForm, swingIdForm } from "../schema";
import type { MarkedFrame } from "../view";
import { findClipOwner, findSwingSubject } from "../scope";
import { listWaiting, seeSent, seeSentOf, type SentSubject } from "./policy";
import { daysBefore, sentState, waitedWords, whyNothingIsSent } from "./rules";
import { answerMarksForm, nothing, sentIdForm } from "./schema";
import { findSentOfSwing, findSentSubject, readSender, sentSelect, waitingScope, type SentRowForView } from "./scope";
import type { FreshAnswer, SendingPage, SentForCoach, SentRow, SentView, WaitingRow } from "./view";

type In<Form extends z.ZodType> = z.infer<Form>;
const ownerOf = (input: { playerId: Id }, db: Database, actor: Person) => findClipOwner(db, actor.academyId, input.playerId);
const MOST_ROWS = 30;
/** So many days an answer is told of on the family's first page. */
const FRESH_DAYS = 7;

async function namesOf(db: Database, academyId: Id, ids: readonly (Id | null)[]): Promise<ReadonlyMap<Id, string>> {
  const rows = await db.user.findMany({ where: { academyId, id: { in: ids.filter((id) => id !== null) } }, select: { id: true, displayName: true } });
  return new Map(rows.map((row) => [row.id, row.displayName]));
}

function rowOf({ id, words, sentAt, upload, ...row }: SentRowForView, isPermitted: boolean, names: ReadonlyMap<Id, string>, timeZone: string): SentRow {
  const state = sentState({ uploadState: upload.state, ...row });
  return {
    id, state, words, isBeingOpened: upload.state === "checking", day: dayIn(sentAt, timeZone), refusal: upload.state === "refused" ? upload.refusal : null,
    retryUploadId: upload.canRetry ? upload.id : null,
    posterUrl: isPermitted && upload.clipId ? clipAddress.poster(upload.clipId) : null,
    answeredBy: row.answeredById && (names.get(row.answeredById) ?? "Your coach"),
    walkthroughId: state === "answered" ? row.walkthroughId : null,
  };
}

/** What a family can send now, and what became of what it sent, newest first. */
export const getSending = defineQuery({
  name: "clips.get-sending",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, ClipOwner, "clip.list-sent">(seeSentOf, ownerOf),
  run: async ({ actor, granted, db }): Promise<SendingPage> => {
    const { academyId, playerId } = granted;
    const player = await readSender(db, academyId, playerId, actor.today);
    const rows = await db.sentClip.findMany({
      where: { academyId, playerId, upload: { state: { not: "cancelled" } } }, orderBy: [{ sentAt: "desc" }, { id: "asc" }], take: MOST_ROWS, select: sentSelect,
    });
    const names = await namesOf(db, academyId, rows.map(({ answeredById }) => answeredById));
    return {
      playerId, givenName: player.givenName, sides: player.sides, isPaused: player.isPaused, whyNot: whyNothingIsSent(player, sayIn(actor.language)),
      rows: rows.map((row) => rowOf(row, player.isPermitted, names, actor.timeZone)),
    };
  },
});

/** The newest answer of these days, for the family's first page; null when there is none. */
export const findFreshAnswer = defineQuery({
  name: "clips.find-fresh-answer",
  input: playerIdForm,
  policy: may<In<typeof playerIdForm>, ClipOwner, "clip.list-sent">(seeSentOf, ownerOf),
  run: async ({ granted: { academyId, playerId }, db }): Promise<FreshAnswer | null> => {
    const row = await db.sentClip.findFirst({
      where: { academyId, playerId, answeredAt: { gt: daysBefore(now(), FRESH_DAYS) }, upload: { state: "ready" } },
      orderBy: [{ answeredAt: "desc" }, { id: "asc" }], select: { id: true, answeredById: true },
    });
    if (!row) return null;
    const names = await namesOf(db, academyId, [row.answeredById]);
    return { sentId: row.id, playerId, by: names.get(row.answeredById ?? "") ?? "Your coach" };
  },
});

/** One clip that the family sent, with the answer on its frame. */
export const getSent = defineQuery({
  name: "clips.get-sent",
  input: sentIdForm,
  policy: may<In<typeof sentIdForm>, SentSubject, "clip.see-sent">(seeSent, (input, db, actor) => findSentSubject(db, actor.academyId, input.sentId, actor.today)),
  run: async ({ actor, granted, db }): Promise<SentView> => {
    const { isPermitted } = granted;
    const row = await db.sentClip.findUniqueOrThrow({ where: { id: granted.id }, select: sentSelect });
    const shown = rowOf(row, isPermitted, await namesOf(db, granted.academyId, [row.answeredById]), actor.timeZone);
    const { upload, answer, answeredAt } = row;
    return {
      ...shown, playerId: granted.playerId, answer, answeredOn: answeredAt && dayIn(answeredAt, actor.timeZone), still: stillOf(row, isPermitted),
      filmUrl: isPermitted && upload.clipId ? clipAddress.stepping(upload.clipId) : null,
    };
  },
});

function stillOf({ clipId, frameIndex, marks }: SentRowForView, isPermitted: boolean): MarkedFrame | null {
  const kept = answerMarksForm.safeParse(marks).data;
  if (!clipId || frameIndex === null || !kept) return null;
  const { widthPx, heightPx, shapes } = kept;
  return { clipId, frameIndex, widthPx, heightPx, marks: shapes, url: isPermitted ? clipAddress.still(clipId, frameIndex) : null };
}

const MOST_WAITING = 60;

/** Clips of the actor's players that wait for an answer, oldest first. */
export const listWaitingClips = defineQuery({
  name: "clips.list-waiting",
  input: nothing,
  policy: mayInAcademy<In<typeof nothing>, "clip.list-waiting">(listWaiting),
  run: async ({ actor, db }): Promise<WaitingRow[]> => {
    const rows = await db.sentClip.findMany({
      where: waitingScope(actor), orderBy: [{ upload: { finishedAt: "asc" } }, { id: "asc" }], take: MOST_WAITING,
      select: { id: true, playerId: true, words: true, lookedAt: true, sentAt: true, upload: { select: { finishedAt: true, clip: { select: { id: true, swingId: true } }, player: { select: { givenName: true, familyName: true } } } } },
    });
    return rows.flatMap(({ id, playerId, words, lookedAt, sentAt, upload: { clip, player, finishedAt } }) =>
      clip ? [{ id, playerId, playerName: `${player.givenName} ${player.familyName}`, swingId: clip.swingId, clipId: clip.id, waited: waitedWords(finishedAt ?? sentAt, now()), isLookedAt: lookedAt !== null, words }] : [],
    );
  },
});

/** What a family asked with a swing, and the answer so far; null for a swing that a coach filmed. */
export const findSentOf = defineQuery({
  name: "clips.find-sent-of",
  input: swingIdForm,
  policy: may<In<typeof swingIdForm>, SwingSubject, "swing.see">(seeSwing, (input, db, actor) => findSwingSubject(db, { id: input.swingId, academyId: actor.academyId })),
  run: async ({ granted, db }): Promise<SentForCoach | null> => {
    const row = await findSentOfSwing(db, granted.academyId, granted.id);
    if (!row) return null;
    const { upload } = row;
    if (!upload.clip) throw new NotFoundError("swing");
    const names = await namesOf(db, granted.academyId, [row.answeredById]);
    return {
      id: row.id, playerId: row.playerId, givenName: upload.player.givenName, swingId: upload.clip.swing.id, clipIds: upload.clip.swing.clips.map(({ id }) => id), words: row.words,
      waited: waitedWords(upload.finishedAt ?? row.sentAt, now()), answeredBy: row.answeredById && (names.get(row.answeredById) ?? "A coach"), answer: row.answer,
    };
  },
});
