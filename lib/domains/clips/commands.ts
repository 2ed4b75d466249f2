import type { z } from "zod";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError, OvertakenError } from "@/lib/core/errors";
import { filmedRateOf, realTimeOf, type RealTime } from "@/lib/core/filmed-rate";
import { newId, type Id } from "@/lib/core/ids";
import { packTicks } from "@/lib/core/packed-ticks";
import { dayOf, dayValue, timeOfDay } from "@/lib/core/days";
import { writtenDeg } from "@/lib/measure/camera/line-words";
import { now } from "@/lib/platform/clock";
import { Prisma, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { settings } from "@/lib/platform/settings";
import { HEARD_SD_SECONDS } from "@/lib/platform/video/hear-contact";
import { fileKeys } from "@/lib/platform/video/incoming";
import type { HeardFrames, IngestedVideo } from "@/lib/platform/video/ingest";
import { filmKept } from "./cutting/events";
import { LEAST_TO_CUT_SECONDS } from "./cutting/rules";
import { swingChanged, uploadReceived } from "./events";
import type { ClipOwner, ClipSubject, MarkSubject, UploadSubject } from "./policy";
import { cameraLineOf } from "./rules";
import { checkKey, RETRY_DAYS } from "./arriving/rules";
import { heardRelease } from "./release/rules";
import { stillsChanged } from "./stills/events";
import { factsOf, lessonPermitOn, readSwingPage, timesOf, timesOfClip } from "./scope";
import { dropSuggestions, wantSuggestions } from "./suggested/commands";
import { uploadFactsForm, type addMarkForm, type BegunUpload, type beginUploadForm, type clearEventForm, type placePointForm, type pointForm, type setCameraLineForm, type setClipFactsForm, type setClipTimeForm, type setEventForm, type SwingFacts, type UploadFacts } from "./schema";

type Worked = Granted<ClipSubject, "clip.work-on">;

// ---- Uploads -----------------------------------------------------------------------------------------------------

/** Writes down whose swing it is and what no file says, before a byte is sent. */
export async function beginUpload(tx: Transaction, actor: Person, owner: Granted<ClipOwner, "clip.add"> | Granted<ClipOwner, "clip.send">, input: z.infer<typeof beginUploadForm>): Promise<BegunUpload> {
  const { academyId } = owner;
  const { playerId, byteLength, contentHash } = input;
  const joined = input.swingId ? await findJoined(tx, owner, input.swingId) : null;
  const facts: UploadFacts = { ...uploadFactsForm.parse(input), ...joined };
  await refuseWithout(tx, actor, { ...input, ...facts });
  const mine = { academyId, playerId, userId: actor.userId, contentHash, byteLength: BigInt(byteLength), facts, swingId: input.swingId };
  const known = contentHash && (await tx.clip.findFirst({ where: { academyId, playerId, file: { contentHash } }, select: { id: true, swingId: true, fileId: true } }));
  if (known) {
    const { id } = await tx.upload.create({ data: { id: newId(), ...mine, state: "ready", wasKnown: true, clipId: known.id, fileId: known.fileId, finishedAt: now() } });
    return { uploadId: id, isResumed: false, swingId: known.swingId };
  }
  const before = contentHash && (await tx.upload.findFirst({ where: { academyId, playerId, userId: actor.userId, contentHash, byteLength: mine.byteLength, state: { in: ["receiving", "checking"] } } }));
  if (before) {
    // All of it may be here already; then the one who sends learns so when asking how far it is.
    await tx.upload.update({ where: { id: before.id }, data: { facts, swingId: input.swingId } });
    return { uploadId: before.id, isResumed: true, swingId: null };
  }
  const { id } = await tx.upload.create({ data: { id: newId(), ...mine, state: "receiving" } });
  return { uploadId: id, isResumed: false, swingId: null };
}

export const MOST_CLIPS_OF_A_SWING = 4;
const FULL = `This swing has ${MOST_CLIPS_OF_A_SWING} clips, which is the most.`;

/** What is known of the swing of which a film is another camera. @throws NotFoundError for a swing of somebody else, ConflictError when it is full */
async function findJoined(tx: Transaction, { academyId, playerId }: ClipOwner, swingId: Id): Promise<SwingFacts & Pick<UploadFacts, "filmedOn">> {
  const swing = await tx.swing.findFirst({ where: { id: swingId, academyId, playerId }, include: { _count: { select: { clips: true } } } });
  if (!swing) throw new NotFoundError("swing");
  if (swing._count.clips >= MOST_CLIPS_OF_A_SWING) throw new ConflictError(`${FULL} Nothing was sent.`);
  return { ...factsOf(swing), filmedOn: dayOf(swing.filmedOn) };
}

async function refuseWithout(tx: Transaction, actor: Person, { playerId, side, swingKind, filmedOn, byteLength }: z.infer<typeof beginUploadForm>): Promise<void> {
  const player = await tx.player.findFirst({
    where: { id: playerId, academyId: actor.academyId },
    select: { givenName: true, leftAt: true, sides: { select: { side: true } }, _count: { select: { permits: { where: lessonPermitOn(actor.today) } } } },
  });
  if (!player) throw new NotFoundError("player");
  if (player.leftAt) throw new ConflictError(`${player.givenName} has left. Nothing was sent.`);
  if (player._count.permits === 0) {
    throw new ConflictError(`No consent to film ${player.givenName} for lessons is in force. Nothing was sent. The office can record one.`);
  }
  if (!player.sides.some((it) => it.side === side)) {
    throw new InvalidError(`${player.givenName} does not bat ${side}-handed. Nothing was sent.`, { side: `${player.givenName} does not bat ${side}-handed.` });
  }
  if (swingKind === "running-slap" && side !== "left") {
    throw new InvalidError("A running slap is taken from the left side. Nothing was sent.", { swingKind: "A running slap is taken from the left side." });
  }
  if (filmedOn > actor.today) throw new InvalidError("The day lies in the future. Nothing was sent.", { filmedOn: `Today is ${actor.today}.` });
  const most = settings().UPLOAD_MAX_BYTES;
  if (byteLength > most) throw new InvalidError(`The file has more than ${Math.floor(most / 1e6)} million bytes. Nothing was sent. Please cut out the swing and send that.`);
}

/** All bytes have arrived: the worker is told, in the same transaction. */
export async function receiveUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.send"> | Granted<UploadSubject, "upload.tidy">): Promise<void> {
  const { count } = await tx.upload.updateMany({ where: { id: upload.id, state: "receiving" }, data: { state: "checking" } });
  if (count !== 1) throw new ConflictError("This sending has ended already.");
  await tell(tx, uploadReceived, { uploadId: upload.id }, { key: checkKey(upload.id) });
}

