import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ageYears, isMinor } from "@/lib/core/age";
import { dayOf } from "@/lib/core/days";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { sayIn } from "@/lib/core/words/catalogue";
import { newId, type Id } from "@/lib/core/ids";
import { noticeWritten } from "@/lib/domains/roster/events";
import { teaches } from "@/lib/domains/roster/policy";
import { readReceivers } from "@/lib/domains/roster/scope";
import { now } from "@/lib/platform/clock";
import type { Database, Prisma, Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { refusalsOf } from "@/lib/prescribe/wording";
import { beginUpload, insideClip } from "../commands";
import type { ClipOwner, ClipSubject } from "../policy";
import { markShapeForm, type BegunUpload } from "../schema";
import type { SentSubject } from "./policy";
import { daysBefore, MOST_A_WEEK, MOST_SENT_BYTES, WEEK_DAYS, whyNothingIsSent } from "./rules";
import type { Answer, BeginSent } from "./schema";
import { readAnswerers, readSender } from "./scope";

/** What coaches note and a family is not asked. */
const NOT_ASKED = {
  swingKind: "power", effort: "practice", pitchHeight: "unknown", pitchSide: "unknown", pitchSpeed: "unknown", batClass: "other",
  isMirrored: false, hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null, swingId: null,
} as const;

/** Writes down what a family sends, before a byte is sent. @throws ConflictError while swings are paused, without a consent, when enough was sent this week */
export async function beginSent(tx: Transaction, actor: Person, owner: Granted<ClipOwner, "clip.send">, input: BeginSent): Promise<BegunUpload> {
  const { academyId, playerId } = owner;
  await tx.$queryRaw`SELECT 1 FROM "Player" WHERE "id" = ${playerId}::uuid FOR NO KEY UPDATE`;
  const say = sayIn(actor.language);
  const problem = whyNothingIsSent(await readSender(tx, academyId, playerId, actor.today), say);
  if (problem) throw new ConflictError(`${problem} ${say("Nothing was sent.")}`);
  if (input.byteLength > MOST_SENT_BYTES) throw new InvalidError(say("The video is larger than {most} MB. Nothing was sent. Film one swing, a few seconds are enough.", { most: MOST_SENT_BYTES / 1e6 }));
  const { words, ...said } = input;
  const begun = await beginUpload(tx, actor, owner, { ...NOT_ASKED, ...said, filmedOn: actor.today });
  const { uploadId } = begun;
  if (begun.swingId && (await tx.sentClip.count({ where: { academyId, playerId, uploadId: { not: uploadId }, upload: { state: "ready", clip: { swingId: begun.swingId } } } })) > 0) {
    throw new ConflictError("This video is here already, you sent it before. Nothing was sent again.");
  }
  await tx.sentClip.upsert({
    where: { uploadId },
    create: { id: newId(), academyId, playerId, uploadId, sentById: actor.userId, words, sentAt: now() },
    update: { words },
  });
  const since = daysBefore(now(), WEEK_DAYS);
  const count = await tx.sentClip.count({ where: { academyId, playerId, sentAt: { gt: since }, upload: { state: { notIn: ["cancelled", "refused"] } } } });
  if (count > MOST_A_WEEK) throw new ConflictError(say("{count} clips in seven days are the most, so that your coach can look at each with care. Nothing was sent. Send the next one in a few days.", { count: MOST_A_WEEK }));
  return begun;
}

/** A coach opened the film: from then on the family reads so. */
export async function noteLooked(db: Database, actor: Person, clip: Granted<ClipSubject, "clip.watch">): Promise<void> {
  if (!teaches(actor, clip.playerId)) return;
  await db.sentClip.updateMany({ where: { academyId: clip.academyId, lookedAt: null, upload: { clipId: clip.id } }, data: { lookedAt: now(), lookedById: actor.userId } });
}

/** Answers with words and a frame of the swing, as it is drawn on now. Another answer takes the place of the one before. @returns who gets it */
export async function answerSent(tx: Transaction, actor: Person, sent: Granted<SentSubject, "clip.answer">, input: Answer): Promise<readonly string[]> {
  const { academyId, id, playerId } = sent;
  const { clipId, frameIndex, words, planDrillId } = input;
  await tx.$queryRaw`SELECT 1 FROM "SentClip" WHERE "id" = ${id}::uuid FOR UPDATE`;
  const { upload } = await tx.sentClip.findUniqueOrThrow({
    where: { id }, select: { upload: { select: { state: true, clip: { select: { swingId: true } }, player: { select: { givenName: true, birthDate: true, leftAt: true } } } } },
  });
  const years = ageYears(dayOf(upload.player.birthDate), actor.today);
  const [refused] = refusalsOf(words, { givenName: upload.player.givenName, ageYears: years, otherFaults: [] });
  if (refused) throw new InvalidError(`${refused} Nothing was sent.`, { words: refused });
  if (upload.player.leftAt) throw new ConflictError(`${upload.player.givenName} has left the academy. Nothing was sent.`);
  if (upload.state !== "ready" || !upload.clip) throw new ConflictError("The film is not here yet. Nothing was sent.");
  const clip = await tx.clip.findFirst({
    where: { id: clipId, academyId, swingId: upload.clip.swingId },
    select: { id: true, academyId: true, playerId: true, swingId: true, fileId: true, firstFrame: true, lastFrame: true, file: { select: { widthPx: true, heightPx: true } } },
  });
  if (!clip) throw new NotFoundError("clip");
  insideClip(clip, frameIndex);
  const drill = planDrillId ? await tx.planDrill.findFirst({ where: { id: planDrillId, academyId, plan: { playerId, state: { not: "draft" } } }, select: { drillId: true } }) : undefined;
  if (drill === null) throw new InvalidError("This drill is in no plan of this player. Nothing was sent.", { planDrillId: "Choose a drill of the plan." });
  const receivers = await readReceivers(tx, academyId, playerId, actor.today);
  if (isMinor(years) && !receivers.some(({ isGuardian }) => isGuardian)) {
    throw new ConflictError(`No guardian of ${upload.player.givenName} has a sign-in, and what is sent to a child goes to a guardian too. Nothing was sent.`);
  }
  const rows = await tx.mark.findMany({ where: { academyId, clipId, frameIndex, removedAt: null }, orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { shape: true } });
  const marks = { v: 1, widthPx: clip.file.widthPx, heightPx: clip.file.heightPx, shapes: rows.flatMap(({ shape }) => markShapeForm.safeParse(shape).data ?? []) };
  await tx.sentClip.update({
    where: { id },
    data: { answer: words, answeredAt: now(), answeredById: actor.userId, clipId, frameIndex, marks: marks as unknown as Prisma.InputJsonValue, walkthroughId: null, drillId: drill?.drillId ?? null },
  });
  // Who answers has looked.
  await tx.sentClip.updateMany({ where: { id, lookedAt: null }, data: { lookedAt: now(), lookedById: actor.userId } });
  await writeNotices(tx, sent, receivers.map((it) => it.id), "clip-answered");
  return receivers.map(({ name }) => name);
}

/** Reminds whoever answers this player's clips that one waits, once. @returns false when there is nothing to remind of, or nobody */
export async function remindOfSent(tx: Transaction, sent: Granted<SentSubject, "clip.remind">, today: string): Promise<boolean> {
  const { academyId, id, playerId } = sent;
  await tx.$queryRaw`SELECT 1 FROM "SentClip" WHERE "id" = ${id}::uuid FOR UPDATE`;
  if ((await tx.sentClip.count({ where: { id, answeredAt: null, remindedAt: null } })) === 0) return false;
  const userIds = await readAnswerers(tx, academyId, playerId, today);
  if (userIds.length === 0) return false;
  await tx.sentClip.update({ where: { id }, data: { remindedAt: now() } });
  await writeNotices(tx, sent, userIds, "clip-waits");
  return true;
}

async function writeNotices(tx: Transaction, { academyId, playerId, id: subjectId }: SentSubject, userIds: readonly Id[], kind: "clip-answered" | "clip-waits"): Promise<void> {
  await tx.notice.createMany({ data: userIds.map((userId) => ({ id: newId(), academyId, userId, playerId, kind, subjectId, createdAt: now() })), skipDuplicates: true });
  for (const userId of userIds) await tell(tx, noticeWritten, { userId }, { key: `notice ${userId}` });
}

/** The film goes to another player: what the first family asked of it goes, since it is not the other family's to read. */
export async function forgetSent(tx: Transaction, academyId: Id, upload: Prisma.UploadWhereInput): Promise<void> {
  await tx.sentClip.deleteMany({ where: { academyId, upload } });
}
