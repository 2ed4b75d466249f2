import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ageYears, isMinor } from "@/lib/core/age";
import { dayOf } from "@/lib/core/days";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { timesOfClip } from "@/lib/domains/clips/scope";
import { sentNotesScope } from "@/lib/domains/plans/scope";
import { noticeWritten } from "@/lib/domains/roster/events";
import type { PlayerSubject } from "@/lib/domains/roster/policy";
import { readReceivers } from "@/lib/domains/roster/scope";
import { now } from "@/lib/platform/clock";
import { type Database, type Prisma, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { refusalsOf } from "@/lib/prescribe/wording";
import { bytesDropped, filmAsked, openingWanted } from "./events";
import { chaptersOf } from "./list/rules";
import type { TakeList } from "./list/schema";
import type { TakeSubject, WalkthroughSubject } from "./policy";
import { cuesOfTakes, lengthMs, quarterOf, type Cue } from "./rules";
import { cuesForm, MOST_CHAPTERS, MOST_CLIPS_SHOWN, MOST_TAKES, type arrangeForm, type keepTakeForm } from "./schema";
import { readClipsShown } from "./scope";
import { readCaptions } from "./words/rules";

type Given<Form extends z.ZodType> = z.infer<Form>;
type Changed = Granted<WalkthroughSubject, "walkthrough.change">;
const asJson = (value: object) => value as Prisma.InputJsonValue;

// ---- Takes -----------------------------------------------------------------------------------------------------------

/**
 * Keeps a take, the first one with its walkthrough. Its clips must be this player's, or models that coaches may see, as they are: a list
 * that names others, or says of them what is not so, is refused whole. The same take twice is kept once.
 */
export async function keepTake(tx: Transaction, actor: Person, player: Granted<PlayerSubject, "walkthrough.record">, given: Given<typeof keepTakeForm>): Promise<void> {
  const { academyId, id: playerId } = player;
  const { walkthroughId, takeId, list, side, chapterId } = given;
  if (player.hasLeft) throw new ConflictError("This player has left the academy. Nothing was kept.");
  await tx.$queryRaw`SELECT 1 FROM "Player" WHERE "id" = ${playerId}::uuid FOR UPDATE`;
  const known = await tx.walkthroughTake.findFirst({ where: { id: takeId }, select: { academyId: true, walkthroughId: true, walkthrough: { select: { playerId: true } } } });
  if (known) {
    if (known.academyId !== academyId || known.walkthroughId !== walkthroughId || known.walkthrough.playerId !== playerId) throw new NotFoundError("take");
    return;
  }
  await refuseStrangers(tx, actor, player, list);
  const before = await tx.walkthrough.findFirst({
    where: { id: walkthroughId }, select: { academyId: true, playerId: true, clips: { select: { clipId: true } }, chapters: { select: { id: true, takeId: true, position: true } }, _count: { select: { takes: true } } },
  });
  if (before && (before.academyId !== academyId || before.playerId !== playerId)) throw new NotFoundError("walkthrough");
  if ((before?._count.takes ?? 0) >= MOST_TAKES) throw new ConflictError(`A walkthrough holds ${MOST_TAKES} recordings at most. Nothing was kept; begin another one.`);
  const clipIds = new Set([...(before?.clips ?? []).map(({ clipId }) => clipId), ...list.clips.map(({ clipId }) => clipId)]);
  if (clipIds.size > MOST_CLIPS_SHOWN) throw new ConflictError(`A walkthrough shows ${MOST_CLIPS_SHOWN} clips at most. Nothing was kept; begin another one.`);
  const replaced = chapterId === null ? null : before?.chapters.find(({ id }) => id === chapterId);
  if (replaced === undefined) throw new NotFoundError("chapter");
  if (!before) await tx.walkthrough.create({ data: { id: walkthroughId, academyId, playerId, side, title: "Walkthrough", createdById: actor.userId, createdAt: now() } });
  await tx.walkthroughTake.create({
    data: { id: takeId, academyId, walkthroughId, list: asJson(list), durationMs: list.durationMs, voiceState: given.hasVoice ? "awaited" : "none", cues: [], recordedById: actor.userId, recordedAt: now() },
  });
  await tx.walkthroughClip.createMany({ data: list.clips.map(({ clipId }) => ({ academyId, walkthroughId, clipId })), skipDuplicates: true });
  if (replaced) {
    await tx.walkthroughChapter.update({ where: { id: replaced.id }, data: { takeId, fromMs: 0, toMs: Math.max(1, list.durationMs) } });
  } else {
    const from = Math.max(-1, ...(before?.chapters ?? []).map(({ position }) => position)) + 1;
    const drafts = chaptersOf(list).filter((it) => it.toMs > it.fromMs);
    if (from + drafts.length > MOST_CHAPTERS) throw new ConflictError(`A walkthrough holds ${MOST_CHAPTERS} chapters at most. Nothing was kept.`);
    const swings = await swingsOf(tx, academyId, list);
    await tx.walkthroughChapter.createMany({
      data: drafts.map(({ fromMs, toMs, title, about, clip }, i) => ({
        id: newId(), academyId, walkthroughId, takeId, position: from + i, fromMs, toMs, title, aboutKind: about?.kind ?? null, aboutId: about?.id ?? null,
        swingId: swings.get(list.clips[clip]?.clipId ?? "") ?? null,
      })),
    });
  }
  await dropUntold(tx, academyId, walkthroughId);
  await wantOpening(tx, walkthroughId);
}

async function swingsOf(tx: Transaction, academyId: Id, list: TakeList): Promise<ReadonlyMap<Id, Id>> {
  const rows = await tx.clip.findMany({ where: { academyId, id: { in: list.clips.map(({ clipId }) => clipId) } }, select: { id: true, swingId: true } });
  return new Map(rows.map(({ id, swingId }) => [id, swingId]));
}

async function refuseStrangers(tx: Transaction, actor: Person, { academyId, id: playerId }: PlayerSubject, list: TakeList): Promise<void> {
  const ids = list.clips.map(({ clipId }) => clipId);
  const shown = await readClipsShown(tx, { academyId, playerId }, ids, "coach", actor.today);
  const stranger = list.clips.find(({ clipId }) => !shown[clipId]?.clip);
  if (stranger) throw new InvalidError("A clip in it is not this player’s, or may not be shown today. Nothing was kept on our side.");
  const rows = await tx.clip.findMany({
    where: { academyId, id: { in: ids } }, select: { id: true, firstFrame: true, lastFrame: true, realSecondsPerFileSecond: true, file: { select: { widthPx: true, heightPx: true, frameTimes: true } } },
  });
  for (const { clipId, frameCount, widthPx, heightPx, realSecondsPerFileSecond, zeroTick } of list.clips) {
    const row = rows.find(({ id }) => id === clipId);
    const ticks = row ? timesOfClip(row).ticks : [];
    const isWithin = zeroTick === null || (zeroTick >= (ticks[0] ?? 0) && zeroTick <= (ticks.at(-1) ?? 0));
    const isSo = row && ticks.length === frameCount && row.file.widthPx === widthPx && row.file.heightPx === heightPx && row.realSecondsPerFileSecond === realSecondsPerFileSecond && isWithin;
    if (!isSo) throw new InvalidError("What is said of a clip in it is not so. Please open the page anew; nothing was kept on our side.");
  }
}

/** Takes that no chapter tells any more go, with their voices; so do the names of clips that no take shows. */
async function dropUntold(tx: Transaction, academyId: Id, walkthroughId: Id): Promise<void> {
  const untold = await tx.walkthroughTake.findMany({ where: { academyId, walkthroughId, chapters: { none: {} } }, select: { id: true, voiceKey: true } });
  for (const { voiceKey } of untold) if (voiceKey) await tell(tx, bytesDropped, { key: voiceKey }, { key: `drop ${voiceKey}` });
  await tx.walkthroughTake.deleteMany({ where: { academyId, id: { in: untold.map(({ id }) => id) } } });
  const told = await tx.walkthroughTake.findMany({ where: { academyId, walkthroughId }, select: { list: true } });
  const shown = told.flatMap(({ list }) => (list as unknown as TakeList).clips.map(({ clipId }) => clipId));
  await tx.walkthroughClip.deleteMany({ where: { academyId, walkthroughId, clipId: { notIn: shown } } });
}

/** Where a voice is kept, under the academy. */
export const voiceKeyOf = ({ academyId, id, takeId }: TakeSubject, extension: string) => `${academyId}/walkthroughs/${id}/${takeId}.${extension}`;

/** The voice of a take has come; a second one is not taken. */
export async function keepVoiceOf(tx: Transaction, take: Granted<TakeSubject, "walkthrough.send-voice">, voice: { readonly key: string; readonly type: string; readonly durationMs: number }): Promise<void> {
  const { count } = await tx.walkthroughTake.updateMany({
    where: { id: take.takeId, academyId: take.academyId, voiceState: "awaited" }, data: { voiceState: "kept", voiceKey: voice.key, voiceType: voice.type, voiceMs: voice.durationMs },
  });
  if (count === 0) throw new ConflictError("The voice of this recording is here already.");
}

// ---- Putting right ---------------------------------------------------------------------------------------------------

async function lock(tx: Transaction, { id }: WalkthroughSubject): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM "Walkthrough" WHERE "id" = ${id}::uuid FOR UPDATE`;
}

/** Names, order and ends of the chapters; those left out are no longer told. */
export async function arrange(tx: Transaction, actor: Person, granted: Changed, { title, chapters }: Given<typeof arrangeForm>): Promise<void> {
  const { academyId, id: walkthroughId } = granted;
  await lock(tx, granted);
  await checkWording(tx, actor, granted, "title", title);
  const rows = await tx.walkthroughChapter.findMany({ where: { academyId, walkthroughId }, select: { id: true, take: { select: { durationMs: true } } } });
  const isOwn = chapters.every(({ id, toMs }) => rows.some((row) => row.id === id && toMs <= Math.max(1, row.take.durationMs)));
  if (!isOwn || new Set(chapters.map(({ id }) => id)).size < chapters.length) throw new InvalidError("These chapters are not those of this walkthrough any more. Nothing was changed; please open the page anew.");
  await tx.walkthrough.update({ where: { id: walkthroughId }, data: { title } });
  await tx.walkthroughChapter.deleteMany({ where: { academyId, walkthroughId, id: { notIn: chapters.map(({ id }) => id) } } });
  for (const [position, { id, ...chapter }] of chapters.entries()) await tx.walkthroughChapter.update({ where: { id }, data: { position, title: chapter.title, fromMs: chapter.fromMs, toMs: chapter.toMs } });
  await dropUntold(tx, academyId, walkthroughId);
  await wantOpening(tx, walkthroughId);
}

/** Captions of the whole time line, as WebVTT; each word is kept with the take in which it is said. @returns how many lines */
export async function writeWords(tx: Transaction, granted: Changed, captions: string): Promise<number> {
  const { academyId, id: walkthroughId } = granted;
  const read = captions.trim() === "" ? { cues: [], problem: null } : readCaptions(captions);
  if (read.problem !== null) throw new InvalidError(read.problem, { captions: read.problem });
  await lock(tx, granted);
  const chapters = await tx.walkthroughChapter.findMany({ where: { academyId, walkthroughId }, orderBy: [{ position: "asc" }, { id: "asc" }] });
  const late = read.cues.find(({ fromMs }) => fromMs >= lengthMs(chapters));
  if (late) {
    const problem = `“${late.text.slice(0, 40)}” stands after the end of the walkthrough.`;
    throw new InvalidError(problem, { captions: problem });
  }
  const takes = await tx.walkthroughTake.findMany({ where: { academyId, walkthroughId }, select: { id: true, cues: true } });
  const before: Record<Id, readonly Cue[]> = Object.fromEntries(takes.map(({ id, cues }) => [id, cuesForm.safeParse(cues).data ?? []]));
  for (const [id, cues] of Object.entries(cuesOfTakes(chapters, read.cues, before))) await tx.walkthroughTake.update({ where: { id }, data: { cues: asJson([...cues]) } });
  return read.cues.length;
}

/** What a family reads holds no label, no list, and no numbers for a young child, as in a note. @throws InvalidError naming the words */
async function checkWording(tx: Transaction, actor: Person, { academyId, playerId }: WalkthroughSubject, field: "title" | "summary", text: string): Promise<void> {
  const { givenName, birthDate } = await tx.player.findFirstOrThrow({ where: { id: playerId, academyId }, select: { givenName: true, birthDate: true } });
  const [refused] = refusalsOf(text, { givenName, ageYears: ageYears(dayOf(birthDate), actor.today), otherFaults: [] });
  if (refused) throw new InvalidError(`${refused} Nothing was changed.`, { [field]: refused });
}

export async function writeSummary(tx: Transaction, actor: Person, granted: Changed, summary: string): Promise<void> {
  await checkWording(tx, actor, granted, "summary", summary);
  await tx.walkthrough.update({ where: { id: granted.id }, data: { summary } });
}

// ---- Sending and removing --------------------------------------------------------------------------------------------

/** Sends it to the player and every guardian, with a note or by itself. @returns who gets it */
export async function sendWalkthrough(tx: Transaction, actor: Person, granted: Changed, noteId: Id | null): Promise<readonly string[]> {
  const { academyId, playerId, id } = granted;
  await lock(tx, granted);
  if (!granted.isPermitted) throw new ConflictError("No consent to film for lessons is in force, so nothing of it could be shown. Nothing was sent.");
  if ((await tx.walkthroughTake.count({ where: { academyId, walkthroughId: id, voiceState: "awaited" } })) > 0) throw new ConflictError("A voice is still on its way. Nothing was sent; send it once the voice is here.");
  if (noteId !== null && (await tx.note.count({ where: { AND: [sentNotesScope(actor), { id: noteId, playerId }] } })) === 0) throw new InvalidError("This note was not sent to this player.", { noteId: "Choose a note that was sent." });
  const player = await tx.player.findUniqueOrThrow({ where: { id: playerId }, select: { givenName: true, birthDate: true, leftAt: true } });
  if (player.leftAt) throw new ConflictError(`${player.givenName} has left the academy. Nothing was sent.`);
  const receivers = await readReceivers(tx, academyId, playerId, actor.today);
  if (receivers.length === 0) throw new ConflictError(`Nobody of ${player.givenName}’s family has a sign-in yet. Nothing was sent.`);
  const isChild = isMinor(ageYears(player.birthDate.toISOString().slice(0, 10), actor.today));
  if (isChild && !receivers.some(({ isGuardian }) => isGuardian)) throw new ConflictError(`No guardian of ${player.givenName} has a sign-in yet, and what is sent to a child goes to a guardian too. Nothing was sent.`);
  const sentAt = now();
  await tx.walkthrough.update({ where: { id }, data: { sentAt, noteId } });
  await answerWith(tx, actor, granted, sentAt);
  await tx.notice.createMany({ data: receivers.map(({ id: userId }) => ({ id: newId(), academyId, userId, playerId, kind: "walkthrough-sent", subjectId: id, createdAt: sentAt })), skipDuplicates: true });
  for (const { id: userId } of receivers) await tell(tx, noticeWritten, { userId }, { key: `notice ${userId}` });
  await wantOpening(tx, id);
  return receivers.map(({ name }) => name);
}

/** Asks the worker for the small stills with which a walkthrough begins. */
export const wantOpening = (db: Database, walkthroughId: Id) => tell(db, openingWanted, { walkthroughId }, { key: `opening ${walkthroughId}` });

/** What a family sent, that is shown in it and waits for an answer, is answered by it. */
async function answerWith(tx: Transaction, actor: Person, { academyId, playerId, id: walkthroughId }: Changed, at: Date): Promise<void> {
  const shown = (await tx.walkthroughClip.findMany({ where: { academyId, walkthroughId }, select: { clipId: true } })).map(({ clipId }) => clipId);
  const waiting: Prisma.SentClipWhereInput = { academyId, playerId, answeredAt: null, upload: { state: "ready", clipId: { in: shown } } };
  await tx.sentClip.updateMany({ where: { ...waiting, lookedAt: null }, data: { lookedAt: at, lookedById: actor.userId } });
  await tx.sentClip.updateMany({ where: waiting, data: { answeredAt: at, answeredById: actor.userId, walkthroughId } });
}

/** What it answered waits again. */
async function unanswer(tx: Transaction, { academyId, id: walkthroughId }: Pick<WalkthroughSubject, "academyId" | "id">): Promise<void> {
  await tx.sentClip.updateMany({ where: { academyId, walkthroughId }, data: { answeredAt: null, answeredById: null, walkthroughId: null } });
}

/** Takes it back: the family sees it no more, the coaches keep it. */
export async function takeBackWalkthrough(tx: Transaction, granted: Changed): Promise<void> {
  await unanswer(tx, granted);
  await tx.walkthrough.update({ where: { id: granted.id }, data: { sentAt: null, noteId: null } });
}

/** Removes it with its voices and its film. */
export async function removeWalkthrough(tx: Transaction, granted: Changed): Promise<void> {
  await lock(tx, granted);
  await eraseWalkthroughs(tx, { academyId: granted.academyId, id: granted.id });
}

/** Physically removes walkthroughs and tells the worker which bytes may go. */
async function eraseWalkthroughs(tx: Transaction, where: { readonly academyId: Id; readonly id: Id }): Promise<void> {
  const rows = await tx.walkthrough.findMany({ where, select: { id: true, filmKey: true, takes: { select: { voiceKey: true } } } });
  await unanswer(tx, where);
  const ofThem = { academyId: where.academyId, walkthroughId: { in: rows.map(({ id }) => id) } };
  for (const key of rows.flatMap(({ filmKey, takes }) => [filmKey, ...takes.map(({ voiceKey }) => voiceKey)])) if (key) await tell(tx, bytesDropped, { key }, { key: `drop ${key}` });
  await tx.walkthroughChapter.deleteMany({ where: ofThem });
  await tx.walkthroughClip.deleteMany({ where: ofThem });
  await tx.walkthroughTake.deleteMany({ where: ofThem });
  await tx.walkthrough.deleteMany({ where: { academyId: where.academyId, id: { in: rows.map(({ id }) => id) } } });
}

// ---- The film --------------------------------------------------------------------------------------------------------

/** Asks the worker for a film. One that is being made is not asked for twice. */
export async function askFilm(tx: Transaction, granted: Granted<WalkthroughSubject, "walkthrough.hear">): Promise<void> {
  await lock(tx, granted);
  const { filmKey } = await tx.walkthrough.findUniqueOrThrow({ where: { id: granted.id }, select: { filmKey: true } });
  if (filmKey) await tell(tx, bytesDropped, { key: filmKey }, { key: `drop ${filmKey}` });
  await tx.walkthrough.update({ where: { id: granted.id }, data: { filmState: "asked", filmKey: null, filmOf: null } });
  await tell(tx, filmAsked, { walkthroughId: granted.id }, { key: `film ${granted.id}`, tries: 3 });
}

export async function keepFilm(tx: Transaction, granted: Granted<WalkthroughSubject, "walkthrough.make-film">, film: { readonly key: string; readonly of: string } | null): Promise<void> {
  await tx.walkthrough.updateMany({ where: { id: granted.id }, data: film ? { filmState: "ready", filmKey: film.key, filmOf: film.of } : { filmState: "failed", filmKey: null, filmOf: null } });
}

/** Films that show a clip are made no more of, whatever state they are in. @returns the keys of their bytes */
export async function forgetFilmsOf(tx: Transaction, academyId: Id, clipId: Id): Promise<readonly string[]> {
  const rows = await tx.walkthrough.findMany({ where: { academyId, clips: { some: { clipId } }, filmKey: { not: null } }, select: { id: true, filmKey: true } });
  await tx.walkthrough.updateMany({ where: { academyId, id: { in: rows.map(({ id }) => id) } }, data: { filmState: "none", filmKey: null, filmOf: null } });
  return rows.flatMap(({ filmKey }) => filmKey ?? []);
}

/** Notes that somebody looked at clips: one row per session, clip and quarter hour. */
export async function noteReads(db: Database, actor: Person, academyId: Id, clipIds: readonly Id[]): Promise<void> {
  const quarter = quarterOf(now());
  await db.mediaRead.createMany({ data: clipIds.map((clipId) => ({ academyId, sessionId: actor.sessionId, clipId, quarter })), skipDuplicates: true });
}