export async function cancelUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.settle">): Promise<void> {
  const where = { id: upload.id, state: { in: ["receiving", "checking"] } };
  const { count } = await tx.upload.updateMany({ where, data: { state: "cancelled", finishedAt: now() } });
  if (count !== 1) throw new ConflictError("This sending has ended already. Nothing was changed.");
}

export async function dismissUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.settle">): Promise<void> {
  await tx.upload.updateMany({ where: { id: upload.id, state: { in: ["refused", "ready"] } }, data: { dismissedAt: now() } });
}

/** Ends an upload with a sentence. Through no fault of the file its bytes stay for a while, so that a person can try again. */
export async function refuseUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.check"> | Granted<UploadSubject, "upload.tidy">, sentence: string, canRetry = false): Promise<void> {
  const kept = canRetry ? ` Nothing of it was kept as a clip yet, but its bytes wait here for ${RETRY_DAYS} days: try again.` : " Nothing of it was kept; all other clips are as they were.";
  const refusal = `${sentence}${kept}`;
  await tx.upload.updateMany({ where: { id: upload.id, state: "checking" }, data: { state: "refused", refusal, canRetry, hasPoster: false, finishedAt: now() } });
}

/** What the worker found in the bytes; without `made` the file is kept already, for another player or from before. */
export interface CheckedFile {
  readonly contentHash: string;
  readonly heard: HeardFrames | null;
  readonly made: IngestedVideo | null;
}

