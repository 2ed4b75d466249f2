import path from "node:path";
import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { ConflictError, InvalidError, NotFoundError } from "@/lib/core/errors";
import { realTimeOf } from "@/lib/core/filmed-rate";
import { newId, type Id } from "@/lib/core/ids";
import { blobs } from "@/lib/platform/blobs";
import { now } from "@/lib/platform/clock";
import type { Database, Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { HEARD_SD_SECONDS } from "@/lib/platform/video/hear-contact";
import { fileKeys } from "@/lib/platform/video/incoming";
import { makeStretch } from "@/lib/platform/video/make-stretch";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { tellChanged } from "../commands";
import { sideAt } from "../owner/commands";
import type { ClipOwner, ClipSubject } from "../policy";
import { timesOf, timesOfClip } from "../scope";
import { forgetSent } from "../sent/commands";
import { wantSuggestions } from "../suggested/commands";
import { filmKept } from "./events";
import { LEAST_FRAMES, snapped } from "./rules";
import type { CutFilm, CutInput } from "./schema";
import { isWorkedOn } from "./scope";

type Cutting = Granted<ClipSubject, "clip.cut">;

/** Asks the worker to look for swings in a film. */
export async function askForSwings(tx: Transaction, { academyId, fileId }: Pick<ClipSubject, "academyId" | "fileId">): Promise<void> {
  await tell(tx, filmKept, { academyId, fileId }, { key: `swings of ${fileId}` });
}

/**
 * Makes a swing of each cut, at the player it was given to. The clip of the whole film goes, unless somebody worked on it; a film that shows two
 * players is then not cut, since the whole of it would stay at one of them. A cut that is there already is not made twice.
 */
export async function cutClip(tx: Transaction, actor: Person, clip: Cutting, cuts: readonly CutInput[], owners: ReadonlyMap<Id, Granted<ClipOwner, "clip.add">>): Promise<CutFilm> {
  const { academyId, id: clipId, swingId, fileId } = clip;
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR UPDATE`;
  const row = await readWhole(tx, clipId);
  if (row?.swingId !== swingId) throw new NotFoundError("clip");
  const isWholeKept = await isWorkedOn(tx, row);
  if (isWholeKept && cuts.some(({ playerId }) => playerId !== clip.playerId)) {
    throw new ConflictError("Something was placed on the whole film, so it stays where it is, and would show the other player there. Nothing was cut. Move or clear it first.");
  }
  const whole = timesOfClip(row);
  const made: { readonly id: Id; readonly swingId: Id; readonly playerId: Id }[] = [];
  for (const input of cuts) {
    const cut = snapped(input, whole.ticks.length);
    if (cut.lastFrame - cut.firstFrame + 1 < LEAST_FRAMES) throw new InvalidError("One of the cuts is too short to hold a swing. Nothing was cut.");
    const owner = owners.get(input.playerId);
    if (!owner) throw new NotFoundError("player");
    const [firstFrame, lastFrame] = [row.firstFrame + cut.firstFrame, row.firstFrame + cut.lastFrame];
    const here = await tx.clip.findFirst({ where: { academyId, fileId, playerId: input.playerId, firstFrame, lastFrame, id: { not: clipId } }, select: { id: true, swingId: true, playerId: true } });
    made.push(here ?? (await createCut(tx, actor, owner, input, { row, firstFrame, lastFrame })));
  }
  if (!isWholeKept) await removeWhole(tx, clip, made);
  for (const it of made) {
    await tellChanged(tx, it, now());
    await wantSuggestions(tx, it);
  }
  return { swingIds: [...new Set(made.map((it) => it.swingId))], isWholeKept };
}

type WholeRow = NonNullable<Awaited<ReturnType<typeof readWhole>>>;
const readWhole = (tx: Transaction, id: Id) => tx.clip.findFirst({ where: { id }, include: { swing: true, file: { include: { frameTimes: true } } } });

async function createCut(tx: Transaction, actor: Person, owner: Granted<ClipOwner, "clip.add">, input: CutInput, at: { readonly row: WholeRow; readonly firstFrame: number; readonly lastFrame: number }) {
  const { row, firstFrame, lastFrame } = at;
  const { academyId, playerId } = owner;
  const side = await sideAt(tx, actor, owner, input.side ?? (row.swing.side as "right" | "left"));
  const { swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass, filmedOn } = row.swing;
  const { view, isMirrored, hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, cameraOffSdDeg, cameraOffSource, realSecondsPerFileSecond, timeBasis } = row;
  const times = timesOfClip({ firstFrame, lastFrame, file: row.file });
  // A stretch of a film that is slow in part may be even where the whole is not.
  const time = timeBasis === "stated" ? { realSecondsPerFileSecond, timeBasis } : realTimeOf(times, "as-file", row.file.captureFps);
  const [swingId, id] = [newId(), newId()];
  await tx.swing.create({
    data: {
      id: swingId, academyId, playerId, side, createdById: actor.userId, filmedOn, swingKind: swingKind === "running-slap" && side !== "left" ? "power" : swingKind, effort, pitchSpeed, batClass,
      task: input.task ?? task, pitchHeight: input.pitchHeight ?? pitchHeight, pitchSide: input.pitchSide ?? pitchSide,
    },
  });
  await tx.clip.create({
    data: {
      id, academyId, playerId, swingId, fileId: row.fileId, firstFrame, lastFrame, createdById: actor.userId, view, isMirrored, hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, cameraOffSdDeg,
      cameraOffSource: cameraOffSource === "plate" ? "widths" : cameraOffSource, ...time,
    },
  });
  const contact = input.contactFrame === null ? null : row.firstFrame + input.contactFrame;
  if (contact !== null && contact >= firstFrame && contact <= lastFrame) {
    const tick = BigInt(timesOf(row.file.frameTimes).ticks[contact] ?? 0);
    await tx.swingEvent.create({ data: { academyId, swingId, clipId: id, event: "contact", source: "sound", frameIndex: contact - firstFrame, tick, sdSeconds: HEARD_SD_SECONDS } });
  }
  return { id, swingId, playerId };
}

/** Takes the clip of the whole film away, on which nobody worked. Who looked at it has looked at each of its cuts. */
async function removeWhole(tx: Transaction, clip: Cutting, made: readonly { readonly id: Id; readonly playerId: Id }[]): Promise<void> {
  const { academyId, id: clipId, swingId, playerId } = clip;
  const ofClip = { academyId, clipId };
  const reads = await tx.mediaRead.findMany({ where: ofClip });
  await tx.mediaRead.createMany({ data: reads.flatMap((read) => made.map(({ id }) => ({ ...read, clipId: id }))), skipDuplicates: true });
  await tx.mediaRead.deleteMany({ where: ofClip });
  await tx.reading.deleteMany({ where: ofClip });
  await tx.swingEvent.deleteMany({ where: ofClip });
  await tx.clipPoint.deleteMany({ where: ofClip });
  await tx.mark.deleteMany({ where: ofClip });
  await tx.clipStills.deleteMany({ where: ofClip });
  const heir = made.find((it) => it.playerId === playerId) ?? made[0];
  if (heir && heir.playerId !== playerId) await forgetSent(tx, academyId, { clipId });
  if (heir) await tx.upload.updateMany({ where: ofClip, data: { clipId: heir.id, playerId: heir.playerId, swingId: null } });
  await tx.upload.updateMany({ where: { academyId, swingId }, data: { swingId: null } });
  await tx.clip.delete({ where: { id: clipId } });
  await tx.swing.delete({ where: { id: swingId } });
}

/** Where a clip's pictures lie, and how they are called in a browser's cache. */
export interface ClipPictures {
  readonly keys: ReturnType<typeof fileKeys>;
  readonly steppingKey: string;
  /** Null when the poster of the file is another clip's as well: then a still of this clip stands for it. */
  readonly posterKey: string | null;
  readonly tag: string;
}

/** The pictures of a clip. Those of a stretch are cut from the film's copy when they are asked for first. */
export async function readPictures(db: Database, clip: Pick<ClipSubject, "academyId" | "fileId" | "firstFrame" | "lastFrame">): Promise<ClipPictures> {
  const { academyId, firstFrame, lastFrame } = clip;
  const file = await db.mediaFile.findUniqueOrThrow({ where: { id: clip.fileId }, select: { contentHash: true, steppingKey: true, posterKey: true, frameTimes: { select: { frameCount: true } } } });
  const { contentHash, steppingKey, posterKey, frameTimes } = file;
  if (firstFrame === 0 && lastFrame === (frameTimes?.frameCount ?? 0) - 1) return { keys: fileKeys(academyId, contentHash), steppingKey, posterKey, tag: contentHash };
  const keys = fileKeys(academyId, contentHash, { firstFrame, lastFrame });
  if ((await blobs().lengthOf(keys.stepping)) === null && (await blobs().lengthOf(steppingKey)) !== null) await keepStretch(db, clip, steppingKey, keys.stepping);
  return { keys, steppingKey: keys.stepping, posterKey: null, tag: `${contentHash}-${firstFrame}-${lastFrame}` };
}

async function keepStretch(db: Database, clip: Parameters<typeof readPictures>[1], from: string, key: string): Promise<void> {
  const times = timesOf(await db.fileFrameTimes.findUnique({ where: { academyId_fileId: { academyId: clip.academyId, fileId: clip.fileId } } }));
  await inWorkFolder(async (folder) => {
    const made = path.join(folder, "stretch.mp4");
    await blobs().withFile(from, (copy) => makeStretch(copy, times, clip, made));
    await blobs().keepFile(key, made);
  });
}
