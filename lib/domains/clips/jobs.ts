import { createReadStream } from "node:fs";
import { authorize, type Granted } from "@/lib/access/ability";
import { defineJob, DONE, skipped, type JobOutcome } from "@/lib/access/define-job";
import type { Id } from "@/lib/core/ids";
import { blobs } from "@/lib/platform/blobs";
import { todayIn } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { StoreFullError } from "@/lib/platform/store-errors";
import { dropReceived, fileKeys, receivedKey, receivedPosterKey } from "@/lib/platform/video/incoming";
import { hashOf, hearFrames, ingestVideo } from "@/lib/platform/video/ingest";
import { VideoRefused } from "@/lib/platform/video/refusal";
import { ToolFailed, type Container } from "@/lib/platform/video/run-tool";
import { inWorkFolder } from "@/lib/platform/work-folder";
import { notePoster } from "./arriving/commands";
import { NO_ROOM, OUR_SIDE } from "./arriving/rules";
import { admitUpload, refuseUpload, type CheckedFile } from "./commands";
import { holdFile } from "./erasing/commands";
import { uploadReceived } from "./events";
import { checkUpload, type UploadSubject } from "./policy";
import { findUploadSubject, lessonPermitOn, timesOf } from "./scope";

type Checked = Granted<UploadSubject, "upload.check">;

/** What is wrong is known, and trying again would end the same way. */
class Refused extends Error {}

/**
 * Makes a clip of what arrived, or refuses it with a sentence. Everything is made beside the record and entered in one
 * transaction, so that a worker that is killed leaves nothing half-made, and running again starts over.
 */
export const checkReceivedUpload = defineJob(uploadReceived, async ({ payload, actor, isLastTry }): Promise<JobOutcome> => {
  const found = await findUploadSubject(database(), { id: payload.uploadId });
  if (!found) return skipped("the upload is gone");
  const upload = authorize(actor, checkUpload, found);
  if (upload.state !== "checking") {
    await dropReceived(upload.id);
    return skipped(`the upload is ${upload.state}`);
  }
  try {
    const isAdmitted = await inWorkFolder(async (folder) => admit(upload, await check(upload, folder)));
    await dropReceived(upload.id);
    return isAdmitted ? DONE : skipped("the upload was settled meanwhile");
  } catch (error) {
    const isTheFile = error instanceof VideoRefused || error instanceof Refused;
    if (!isTheFile && !isLastTry) throw error;
    if (!isTheFile) log().error({ uploadId: upload.id, err: error }, "an upload could not be looked at");
    const sentence = isTheFile ? error.message : isNoRoom(error) ? NO_ROOM : OUR_SIDE;
    await inTransaction((tx) => refuseUpload(tx, upload, sentence, !isTheFile));
    if (isTheFile) await dropReceived(upload.id);
    return DONE;
  }
});

const isNoRoom = (error: unknown) => error instanceof StoreFullError || (error instanceof ToolFailed && error.isDiskFull);

/** A film whose consent was taken back while it was on its way is not looked into. @throws Refused */
async function refuseWithoutConsent({ academyId, playerId }: Checked): Promise<void> {
  const { timeZone } = await database().academy.findUniqueOrThrow({ where: { id: academyId }, select: { timeZone: true } });
  const count = await database().permit.count({ where: { academyId, playerId, ...lessonPermitOn(todayIn(timeZone)) } });
  if (count === 0) throw new Refused("The yes to filming for lessons ended while the video was on its way.");
}

async function check(upload: Checked, folder: string): Promise<CheckedFile> {
  await refuseWithoutConsent(upload);
  const received = receivedKey(upload.id);
  const length = await blobs().lengthOf(received);
  if (length === null) throw new Refused("The video did not arrive. Please send it again.");
  if (length !== upload.byteLength) throw new Refused("The video did not arrive whole. Please send it again.");
  const contentHash = await hashOf(blobs().read(received));
  const declared = await database().upload.findUnique({ where: { id: upload.id }, select: { contentHash: true } });
  if (declared?.contentHash && declared.contentHash !== contentHash) throw new Refused("The video changed on its way. Please send it again.");

  const kept = await database().mediaFile.findUnique({
    where: { academyId_contentHash: { academyId: upload.academyId, contentHash } },
    include: { frameTimes: true },
  });
  return blobs().withFile(received, async (file) => {
    // A file whose bytes were lost is made whole again by whoever sends it once more.
    if (kept && (await areKept(upload.academyId, contentHash))) {
      const heard = kept.hasSound ? await hearFrames(file, timesOf(kept.frameTimes), kept.container as Container) : null;
      return { contentHash, made: null, heard };
    }
    const made = await ingestVideo(file, folder, (poster) => showEarly(upload, poster));
    await keepCopies(upload.academyId, contentHash, received, made);
    return { contentHash, made, heard: made.heard };
  });
}

/** The poster stands beside what arrived, so that it can be looked at while the stepping copy is made. */
async function showEarly(upload: Checked, poster: string): Promise<void> {
  await blobs().keepStream(receivedPosterKey(upload.id), createReadStream(poster));
  await inTransaction((tx) => notePoster(tx, upload));
}

async function areKept(academyId: Id, contentHash: string): Promise<boolean> {
  const { original, stepping, poster } = fileKeys(academyId, contentHash);
  for (const key of [original, stepping, poster]) if ((await blobs().lengthOf(key)) === null) return false;
  return true;
}

async function keepCopies(academyId: Id, contentHash: string, received: string, made: { steppingPath: string; posterPath: string }): Promise<void> {
  const keys = fileKeys(academyId, contentHash);
  await blobs().keepFile(keys.stepping, made.steppingPath);
  await blobs().keepFile(keys.poster, made.posterPath);
  await blobs().keepStream(keys.original, blobs().read(received));
}

/** Enters what was made. Whoever erases the same file waits or has finished, and then its bytes are made anew by the next try. */
function admit(upload: Checked, checked: CheckedFile): Promise<boolean> {
  return inTransaction(async (tx) => {
    await holdFile(tx, upload.academyId, checked.contentHash);
    if (!(await areKept(upload.academyId, checked.contentHash))) throw new Error("the copies were taken away meanwhile");
    return admitUpload(tx, upload, checked);
  });
}