/**
 * Makes a clip of an upload, or finds the one that the same bytes made before: file, times, swing, clip and what was
 * heard, all or nothing. @returns false when the upload was settled otherwise meanwhile
 */
export async function admitUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.check">, checked: CheckedFile): Promise<boolean> {
  const { academyId } = upload;
  await tx.$queryRaw`SELECT 1 FROM "Upload" WHERE "id" = ${upload.id}::uuid FOR UPDATE`;
  const row = await tx.upload.findUnique({ where: { id: upload.id } });
  if (row?.state !== "checking") return false;
  const { playerId } = row; // it may have been given to another player since the job began
  if (checked.made) await keepFileRow(tx, academyId, row.byteLength, checked.contentHash, checked.made);
  // Whoever comes second with the same bytes waits here, and finds the first one's clip.
  await tx.$queryRaw`SELECT 1 FROM "MediaFile" WHERE "academyId" = ${academyId}::uuid AND "contentHash" = ${checked.contentHash} FOR UPDATE`;
  const file = await tx.mediaFile.findUniqueOrThrow({ where: { academyId_contentHash: { academyId, contentHash: checked.contentHash } }, include: { frameTimes: true } });
  const known = await tx.clip.findFirst({ where: { academyId, playerId, fileId: file.id }, select: { id: true, swingId: true } });
  const facts = uploadFactsForm.parse(row.facts);
  const clip = known ?? (await createClip(tx, { academyId, playerId }, row, facts, { ...file, times: timesOf(file.frameTimes), heard: checked.heard }));
  await tx.upload.update({
    where: { id: upload.id },
    data: { state: "ready", hasPoster: false, wasKnown: known !== null, contentHash: checked.contentHash, fileId: file.id, clipId: clip.id, finishedAt: now() },
  });
  if (!known) await tellChanged(tx, clip, now());
  if (!known && checked.heard) await wantSuggestions(tx, clip);
  if (checked.made && checked.made.probe.durationS >= LEAST_TO_CUT_SECONDS) await tell(tx, filmKept, { academyId, fileId: file.id }, { key: `swings of ${file.id}` });
  return true;
}

async function keepFileRow(tx: Transaction, academyId: Id, byteLength: bigint, contentHash: string, { probe, times }: IngestedVideo): Promise<void> {
  const id = newId();
  const keys = fileKeys(academyId, contentHash);
  const { container, codec, widthPx, heightPx, rotationDeg, durationS, hasSound, captureFps } = probe;
  const { count } = await tx.mediaFile.createMany({
    data: {
      id, academyId, contentHash, byteLength, container, codec, widthPx, heightPx, rotationDeg, durationS, hasSound, captureFps,
      originalKey: keys.original, steppingKey: keys.stepping, posterKey: keys.poster,
    },
    skipDuplicates: true,
  });
  if (count === 0) return;
  const { timeBaseNum, timeBaseDen, ticks } = times;
  await tx.fileFrameTimes.create({ data: { academyId, fileId: id, timeBaseNum, timeBaseDen, frameCount: ticks.length, packedTicks: packTicks(ticks) } });
}

interface FileForClip {
  readonly id: Id;
  readonly captureFps: number | null;
  readonly times: ReturnType<typeof timesOf>;
  readonly heard: HeardFrames | null;
}

