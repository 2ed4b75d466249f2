import type { Granted } from "@/lib/access/ability";
import { ConflictError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { Prisma, type Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { tellChanged } from "../commands";
import { shownOn } from "../models/scope";
import type { ClipSubject } from "../policy";
import { forgetSent } from "../sent/commands";
import { clipErased, fileDropped } from "./events";

/** Whoever enters or erases the bytes of a file waits for whoever does so now, until the transaction ends. */
export async function holdFile(tx: Transaction, academyId: Id, contentHash: string): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM pg_advisory_xact_lock(hashtextextended(${`${academyId}/${contentHash}`}, 0))`;
}

/**
 * Erases a clip with everything that is kept of it, in one transaction: events, points, marks, stills, looks, readings, own bests, its upload; with
 * the swing's last clip the swing and its calls. A note that was sent keeps its words and loses the picture. The bytes go when no other clip
 * rests on the file. @returns whether the swing is gone too
 * @throws ConflictError while the swing is shown as a model
 */
export async function eraseClip(tx: Transaction, clip: Granted<ClipSubject, "clip.erase">, today: string): Promise<{ isSwingGone: boolean }> {
  const { academyId, swingId, fileId, id: clipId } = clip;
  await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR UPDATE`;
  const isSwingGone = (await tx.clip.count({ where: { academyId, swingId, id: { not: clipId } } })) === 0;
  if (isSwingGone && (await tx.modelSwing.count({ where: { academyId, swingId, ...shownOn(today) } })) > 0) {
    throw new ConflictError("This swing is shown as a model. Nothing was erased. The head coach can withdraw the model first.");
  }
  const ofClip = { academyId, clipId };
  await tx.note.updateMany({ where: ofClip, data: { clipId: null } });
  await tx.observation.updateMany({ where: { academyId, swingId, clipId }, data: { clipId: null, frameIndex: null, reading: Prisma.DbNull } });
  await tx.reading.deleteMany({ where: ofClip });
  await tx.ownBest.deleteMany({ where: ofClip });
  await tx.mediaRead.deleteMany({ where: ofClip });
  await tx.clipStills.deleteMany({ where: ofClip });
  await tx.mark.deleteMany({ where: ofClip });
  await tx.unseenPoint.deleteMany({ where: ofClip });
  await tx.clipPoint.deleteMany({ where: ofClip });
  await tx.swingEvent.deleteMany({ where: ofClip });
  await forgetSent(tx, academyId, { clipId });
  await tx.sentClip.updateMany({ where: ofClip, data: { clipId: null, frameIndex: null } });
  await tx.upload.deleteMany({ where: ofClip });
  await tx.clip.delete({ where: { id: clipId } });
  if (isSwingGone) await eraseSwing(tx, academyId, swingId);
  else await tellChanged(tx, clip);
  await dropFileWithoutClip(tx, academyId, fileId);
  await tell(tx, clipErased, { academyId, clipId });
  return { isSwingGone };
}

/** What is left of a swing without a clip. Another camera's film that is still on its way becomes a swing of its own. */
async function eraseSwing(tx: Transaction, academyId: Id, swingId: Id): Promise<void> {
  const ofSwing = { academyId, swingId };
  await tx.upload.updateMany({ where: ofSwing, data: { swingId: null } });
  await tx.observation.deleteMany({ where: ofSwing });
  await tx.modelSwing.deleteMany({ where: ofSwing });
  await tx.swing.delete({ where: { id: swingId } });
}

async function dropFileWithoutClip(tx: Transaction, academyId: Id, fileId: Id): Promise<void> {
  const [file] = await tx.$queryRaw<{ contentHash: string }[]>`SELECT "contentHash" FROM "MediaFile" WHERE "academyId" = ${academyId}::uuid AND "id" = ${fileId}::uuid FOR UPDATE`;
  if (!file || (await tx.clip.count({ where: { academyId, fileId } })) > 0) return;
  await tx.fileFrameTimes.deleteMany({ where: { academyId, fileId } });
  await tx.mediaFile.delete({ where: { id: fileId } });
  await tell(tx, fileDropped, { academyId, contentHash: file.contentHash });
}
