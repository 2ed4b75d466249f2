import type { Granted } from "@/lib/access/ability";
import { ConflictError } from "@/lib/core/errors";
import { now } from "@/lib/platform/clock";
import { database, inTransaction, type Transaction } from "@/lib/platform/database";
import { stateOfTold, tell } from "@/lib/platform/queue";
import { arrivedOf, dropReceived, keepReceived } from "@/lib/platform/video/incoming";
import { receiveUpload, refuseUpload } from "../commands";
import { uploadReceived } from "../events";
import type { UploadSubject } from "../policy";
import { checkKey, HALF_SENT_HOURS, OUR_SIDE } from "./rules";

type Sent = Granted<UploadSubject, "upload.send">;
type Tidied = Granted<UploadSubject, "upload.tidy">;

/** Takes over an upload whose bytes are all here, whoever notices first. @returns false when some are missing, or the sending was ended */
export async function receiveIfArrived(upload: Sent | Tidied): Promise<boolean> {
  if ((await arrivedOf(upload.id))?.byteLength !== upload.byteLength) return false;
  await keepReceived(upload.id);
  try {
    await inTransaction((tx) => receiveUpload(tx, upload));
    return true;
  } catch (error) {
    if (!(error instanceof ConflictError)) throw error;
    const row = await database().upload.findUnique({ where: { id: upload.id }, select: { state: true } });
    if (row?.state === "checking" || row?.state === "ready") return true;
    await dropReceived(upload.id);
    return false;
  }
}

/** The bytes that wait here are looked at once more. @throws ConflictError when there is nothing to try again */
export async function retryUpload(tx: Transaction, upload: Granted<UploadSubject, "upload.retry">): Promise<void> {
  const again = { state: "checking", refusal: null, canRetry: false, finishedAt: null, dismissedAt: null };
  const { count } = await tx.upload.updateMany({ where: { id: upload.id, state: "refused", canRetry: true }, data: again });
  if (count !== 1) throw new ConflictError("There is nothing here to try again. Please send the video anew.");
  await tell(tx, uploadReceived, { uploadId: upload.id }, { key: checkKey(upload.id) });
}

/** The picture that stands for a film is there before the film can be stepped. */
export async function notePoster(tx: Transaction, upload: Granted<UploadSubject, "upload.check">): Promise<void> {
  await tx.upload.updateMany({ where: { id: upload.id, state: "checking" }, data: { hasPoster: true } });
}

/** Puts a half-sent film away of which no byte came for two days, with a sentence for who sent it. */
export async function putAwayHalfSent(upload: Tidied): Promise<void> {
  const refusal = `Only a part of this video arrived, and nothing more for ${HALF_SENT_HOURS} hours. Nothing of it was kept; please send it again.`;
  await database().upload.updateMany({ where: { id: upload.id, state: "receiving" }, data: { state: "refused", refusal, finishedAt: now() } });
  await dropReceived(upload.id);
}

/**
 * A film that waits to be looked at while nobody is told to look is told of again; one over which the worker fell each time is refused with
 * a sentence. @returns whether it had been forgotten
 */
export async function tellAgain(upload: Tidied): Promise<boolean> {
  return inTransaction(async (tx) => {
    const told = await stateOfTold(tx, checkKey(upload.id));
    if (told === "waiting") return false;
    const row = await tx.upload.findUnique({ where: { id: upload.id }, select: { state: true } });
    if (row?.state !== "checking") return false;
    if (told === "given-up") await refuseUpload(tx, upload, OUR_SIDE, true);
    else await tell(tx, uploadReceived, { uploadId: upload.id }, { key: checkKey(upload.id) });
    return true;
  });
}

/** The time for another try is over: the bytes go, the sentence stays. */
export async function endRetry(upload: Tidied): Promise<void> {
  const { count } = await database().upload.updateMany({ where: { id: upload.id, state: "refused" }, data: { canRetry: false } });
  if (count === 1) await dropReceived(upload.id);
}