async function createClip(tx: Transaction, owner: ClipOwner, sent: { userId: Id; swingId: Id | null }, facts: UploadFacts, file: FileForClip): Promise<{ id: Id; swingId: Id }> {
  const { academyId, playerId } = owner;
  const { userId: createdById } = sent;
  const { view, isMirrored, filmedRate, hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, filmedOn, ...swing } = facts;
  const time = realTimeOf(file.times, filmedRate, file.captureFps);
  const [swingId, id] = [sent.swingId ?? newId(), newId()];
  if (sent.swingId) await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR UPDATE`;
  else await tx.swing.create({ data: { id: swingId, academyId, playerId, createdById, filmedOn: dayValue(filmedOn), ...swing } });
  await tx.clip.create({
    data: {
      id, academyId, playerId, swingId, createdById, fileId: file.id, firstFrame: 0, lastFrame: file.times.ticks.length - 1,
      view, isMirrored, hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, cameraOffSource: sourceOf(cameraOffDeg),
      ...time,
    },
  });
  if (!file.heard) return { id, swingId };
  // Another camera of a swing finds its release there.
  const release = sent.swingId ? null : heardRelease(file.heard, swing.task, { frameTimes: file.times, ...time });
  const suggested = [{ event: "contact", frameIndex: file.heard.contact, sdSeconds: HEARD_SD_SECONDS }, ...(release ? [{ event: "release", ...release }] : [])];
  await tx.swingEvent.createMany({
    data: suggested.map((it) => ({ academyId, swingId, clipId: id, source: "sound", ...it, tick: BigInt(file.times.ticks[it.frameIndex] ?? 0) })),
  });
  return { id, swingId };
}

// ---- What a coach says of a clip ---------------------------------------------------------------------------------

/** A clip counts its own frames. @throws InvalidError for a frame outside it */
export function insideClip(clip: Pick<ClipSubject, "firstFrame" | "lastFrame">, frameIndex: number): void {
  if (frameIndex < 0 || frameIndex > clip.lastFrame - clip.firstFrame) throw new InvalidError("This frame does not belong to the clip.");
}

/** Tells that something of the swing was changed: readings and stills are made anew. A coach places many points in a row; they are made once, a moment after the last. */
export async function tellChanged(tx: Transaction, { swingId }: Pick<ClipSubject, "swingId">, runAt = new Date(now().getTime() + 2000)): Promise<void> {
  await tell(tx, swingChanged, { swingId }, { key: `readings ${swingId}`, runAt });
  await tell(tx, stillsChanged, { swingId }, { key: `stills ${swingId}`, runAt });
}

export async function setEvent(tx: Transaction, actor: Person, clip: Worked, input: z.infer<typeof setEventForm>): Promise<void> {
  const { event, frameIndex } = input;
  insideClip(clip, frameIndex);
  await refuseOvertakenEvent(tx, actor, clip, input);
  const times = timesOf(await tx.fileFrameTimes.findUnique({ where: { academyId_fileId: { academyId: clip.academyId, fileId: clip.fileId } } }));
  const tick = times.ticks[clip.firstFrame + frameIndex];
  if (tick === undefined) throw new InvalidError("This frame does not belong to the clip.");
  if (event !== "contact") await takeFromOtherClip(tx, clip, event);
  const key = { academyId: clip.academyId, clipId: clip.id, event, source: "placed" };
  const said = { swingId: clip.swingId, frameIndex, tick: BigInt(tick), setById: actor.userId, setAt: now() };
  await tx.swingEvent.upsert({ where: { academyId_clipId_event_source: key }, create: { ...key, ...said }, update: said });
  await tellChanged(tx, clip);
  await wantSuggestions(tx, clip);
}

/** An event stands on the clip on which it was set last. @throws ConflictError when this clip cannot be lined up with that one */
async function takeFromOtherClip(tx: Transaction, clip: Worked, event: string): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${clip.swingId}::uuid FOR UPDATE`;
  const { academyId, swingId, id: clipId } = clip;
  const { count } = await tx.swingEvent.deleteMany({ where: { academyId, swingId, event, source: "placed", clipId: { not: clipId } } });
  if (count === 0) return;
  const contact = await tx.swingEvent.findFirst({ where: { academyId, clipId, event: "contact" }, select: { event: true } });
  if (!contact) throw new ConflictError("It is set on another clip of this swing. Set contact on this clip first: the clips are lined up by it.");
}

