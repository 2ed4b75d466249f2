import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { authorize, type Granted } from "@/lib/access/ability";
import { defineJob, DONE, skipped, type JobOutcome } from "@/lib/access/define-job";
import type { Id } from "@/lib/core/ids";
import { blobs } from "@/lib/platform/blobs";
import { database, inTransaction } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { dropReceived, fileKeys, receivedKey } from "@/lib/platform/video/incoming";
import { hashOf, hearFrames, ingestVideo } from "@/lib/platform/video/ingest";
import { VideoRefused } from "@/lib/platform/video/refusal";
import { admitUpload, refuseUpload, type CheckedFile } from "./commands";
import { uploadReceived } from "./events";
import { checkUpload, type UploadSubject } from "./policy";
import { findUploadSubject, timesOf } from "./scope";

type Checked = Granted<UploadSubject, "upload.check">;

/** What is wrong is known, and trying again would end the same way. */
class Refused extends Error {}

const OUR_SIDE = "The video could not be opened, and the reason lies on our side. Please send it again later.";

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
    const isAdmitted = await inFolder(async (folder) => {
      const checked = await check(upload, folder);
      return inTransaction((tx) => admitUpload(tx, upload, checked));
    });
    await dropReceived(upload.id);
    return isAdmitted ? DONE : skipped("the upload was settled meanwhile");
  } catch (error) {
    const sentence = error instanceof VideoRefused || error instanceof Refused ? error.message : isLastTry ? OUR_SIDE : null;
    if (sentence === null) throw error;
    if (sentence === OUR_SIDE) log().error({ uploadId: upload.id, err: error }, "an upload could not be looked at");
    await inTransaction((tx) => refuseUpload(tx, upload, sentence));
    await dropReceived(upload.id);
    return DONE;
  }
});

async function check(upload: Checked, folder: string): Promise<CheckedFile> {
  const received = receivedKey(upload.id);
  const length = await blobs().lengthOf(received);
  if (length === null) throw new Refused("The video did not arrive. Please send it again.");
  if (length !== upload.byteLength) throw new Refused("The video did not arrive whole. Please send it again.");
  const contentHash = await hashOf(blobs().read(received));
  const declared = await database().upload.findUnique({ where: { id: upload.id }, select: { contentHash: true } });
  if (declared?.contentHash && declared.contentHash !== contentHash) throw new Refused("The video changed on its way. Please send it again.");

  const file = await blobs().pathOf(received);
  const kept = await database().mediaFile.findUnique({
    where: { academyId_contentHash: { academyId: upload.academyId, contentHash } },
    include: { frameTimes: true },
  });
  if (kept) return { contentHash, made: null, heard: kept.hasSound ? await hearFrames(file, timesOf(kept.frameTimes)) : null };
  const made = await ingestVideo(file, folder);
  await keepCopies(upload.academyId, contentHash, received, made);
  return { contentHash, made, heard: made.heard };
}

async function keepCopies(academyId: Id, contentHash: string, received: string, made: { steppingPath: string; posterPath: string }): Promise<void> {
  const keys = fileKeys(academyId, contentHash);
  await blobs().keepFile(keys.stepping, made.steppingPath);
  await blobs().keepFile(keys.poster, made.posterPath);
  await blobs().keepStream(keys.original, blobs().read(received));
}

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(path.join(tmpdir(), "cagebook-video-"));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