/** Takes back what a coach said of the swing, or of contact on this clip; a suggestion stays where it was. */
export async function clearEvent(tx: Transaction, actor: Person, clip: Worked, input: z.infer<typeof clearEventForm>): Promise<void> {
  const { event } = input;
  await refuseOvertakenEvent(tx, actor, clip, input);
  const { academyId, swingId, id: clipId } = clip;
  await tx.swingEvent.deleteMany({ where: { academyId, swingId, event, source: "placed", ...(event === "contact" ? { clipId } : {}) } });
  await tellChanged(tx, clip);
}

export async function placePoint(tx: Transaction, actor: Person, clip: Worked, input: z.infer<typeof placePointForm>): Promise<void> {
  const { frameIndex, point, x, y } = input;
  insideClip(clip, frameIndex);
  const file = await tx.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, select: { widthPx: true, heightPx: true } });
  if (!(x >= 0 && x <= file.widthPx && y >= 0 && y <= file.heightPx)) throw new InvalidError("This place lies outside the picture.");
  await refuseOvertakenPoints(tx, actor, clip, frameIndex, [input]);
  const key = { academyId: clip.academyId, clipId: clip.id, frameIndex, point, source: "placed" };
  const said = { xPx: x, yPx: y, followedSdPx: null, setById: actor.userId, setAt: now() };
  await tx.clipPoint.upsert({ where: { academyId_clipId_frameIndex_point_source: key }, create: { ...key, ...said }, update: said });
  await tx.unseenPoint.deleteMany({ where: { academyId: clip.academyId, clipId: clip.id, frameIndex, point } });
  await tellChanged(tx, clip);
}

/** Takes back what a coach said of a point on a frame, its place or that it cannot be seen. */
export async function removePoint(tx: Transaction, actor: Person, clip: Worked, input: z.infer<typeof pointForm>): Promise<void> {
  const { frameIndex, point } = input;
  await refuseOvertakenPoints(tx, actor, clip, frameIndex, [input]);
  const where = { academyId: clip.academyId, clipId: clip.id, frameIndex, point };
  await tx.clipPoint.deleteMany({ where: { ...where, source: "placed" } });
  await tx.unseenPoint.deleteMany({ where });
  await tellChanged(tx, clip);
}

export async function markPointUnseen(tx: Transaction, actor: Person, clip: Worked, input: z.infer<typeof pointForm>): Promise<void> {
  const { frameIndex, point } = input;
  insideClip(clip, frameIndex);
  await refuseOvertakenPoints(tx, actor, clip, frameIndex, [input]);
  const key = { academyId: clip.academyId, clipId: clip.id, frameIndex, point };
  await tx.clipPoint.deleteMany({ where: { ...key, source: "placed" } });
  const said = { setById: actor.userId, setAt: now() };
  await tx.unseenPoint.upsert({ where: { academyId_clipId_frameIndex_point: key }, create: { ...key, ...said }, update: said });
  await tellChanged(tx, clip);
}

// ---- Two writers -------------------------------------------------------------------------------------------------

/** @throws OvertakenError when the event no longer stands where the sender saw it */
async function refuseOvertakenEvent(tx: Transaction, actor: Person, clip: Worked, { event, was }: z.infer<typeof clearEventForm>): Promise<void> {
  if (was === undefined) return;
  const { academyId, swingId, id: clipId } = clip;
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR NO KEY UPDATE`;
  const row = await tx.swingEvent.findFirst({ where: { academyId, swingId, event, source: "placed", ...(event === "contact" ? { clipId } : {}) } });
  if (row?.clipId === was?.clipId && row?.frameIndex === was?.frameIndex) return;
  throw new OvertakenError(await saidMeanwhile(tx, actor, row, row ? "set it on another frame" : "cleared"));
}

/** Whoever changes points of a clip waits for whoever changes some now. */
export async function holdPoints(tx: Transaction, clip: Pick<ClipSubject, "id">): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM "Clip" WHERE "id" = ${clip.id}::uuid FOR NO KEY UPDATE`;
}

/** @throws OvertakenError when what is said of one of the points on the frame is no longer what the sender saw */
export async function refuseOvertakenPoints(tx: Transaction, actor: Person, clip: Worked, frameIndex: number, points: readonly Pick<z.infer<typeof pointForm>, "point" | "was">[]): Promise<void> {
  await refuseOvertakenPlaces(tx, actor, clip, points.map((it) => ({ ...it, frameIndex })));
}

/** The same for points of several frames. @throws OvertakenError when what is said of one of them is no longer what the sender saw */
export async function refuseOvertakenPlaces(tx: Transaction, actor: Person, clip: Worked, places: readonly Pick<z.infer<typeof pointForm>, "frameIndex" | "point" | "was">[]): Promise<void> {
  const said = places.filter(({ was }) => was !== undefined);
  if (said.length === 0) return;
  await holdPoints(tx, clip);
  const where = { academyId: clip.academyId, clipId: clip.id, frameIndex: { in: said.map((it) => it.frameIndex) }, point: { in: said.map(({ point }) => point) } };
  const placedNow = await tx.clipPoint.findMany({ where: { ...where, source: "placed" } });
  const unseenNow = await tx.unseenPoint.findMany({ where });
  for (const { frameIndex, point, was } of said) {
    const isIt = (row: { readonly frameIndex: number; readonly point: string }) => row.frameIndex === frameIndex && row.point === point;
    const placed = placedNow.find(isIt);
    const unseen = placed ? undefined : unseenNow.find(isIt);
    const isSame = was == null ? !placed && !unseen : was === "unseen" ? unseen !== undefined : placed?.xPx === was.x && placed.yPx === was.y;
    if (isSame) continue;
    throw new OvertakenError(await saidMeanwhile(tx, actor, placed ?? unseen ?? null, placed ? "placed it" : unseen ? "said that it cannot be seen" : "taken away"));
  }
}

/** Who changed it since the sender looked, and when: "Ana Reed placed it at 3:12 PM." Nobody is known of what was taken away. */
async function saidMeanwhile(tx: Transaction, actor: Person, row: { readonly setById: string | null; readonly setAt: Date } | null, did: string): Promise<string> {
  if (!row) return `Meanwhile it was ${did}.`;
  const by = row.setById ? await tx.user.findUnique({ where: { id: row.setById }, select: { displayName: true } }) : null;
  const who = row.setById === actor.userId ? "In another window you" : (by?.displayName ?? "Somebody");
  return `${who} ${did} at ${timeOfDay(row.setAt, actor.timeZone)}.`;
}

const MOST_MARKS_ON_A_FRAME = 40;

export async function addMark(tx: Transaction, actor: Person, clip: Worked, { frameIndex, shape }: z.infer<typeof addMarkForm>): Promise<Id> {
  insideClip(clip, frameIndex);
  const count = await tx.mark.count({ where: { academyId: clip.academyId, clipId: clip.id, frameIndex, removedAt: null } });
  if (count >= MOST_MARKS_ON_A_FRAME) throw new ConflictError(`There are ${MOST_MARKS_ON_A_FRAME} marks on this frame already. Remove one first.`);
  const id = newId();
  await tx.mark.create({ data: { id, academyId: clip.academyId, clipId: clip.id, frameIndex, shape, createdById: actor.userId } });
  return id;
}

export async function removeMark(tx: Transaction, mark: Granted<MarkSubject, "mark.remove">): Promise<void> {
  await tx.mark.update({ where: { id: mark.markId }, data: { removedAt: now() } });
}

// ---- How a clip was filmed ---------------------------------------------------------------------------------------

const sourceOf = (statedDeg: number | null) => (statedDeg === null ? null : "stated");

/**
 * Corrects from where and how a clip was filmed. An answer that was not touched changes nothing: the angle of the camera keeps
 * its sign, doubt and source, and a time that was stated more closely stays.
 */
export async function setClipFacts(tx: Transaction, clip: Worked, input: z.infer<typeof setClipFactsForm>): Promise<void> {
  const { view, isMirrored, filmedRate, hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg } = input;
  const before = await tx.clip.findUniqueOrThrow({ where: { id: clip.id }, include: { file: { include: { frameTimes: true } } } });
  const times = timesOfClip(before);
  const kept = { realSecondsPerFileSecond: before.realSecondsPerFileSecond, timeBasis: before.timeBasis as RealTime["timeBasis"] };
  const time = filmedRateOf(times, kept) === filmedRate ? kept : realTimeOf(times, filmedRate, before.file.captureFps);
  const isSame = cameraOffDeg === (before.cameraOffDeg === null ? null : writtenDeg(before.cameraOffDeg));
  // What was told from the picture holds for its view only.
  const isTold = before.cameraOffSource === "plate" || before.cameraOffSource === "widths";
  const isOtherPicture = view !== before.view || isMirrored !== before.isMirrored;
  const line = !isSame ? lineRow(cameraOffDeg, null, sourceOf(cameraOffDeg)) : isTold && isOtherPicture ? lineRow(null, null, null) : {};
  await tx.clip.update({ where: { id: clip.id }, data: { view, isMirrored, hasCameraMoved, hasCameraZoomed, isStabilised, ...line, ...time } });
  await tellChanged(tx, clip);
  // In a mirrored file the model took each side of the body for the other.
  if (isMirrored !== before.isMirrored) await dropSuggestions(tx, clip);
  await wantSuggestions(tx, clip);
}

function lineRow(cameraOffDeg: number | null, cameraOffSdDeg: number | null, cameraOffSource: "stated" | "widths" | null) {
  return { cameraOffDeg, cameraOffSdDeg, cameraOffSource, plateMark: Prisma.DbNull };
}

/** Keeps where the camera stood; what the picture tells is worked out here, from the marked corners or the placed points. */
export async function setCameraLine(tx: Transaction, clip: Worked, input: z.infer<typeof setCameraLineForm>): Promise<void> {
  const data = await lineOf(tx, clip, input);
  await tx.clip.update({ where: { id: clip.id }, data });
  await tellChanged(tx, clip);
}

async function lineOf(tx: Transaction, clip: Worked, input: z.infer<typeof setCameraLineForm>) {
  if (input.source === "unknown") return lineRow(null, null, null);
  if (input.source === "stated") return lineRow(input.offDeg, null, "stated");
  const page = await readSwingPage(tx, clip.swingId, dayOf(now()));
  const view = page.clips.find((it) => it.clip.id === clip.id)?.clip;
  if (!view) throw new NotFoundError("clip");
  const isPlate = input.source === "plate";
  if (isPlate) insideClip(clip, input.plateMark.frameIndex);
  const { line, reason } = cameraLineOf(view, isPlate ? input.plateMark.corners : null);
  if (!line) throw new InvalidError(`Nothing was kept: ${reason}.`);
  const told = lineRow(line.offDeg, line.sdDeg, "widths");
  return isPlate ? { ...told, cameraOffSource: "plate", plateMark: input.plateMark } : told;
}

/** Keeps how file time becomes real time. What the file itself says can only be gone back to, not be stated. */
export async function setClipTime(tx: Transaction, clip: Worked, { realSecondsPerFileSecond, timeBasis }: z.infer<typeof setClipTimeForm>): Promise<void> {
  const file = await tx.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, include: { frameTimes: true } });
  const time = timeBasis === "measured" ? realTimeOf(timesOfClip({ ...clip, file }), "as-file", file.captureFps) : { realSecondsPerFileSecond, timeBasis };
  await tx.clip.update({ where: { id: clip.id }, data: time });
  await tellChanged(tx, clip);
  await wantSuggestions(tx, clip);
}
